/** Sheets of Excel's that are drawn on anew: rows put in, cells, and lists made as long and as wide as drawn. */
import { type Area, type PlacedDrawing, addressOf, placed } from "../sheets/drawing.ts";
import type { RowsIn } from "../sheets/lay.ts";
import { orderLists } from "./lists.ts";
import { order, rangeOf } from "./orders.ts";
import type { Redrawn } from "./workbook.ts";

/** A sheet to draw on anew, and what stands there once its rows are put in. */
export interface Standing {
  sheet: string;
  /** With the lists that it has no table of. */
  drawing: PlacedDrawing;
  rowsIn: readonly RowsIn[];
  formulas: unknown[][];
  tables: { id: string; before: Area; after: Area }[];
  /** The tables that were there, by their ids. */
  known: string[];
}

/** Puts rows in, and tells what stands where sheets will be drawn on. Of a refused one no rows stay. */
export async function standing(
  context: Excel.RequestContext,
  redrawn: readonly Redrawn[],
): Promise<Standing[]> {
  const found: Standing[] = [];
  try {
    for (const each of redrawn) found.push(await oneStanding(context, each));
  } catch (error) {
    await putBackOld(found);
    throw error;
  }
  return found;
}

async function oneStanding(
  context: Excel.RequestContext,
  { sheet: name, rowsIn = [], drawing: all }: Redrawn,
): Promise<Standing> {
  const drawing = { ...placed(all, 0, 0), ...boundsOf(all) };
  const sheet = context.workbook.worksheets.getItem(name);
  // Those furthest down first: the others stay where they are told to be.
  for (const { row, count } of [...rowsIn].reverse()) rowsOf(sheet, row, count).insert("Down");
  const area = rangeOf(sheet, drawing);
  area.load("formulas");
  const { tables } = sheet;
  tables.load("items/id");
  await context.sync();
  const ranges = tables.items.map((table) => ({ id: table.id, range: table.getRange() }));
  for (const { range } of ranges) range.load("rowIndex,columnIndex,rowCount,columnCount");
  await context.sync();
  const { lists = [] } = drawing;
  const stretched = ranges.flatMap(({ id, range }) => {
    const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = range;
    const before = { row, column, rows, columns };
    const list = lists.find((each) => isAt(each, before));
    return list ? [{ id, list, before, after: both(before, list) }] : [];
  });
  const added = lists.filter((list) => !stretched.some((each) => each.list === list));
  return {
    sheet: name,
    drawing: { ...drawing, lists: added },
    rowsIn,
    formulas: area.formulas,
    tables: stretched,
    known: ranges.map(({ id }) => id),
  };
}

const rowsOf = (sheet: Excel.Worksheet, row: number, rows: number): Excel.Range =>
  rangeOf(sheet, { row, column: 0, rows, columns: 1 }).getEntireRow();

export function orderAnew(
  context: Excel.RequestContext,
  { sheet: name, drawing, tables }: Standing,
  tableNames: Set<string>,
) {
  const sheet = context.workbook.worksheets.getItem(name);
  for (const { id, after } of tables) sheet.tables.getItem(id).resize(addressOf(after));
  order(context, sheet, drawing);
  orderLists(sheet, drawing, tableNames);
  hideColumns(sheet, drawing, true);
}

function hideColumns(sheet: Excel.Worksheet, { hidden = [] }: PlacedDrawing, isHidden: boolean) {
  for (const column of hidden)
    rangeOf(sheet, { row: 0, column, rows: 1, columns: 1 }).columnHidden = isHidden;
}

/** Texts, rows and lists as they were; looks may stay. */
export async function putBackOld(old: readonly Standing[]): Promise<void> {
  if (old.length === 0) return;
  await Excel.run(async (context) => {
    for (const { sheet: name, drawing, rowsIn, formulas, tables, known } of old) {
      const sheet = context.workbook.worksheets.getItem(name);
      const { tables: now } = sheet;
      now.load("items/id");
      // eslint-disable-next-line office-addins/no-context-sync-in-loop -- few sheets, and seldom
      await context.sync();
      for (const table of now.items) if (!known.includes(table.id)) table.convertToRange();
      rangeOf(sheet, drawing).formulas = formulas;
      for (const { id, before } of tables) sheet.tables.getItem(id).resize(addressOf(before));
      hideColumns(sheet, drawing, false);
      for (const { row, count } of rowsIn) rowsOf(sheet, row, count).delete("Up");
    }
    await context.sync();
  });
}

/** The rectangle of all that is drawn. */
function boundsOf({ cells, rules, marks }: Redrawn["drawing"]): Area {
  const areas = [...cells.map((cell) => ({ ...cell, rows: 1, columns: 1 })), ...rules, ...marks];
  if (areas.length === 0) return { row: 0, column: 0, rows: 1, columns: 1 };
  const row = Math.min(...areas.map((each) => each.row));
  const column = Math.min(...areas.map((each) => each.column));
  const bottom = Math.max(...areas.map((each) => each.row + each.rows));
  const right = Math.max(...areas.map((each) => each.column + each.columns));
  return { row, column, rows: bottom - row, columns: right - column };
}

/** Whether a list begins within a table. */
function isAt({ row, column }: Area, table: Area): boolean {
  const [down, across] = [row - table.row, column - table.column];
  return down === 0 && across >= 0 && across < table.columns;
}

function both(a: Area, b: Area): Area {
  const column = Math.min(a.column, b.column);
  const right = Math.max(a.column + a.columns, b.column + b.columns);
  const bottom = Math.max(a.row + a.rows, b.row + b.rows);
  return { row: a.row, column, rows: bottom - a.row, columns: right - column };
}
