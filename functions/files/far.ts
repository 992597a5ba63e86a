/**
 * Cells that are filled far from all else, by a slip most often: the local sheet would need a grid
 * as large as their place, and seconds to make it. They are left out of its sight, and stay in the
 * file.
 */
import { cellName, readCellName } from "../formula/addresses.ts";
import { referencesIn } from "./shift.ts";
import type { ReadRow } from "./rows.ts";

/** The first row and column that are out of sight, from zero. */
export interface Fence {
  row: number;
  column: number;
}

export interface Far {
  fence: Fence;
  /** How many rows and columns are shown. */
  shown: Fence;
  /** The filled cells that are out of sight. */
  cells: string[];
}

/**
 * So many empty rows or columns part what is far from the rest: half a second's work for the local
 * sheet.
 */
const GAP = { row: 20_000, column: 2_000 };

/** The end of any sheet, where nothing is out of sight. */
const END: Fence = { row: 1_048_576, column: 16_384 };

/**
 * Rows and columns of looks alone that are still shown beyond the last filled one; the least that
 * is shown.
 */
const SPARE: Fence = { row: 100, column: 30 };

function isBeyond(fence: Fence, row: number, column: number): boolean {
  return row >= fence.row || column >= fence.column;
}

/** What of a sheet is far: beyond a fence that is known, or beyond the first great gap. */
export function farOf(rows: readonly ReadRow[], known?: Fence): Far {
  const filled = rows.flatMap(({ number, cells }) =>
    cells.flatMap(({ column, isUsed }) => (isUsed ? [{ row: number - 1, column }] : [])),
  );
  const fence = known ?? fenceOf(filled);
  const cells = filled.flatMap(({ row, column }) =>
    isBeyond(fence, row, column) ? [cellName(row, column)] : [],
  );
  return { fence, cells, shown: shownOf(rows, filled, fence) };
}

function shownOf(rows: readonly ReadRow[], filled: readonly Fence[], fence: Fence): Fence {
  const near = filled.filter(({ row, column }) => !isBeyond(fence, row, column));
  const reach = (dimension: keyof Fence) =>
    most(near.map((cell) => cell[dimension] + 1)) + SPARE[dimension];
  const [lastRow, lastColumn] = [reach("row"), reach("column")];
  const within = rows.filter(({ number }) => number <= lastRow);
  const columns = within.flatMap(({ cells }) => cells.map(({ column }) => column + 1));
  return {
    row: Math.max(SPARE.row, most(within.map(({ number }) => number))),
    column: Math.max(SPARE.column, most(columns.filter((column) => column <= lastColumn))),
  };
}

/** A sheet may have more rows than a call takes arguments. */
function most(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.max(a, b), 0);
}

function fenceOf(filled: readonly Fence[]): Fence {
  const row = afterGap(
    filled.map((cell) => cell.row),
    "row",
  );
  const shown = filled.filter((cell) => cell.row < row);
  return {
    row,
    column: afterGap(
      shown.map((cell) => cell.column),
      "column",
    ),
  };
}

/** The first place beyond a great gap. */
function afterGap(places: readonly number[], dimension: keyof Fence): number {
  let last = 0;
  for (const place of [...new Set(places)].sort((a, b) => a - b)) {
    if (place - last > GAP[dimension]) return place;
    last = place;
  }
  return END[dimension];
}

/** Whether a formula on a sheet reads cells that are out of sight on another, or on its own. */
export function reads(
  formula: string,
  own: string,
  sheet: string,
  cells: readonly string[],
): boolean {
  return referencesIn(formula).some(({ sheetName, range }) => {
    if ((sheetName || own).toLowerCase() !== sheet.toLowerCase()) return false;
    const { top, left, bottom, right } = range;
    return cells
      .map(readCellName)
      .some(
        ({ row, column }) =>
          row >= (top ?? 0) &&
          row <= (bottom ?? END.row) &&
          column >= (left ?? 0) &&
          column <= (right ?? END.column),
      );
  });
}
