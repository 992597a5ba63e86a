/** What stands in a workbook of Excel's. Nothing here changes it. */
import type { CellValue } from "../../functions/bind/cell.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { rangeOf } from "./orders.ts";
import { isSupported, read } from "./run.ts";
import type { CellBlock, CellContent, Placed, Spot } from "./workbook.ts";

/** The selected cell. */
export function selection(): Promise<Spot> {
  return read(async (context) => {
    const cell = context.workbook.getActiveCell();
    cell.load("rowIndex");
    cell.load("columnIndex");
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    sheet.load("name");
    await context.sync();
    return { sheet: sheet.name, row: cell.rowIndex, column: cell.columnIndex };
  });
}

/** All cells that are selected. Excel refuses where they are several blocks. */
export function selectedBlock(): Promise<CellBlock> {
  return read(async (context) => {
    const selected = context.workbook.getSelectedRange();
    selected.load("rowIndex");
    selected.load("columnIndex");
    selected.load("rowCount");
    selected.load("columnCount");
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    sheet.load("name");
    await context.sync();
    const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = selected;
    return { sheet: sheet.name, row, column, rows, columns };
  });
}

/** How a number in a cell is shown. */
export function format({ sheet, row, column }: Spot): Promise<string> {
  return read(async (context) => {
    const on = context.workbook.worksheets.getItem(sheet);
    const cell = rangeOf(on, { row, column, rows: 1, columns: 1 });
    cell.load("numberFormat");
    await context.sync();
    const found = String(cell.numberFormat[0]?.[0] ?? "");
    return found === "General" ? "" : found;
  });
}

/** The names of all sheets, in their order. */
export function sheetNames(): Promise<string[]> {
  return read(async (context) => {
    const sheets = context.workbook.worksheets;
    sheets.load("items/name");
    await context.sync();
    return sheets.items.map(({ name }) => name);
  });
}

/** Brings a sheet to the front. */
export function show(name: string): Promise<void> {
  return read(async (context) => {
    context.workbook.worksheets.getItem(name).activate();
    await context.sync();
  });
}

/** As far as anything stands on a sheet. */
export function extent(name: string): Promise<{ rows: number; columns: number }> {
  return read(async (context) => {
    const used = context.workbook.worksheets.getItem(name).getUsedRangeOrNullObject(true);
    used.load("rowIndex,columnIndex,rowCount,columnCount");
    await context.sync();
    if (used.isNullObject) return { rows: 0, columns: 0 };
    const { rowIndex, columnIndex, rowCount, columnCount } = used;
    return { rows: rowIndex + rowCount, columns: columnIndex + columnCount };
  });
}

/** What stands in a rectangle. */
export function cells(spot: Spot, rows: number, columns: number): Promise<CellValue[][]> {
  return read(async (context) => {
    const sheet = context.workbook.worksheets.getItem(spot.sheet);
    const area = rangeOf(sheet, { ...spot, rows, columns });
    area.load("values");
    area.load("valueTypes");
    await context.sync();
    return valuesOf(area);
  });
}

/** The first cell with anything in it: a formula that shows nothing too, and one that another spills into. */
export function firstFilled(spot: Spot, rows: number, columns: number): Promise<string | null> {
  return read(async (context) => {
    const sheet = context.workbook.worksheets.getItem(spot.sheet);
    const area = rangeOf(sheet, { ...spot, rows, columns });
    area.load("formulas");
    area.load("values");
    await context.sync();
    const { formulas, values } = area;
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        if (formulas[row]?.[column] === "" && values[row]?.[column] === "") continue;
        return cellName(spot.row + row, spot.column + column);
      }
    }
    return null;
  });
}

export function content({ sheet, row, column }: Spot): Promise<CellContent> {
  return read(async (context) => {
    const on = context.workbook.worksheets.getItem(sheet);
    const cell = rangeOf(on, { row, column, rows: 1, columns: 1 });
    cell.load("formulas");
    cell.load("values");
    cell.load("valueTypes");
    const parent = isSupported("1.12") ? cell.getSpillParentOrNullObject() : cell;
    parent.load("formulas");
    parent.load("rowIndex");
    parent.load("columnIndex");
    await context.sync();
    const first = parent.isNullObject
      ? { formulas: cell.formulas, rowIndex: row, columnIndex: column }
      : parent;
    const formula = String(first.formulas[0]?.[0] ?? "");
    return {
      formula: formula.startsWith("=") ? formula : null,
      value: valuesOf(cell)[0]?.[0] ?? null,
      from: { sheet, row: first.rowIndex, column: first.columnIndex },
    };
  });
}

/** The most cells that are asked for at a time: on the web an answer may hold five megabytes. */
const MOST_CELLS = 20_000;

/** Every formula of the workbook, sheet by sheet and block by block. */
export async function formulas(): Promise<Placed[]> {
  const names = await sheetNames();
  const found: Placed[] = [];
  for (const name of names) found.push(...(await formulasOn(name)));
  return found;
}

function formulasOn(name: string): Promise<Placed[]> {
  return read(async (context) => {
    const sheet = context.workbook.worksheets.getItem(name);
    const used = sheet.getUsedRangeOrNullObject();
    used.load("rowIndex");
    used.load("columnIndex");
    used.load("rowCount");
    used.load("columnCount");
    await context.sync();
    if (used.isNullObject) return [];
    const { rowIndex, columnIndex: column, rowCount, columnCount: columns } = used;
    const most = Math.max(1, Math.floor(MOST_CELLS / columns));
    const found: Placed[] = [];
    for (let row = rowIndex; row < rowIndex + rowCount; row += most) {
      const rows = Math.min(most, rowIndex + rowCount - row);
      const block = rangeOf(sheet, { row, column, rows, columns });
      block.load("formulas");
      block.load("values");
      block.load("valueTypes");
      // eslint-disable-next-line office-addins/no-context-sync-in-loop -- block by block is the point
      await context.sync();
      found.push(...placedIn(block, { sheet: name, row, column }));
    }
    return found;
  });
}

function placedIn(block: Excel.Range, first: Spot): Placed[] {
  const values = valuesOf(block);
  return block.formulas.flatMap((line: unknown[], i) =>
    line.flatMap((formula, j) => {
      if (typeof formula !== "string" || !formula.startsWith("=")) return [];
      const spot = { sheet: first.sheet, row: first.row + i, column: first.column + j };
      return [{ spot, formula, value: values[i]?.[j] ?? null }];
    }),
  );
}

/** A cell's value as Excel tells it: an error is a text that opens with # and has that type. */
function valueOf(value: unknown, type: string | undefined): CellValue {
  if (type === "Empty") return null;
  if (type === "Error") return { fault: String(value) };
  // What is left are numbers, texts and truths: Office's types leave a value open.
  return value as CellValue;
}

export function valuesOf(range: { values: unknown[][]; valueTypes: string[][] }): CellValue[][] {
  return range.values.map((row, i) =>
    row.map((value, j) => valueOf(value, range.valueTypes[i]?.[j])),
  );
}
