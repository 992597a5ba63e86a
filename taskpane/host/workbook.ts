/**
 * The port: the few things that the pane may ask of a workbook. excel-workbook.ts answers for Excel,
 * localsheet/local-workbook.ts for the local sheet.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import type { Drawing } from "../sheets/drawing.ts";
import type { RowsIn } from "../sheets/lay.ts";

export type { CellValue };

/** A cell of a sheet. Rows and columns count from zero. */
export interface Spot {
  sheet: string;
  row: number;
  column: number;
}

/** A rectangle of cells on a sheet. */
export interface CellBlock extends Spot {
  rows: number;
  columns: number;
}

/** What a cell holds and shows. */
export interface CellContent {
  /** Its formula, in English, with its =; of a spilled answer, that of its first cell. Null for anything else. */
  formula: string | null;
  value: CellValue;
  /** Where the formula stands: the cell itself, or the first cell of the answer that spills into it. */
  from: Spot;
}

/** A formula and where it stands. */
export interface Placed {
  spot: Spot;
  formula: string;
  value: CellValue;
}

/** A sheet to add. */
export interface NewSheet {
  name: string;
  drawing: Drawing;
}

/** A sheet that was drawn before, and what is drawn on it anew; what the drawing leaves out stays. */
export interface Redrawn {
  sheet: string;
  /** Whole rows that are put in first, from the top, each above a row as it is before all of them. */
  rowsIn?: readonly RowsIn[];
  drawing: Drawing;
}

/** A cell to type into. */
export interface TypedCell {
  spot: Spot;
  content: string | number | null;
  /** How a number in it is shown; where it is left out, as before. */
  format?: string;
}

export interface Workbook {
  /** The selected cell; of several, the one that typing would go into, or the first. */
  selection(): Promise<Spot>;
  /** All cells that are selected. Rejects where they are several blocks. */
  selectedBlock(): Promise<CellBlock>;
  /** How a number in a cell is shown, as a format; "" where nothing was set. */
  format(spot: Spot): Promise<string>;
  /** The name of the first cell that is not empty in a rectangle, row by row, or null. */
  firstFilled(spot: Spot, rows: number, columns: number): Promise<string | null>;
  /**
   * Adds a sheet at the end, draws on it and shows it; resolves to the sheet's name, which is the title
   * or, where that is taken, the title with a number. A failure leaves the workbook as it was.
   */
  drawOnNewSheet(title: string, drawing: Drawing, redrawn?: readonly Redrawn[]): Promise<string>;
  /**
   * Adds several sheets at the end, draws on each and shows the first; draws others anew in the same step. The
   * names are free ones; formulas may lead from any sheet to any other. A failure leaves the workbook as it was.
   */
  drawOnNewSheets(sheets: readonly NewSheet[], redrawn?: readonly Redrawn[]): Promise<void>;
  /** The names of all sheets, in their order. */
  sheetNames(): Promise<string[]>;
  /** Brings a sheet to the front. */
  show(sheet: string): Promise<void>;
  /** How many rows and columns of a sheet, from its first cell, hold all that stands on it. */
  extent(sheet: string): Promise<{ rows: number; columns: number }>;
  /** What stands in a rectangle; what lies beyond the sheet is blank. */
  read(spot: Spot, rows: number, columns: number): Promise<CellValue[][]>;
  /** Types into cells and empties them (null), in one step; formulas begin with =. */
  write(cells: readonly TypedCell[]): Promise<void>;
  /** Draws with its first cell at the spot, and other sheets anew. A failure leaves the workbook as it was. */
  drawAt(spot: Spot, drawing: Drawing, redrawn?: readonly Redrawn[]): Promise<void>;
  /** Draws on sheets anew, in one step. A failure leaves them as they were. */
  redraw(redrawn: readonly Redrawn[]): Promise<void>;
  /** Calls back when another cell is selected, or what stands in cells changes. */
  onChange(listener: () => void): Promise<void>;
  /** What a cell holds. */
  content(spot: Spot): Promise<CellContent>;
  /**
   * What ranges, names and formulas give, written as if in the cell; null for one that cannot be told.
   * Changes nothing in the workbook.
   */
  values(spot: Spot, expressions: string[]): Promise<(CellValue[][] | null)[]>;
  /** Every formula of the workbook. */
  formulas(): Promise<Placed[]>;
  /** Enters formulas where they stand; gives for each why it was refused, or null. */
  enter(formulas: readonly Placed[]): Promise<(string | null)[]>;
  /** Takes away what an older version of ours left behind, where the host has any; gives how many there were. */
  sweep?(): Promise<number>;
  /** The workbook's own file, .xlsx, as it is now. */
  file(): Promise<Uint8Array>;
  /** Gives the bytes of a workbook to the person; tells, in a sentence, where it went. */
  give(bytes: Uint8Array, name: string): Promise<string>;
}
