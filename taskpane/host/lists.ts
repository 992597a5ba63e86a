/**
 * Lists that grow, as tables of Excel's: what is typed or pasted right below one, or inserted within, becomes a
 * line of it, and gets the formulas of the column.
 */
import { freeTableName } from "../../functions/files/table-names.ts";
import {
  type Area,
  type DrawnList,
  type PlacedDrawing,
  addressOf,
  isWithin,
} from "../sheets/drawing.ts";
import { rangeOf } from "./orders.ts";
import { isSupported } from "./run.ts";
import type { TypedCell } from "./workbook.ts";

/** Makes the lists tables, which have their looks from the cells; the names are those that no table has, and are added to `names`. */
export function orderLists(sheet: Excel.Worksheet, drawing: PlacedDrawing, names: Set<string>) {
  for (const list of drawing.lists ?? []) {
    const table = sheet.tables.add(addressOf(list), true);
    table.name = freeTableName(list.name, names);
    table.style = "TableStyleLight1";
    table.showBandedRows = false;
    orderFormulas(sheet, drawing, list);
  }
}

/** Entered in the table, the formula of all lines is the column's own: Excel fills it into new lines. */
function orderFormulas(sheet: Excel.Worksheet, { cells }: PlacedDrawing, list: DrawnList) {
  const body = { ...list, row: list.row + 1, rows: list.rows - 1 };
  for (let column = list.column; column < list.column + list.columns; column++) {
    const formulas = cells
      .filter((cell) => cell.column === column && isWithin(cell, body))
      .sort((a, b) => a.row - b.row)
      .map(({ content }) => content)
      .filter((content) => String(content).startsWith("="));
    if (formulas.length < body.rows) continue;
    rangeOf(sheet, { ...body, column, columns: 1 }).formulas = formulas.map((each) => [each]);
  }
}

/**
 * The drawing of a new sheet with the rules, marks and formats of each list as far as formulas elsewhere look
 * down, so that what is typed below the last line is read as in the list.
 */
export function reaching(drawing: PlacedDrawing): PlacedDrawing {
  const { lists = [], rules, marks } = drawing;
  const stretched = <T extends { row: number; column: number; rows: number }>(area: T): T => {
    const list = lists.find((each) => isLastOf(area, each));
    return list ? { ...area, rows: list.row + 1 + list.reach - area.row } : area;
  };
  return { ...drawing, rules: rules.map(stretched), marks: marks.map(stretched) };
}

/** True of what goes as far as the last line of a list. */
function isLastOf(
  { row, column, rows }: { row: number; column: number; rows: number },
  list: DrawnList,
) {
  const isBelowHeadings = row > list.row && row + rows === list.row + list.rows;
  return isBelowHeadings && column >= list.column && column < list.column + list.columns;
}

/** Number formats below the last line, as far as formulas elsewhere look down. */
export function orderFormats(sheet: Excel.Worksheet, { lists = [], cells }: PlacedDrawing) {
  for (const list of lists) {
    const last = list.row + list.rows - 1;
    const rows = list.reach - (list.rows - 1);
    for (const { row, column, format } of cells) {
      const isOurs = row === last && column >= list.column && column < list.column + list.columns;
      if (!isOurs || !format || rows < 1) continue;
      const below = rangeOf(sheet, { row: last + 1, column, rows, columns: 1 });
      // One format for all cells of a range goes as itself, which the types do not say.
      below.numberFormat = format as unknown as string[][];
    }
  }
}

/**
 * Makes tables longer by the lines that will be typed right below them. Excel does so by itself for what a person
 * types; for what a program types, the person's settings of automatic correction decide.
 */
export async function lengthen(context: Excel.RequestContext, cells: readonly TypedCell[]) {
  if (!isSupported("1.13")) return;
  const typed = cells.filter(({ content }) => content !== null);
  for (const name of new Set(typed.map(({ spot }) => spot.sheet))) {
    const { tables } = context.workbook.worksheets.getItem(name);
    tables.load("items/id");
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a sheet or two
    await context.sync();
    const found = tables.items.map((table) => ({ table, range: table.getRange() }));
    for (const { range } of found)
      for (const each of ["rowIndex", "columnIndex", "rowCount", "columnCount"]) range.load(each);
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- a sheet or two
    await context.sync();
    const spots = typed.map(({ spot }) => spot).filter(({ sheet }) => sheet === name);
    for (const { table, range } of found) {
      const { rowIndex: row, columnIndex: column, rowCount, columnCount: columns } = range;
      const rows = rowsWith(spots, { row, column, rows: rowCount, columns });
      if (rows > rowCount) table.resize(addressOf({ row, column, rows, columns }));
    }
  }
}

/** The rows of a list with those right below it that something is typed into. */
function rowsWith(
  spots: readonly { row: number; column: number }[],
  { row, column, rows, columns }: Area,
) {
  const isTyped = (at: number) =>
    spots.some(
      (spot) => spot.row === at && spot.column >= column && spot.column < column + columns,
    );
  let all = rows;
  while (isTyped(row + all)) all++;
  return all;
}
