/** Sheets of Excel's that are drawn on anew: their cells, and their lists made as long and as wide as drawn. */
import { type Area, type PlacedDrawing, addressOf, placed } from "../sheets/drawing.ts";
import { order, rangeOf } from "./orders.ts";
import type { Redrawn } from "./workbook.ts";

/** A sheet to draw on anew, and what stands there before. */
export interface Standing {
  sheet: string;
  drawing: PlacedDrawing;
  formulas: unknown[][];
  tables: { id: string; before: Area; after: Area }[];
}

/** What stands where sheets will be drawn on. */
export async function standing(
  context: Excel.RequestContext,
  redrawn: readonly Redrawn[],
): Promise<Standing[]> {
  const found: Standing[] = [];
  for (const { sheet: name, drawing: all } of redrawn) {
    const drawing = { ...placed(all, 0, 0), ...boundsOf(all) };
    const sheet = context.workbook.worksheets.getItem(name);
    const area = rangeOf(sheet, drawing);
    area.load("formulas");
    const { tables } = sheet;
    tables.load("items/id");
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- few sheets, and only once
    await context.sync();
    const ranges = tables.items.map((table) => ({ id: table.id, range: table.getRange() }));
    for (const { range } of ranges)
      for (const each of ["rowIndex", "columnIndex", "rowCount", "columnCount"]) range.load(each);
    // eslint-disable-next-line office-addins/no-context-sync-in-loop -- few sheets, and only once
    await context.sync();
    const stretched = ranges.flatMap(({ id, range }) => {
      const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = range;
      const before = { row, column, rows, columns };
      const list = drawing.lists?.find((each) => isAt(each, before));
      return list ? [{ id, before, after: both(before, list) }] : [];
    });
    found.push({ sheet: name, drawing, formulas: area.formulas, tables: stretched });
  }
  return found;
}

export function orderAnew(
  context: Excel.RequestContext,
  { sheet: name, drawing, tables }: Standing,
) {
  const sheet = context.workbook.worksheets.getItem(name);
  for (const { id, after } of tables) sheet.tables.getItem(id).resize(addressOf(after));
  order(context, sheet, drawing);
  for (const column of drawing.hidden ?? [])
    rangeOf(sheet, { row: 0, column, rows: 1, columns: 1 }).columnHidden = true;
}

/** Texts and lists as they were; looks may stay. */
export async function putBackOld(old: readonly Standing[]): Promise<void> {
  if (old.length === 0) return;
  await Excel.run(async (context) => {
    for (const { sheet: name, drawing, formulas, tables } of old) {
      const sheet = context.workbook.worksheets.getItem(name);
      rangeOf(sheet, drawing).formulas = formulas;
      for (const { id, before } of tables) sheet.tables.getItem(id).resize(addressOf(before));
      for (const column of drawing.hidden ?? [])
        rangeOf(sheet, { row: 0, column, rows: 1, columns: 1 }).columnHidden = false;
    }
    await context.sync();
  });
}

/** The rectangle of all that is drawn. */
function boundsOf({ cells, rules, marks }: Redrawn["drawing"]): Area {
  const areas = [...cells.map((cell) => ({ ...cell, rows: 1, columns: 1 })), ...rules, ...marks];
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
