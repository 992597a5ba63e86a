/**
 * What ranges, names, tables and small expressions of a workbook hold. Everything is read or worked out here;
 * nothing is written to the workbook, not even a name that goes again.
 */
import { parseStructRef } from "@borgar/fx/xlsx";
import type { Grid } from "../../functions/bind/cell.ts";
import { readFormula } from "../../functions/formula/reader.ts";
import { type Node, childrenOf } from "../../functions/formula/tree.ts";
import { absolute, isRange, rangeIn } from "../../functions/formula/references.ts";
import { type References, Untold, evaluate } from "../working/evaluate.ts";
import type { Area } from "../sheets/drawing.ts";
import { rangeOf } from "./orders.ts";
import { valuesOf } from "./read.ts";
import { isSupported, read } from "./run.ts";
import type { Spot } from "./workbook.ts";

/** A range of more cells than this is read only as far as it is used. */
const LARGE = 10_000;

/** Names may stand for names; so deep at the most. */
const DEEPEST = 8;

/** What an expression gives, written as if in the cell; null where that cannot be told. */
export async function told(spot: Spot, expression: string): Promise<Grid | null> {
  try {
    if (isRange(expression)) return await rangeValues(spot, expression);
    return await evaluate(readFormula(expression), referencesAt(spot));
  } catch {
    // Not ours to mend: a name that is not there, a sheet that is protected, a function that we do not know.
    return null;
  }
}

function referencesAt(spot: Spot, depth = 0): References {
  return {
    here: spot,
    range: (text) => (isRange(text) ? rangeValues(spot, text) : untold()),
    spill: (text) => (isRange(text) ? rangeValues(spot, text, true) : untold()),
    table: (text) => tableValues(spot, text),
    name: async (text) => {
      const formula = await formulaOf(spot, text);
      if (formula === null || depth >= DEEPEST) return untold();
      const tree = readFormula(formula);
      // What such a name means depends on the cell that it is used in.
      if (isRelative(tree)) return untold();
      return evaluate(tree, referencesAt(spot, depth + 1));
    },
  };
}

function untold(): never {
  throw new Untold();
}

function rangeValues(spot: Spot, expression: string, asSpill = false): Promise<Grid> {
  return read(async (context) => {
    const { sheet, address } = absolute(expression, spot.sheet);
    const on = context.workbook.worksheets.getItem(sheet);
    const named = on.getRange(address);
    if (asSpill && !isSupported("1.12")) return untold();
    const range = asSpill ? named.getSpillingToRange() : named;
    const used = on.getUsedRangeOrNullObject(true);
    range.load("rowIndex,columnIndex,rowCount,columnCount");
    used.load("rowIndex,columnIndex,rowCount,columnCount");
    await context.sync();
    const whole = blockOf(range);
    const isLarge = whole.rows * whole.columns > LARGE;
    if (isLarge && used.isNullObject) return [[null]];
    // Ranges side by side end alike, and keep their first line: MATCH counts from there.
    const wanted = isLarge ? rangeOf(on, upTo(whole, blockOf(used))) : range;
    wanted.load("values");
    wanted.load("valueTypes");
    await context.sync();
    return valuesOf(wanted);
  });
}

function blockOf({ rowIndex, columnIndex, rowCount, columnCount }: Excel.Range): Area {
  return { row: rowIndex, column: columnIndex, rows: rowCount, columns: columnCount };
}

/** A block as far as a sheet is used; one line at the least. */
function upTo(block: Area, used: Area): Area {
  const rows = Math.min(block.rows, used.row + used.rows - block.row);
  const columns = Math.min(block.columns, used.column + used.columns - block.column);
  return { ...block, rows: Math.max(1, rows), columns: Math.max(1, columns) };
}

/** What a name stands for: the sheet's own goes before the workbook's. */
function formulaOf(spot: Spot, name: string): Promise<string | null> {
  return read(async (context) => {
    const { workbook } = context;
    const sheet = workbook.worksheets.getItem(spot.sheet);
    const own = sheet.names.getItemOrNullObject(name);
    const common = workbook.names.getItemOrNullObject(name);
    own.load("formula");
    common.load("formula");
    await context.sync();
    const found = own.isNullObject ? common : own;
    return found.isNullObject ? null : String(found.formula);
  });
}

function isRelative(node: Node): boolean {
  if (node.type === "ReferenceIdentifier" && isRange(node.value)) {
    const found = rangeIn(node.value);
    if (!found?.sheetName) return true;
    const { top, left, bottom, right, $top, $left, $bottom, $right } = found.range;
    const isHeld = (at: unknown, held?: boolean | null) => at === null || at === undefined || held;
    return !(
      isHeld(top, $top) &&
      isHeld(left, $left) &&
      isHeld(bottom, $bottom) &&
      isHeld(right, $right)
    );
  }
  return childrenOf(node).some((child) => child !== null && isRelative(child));
}

/** A column of a table, or its cell in the row of the spot; the table may go without saying. */
function tableValues(spot: Spot, text: string): Promise<Grid> {
  return read(async (context) => {
    const found = parseStructRef(text);
    const sections = found?.sections ?? [];
    const [column, ...more] = found?.columns ?? [];
    const isRow = sections.includes("this row");
    if (!found || !column || more.length > 0 || (sections.length > 0 && !isRow)) return untold();
    const here = context.workbook.worksheets
      .getItem(spot.sheet)
      .getRangeByIndexes(spot.row, spot.column, 1, 1);
    const table = found.table
      ? context.workbook.tables.getItem(found.table)
      : here.getTables(false).getFirst();
    const body = table.columns.getItem(column).getDataBodyRange();
    body.load("rowIndex");
    body.load("values");
    body.load("valueTypes");
    await context.sync();
    const values = valuesOf(body);
    if (!isRow) return values;
    const line = values[spot.row - body.rowIndex];
    return [line ?? [{ fault: "#VALUE!" }]];
  });
}
