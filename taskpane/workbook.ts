/**
 * The port: the few things that the pane may ask of a workbook. excel-workbook.ts answers for Excel,
 * localsheet/local-workbook.ts for the local sheet.
 */
import type { Drawing } from "./template";

/** A cell of a sheet. Rows and columns count from zero. */
export interface Spot {
  sheet: string;
  row: number;
  column: number;
}

export interface Workbook {
  /** The selected cell; of several, the one that typing would go into, or the first. */
  selection(): Promise<Spot>;
  /** The name of the first cell that is not empty in a rectangle, row by row, or null. */
  firstFilled(spot: Spot, rows: number, columns: number): Promise<string | null>;
  /**
   * Adds a sheet at the end, draws on it and shows it; resolves to the sheet's name, which is the title
   * or, where that is taken, the title with a number. A failure leaves the workbook as it was.
   */
  drawOnNewSheet(title: string, drawing: Drawing): Promise<string>;
  /** Draws with its first cell at the spot. A failure leaves the workbook as it was. */
  drawAt(spot: Spot, drawing: Drawing): Promise<void>;
}

/** A name for a new sheet: the title, or the title with the first free number. */
export function freeName(title: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const ending = n === 1 ? "" : ` ${n}`;
    // Excel allows 31 characters in a sheet's name.
    const name = title.slice(0, 31 - ending.length) + ending;
    if (!used.has(name.toLowerCase())) return name;
  }
}
