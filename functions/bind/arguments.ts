/** The arguments of a call, and its lines: a call whose arguments are ranges has several. */
import type { Bound } from "../catalog/entry.ts";
import { WORD_KINDS } from "../catalog/kinds.ts";
import {
  type CellValue,
  type Fault,
  type Grid,
  type BoundParam,
  gridOf,
  isEmpty,
  isEmptyRow,
  isFault,
  onlyCell,
  readRange,
  readSingle,
  readWord,
} from "./cell.ts";

/**
 * An argument of a call as its lines see it. What is the same for all lines is worked out once. All
 * are made alike, with the same members: ten thousand lines look into them.
 */
export class Argument {
  /** Its cell of the line that is looked at; a range that is read whole has none. */
  cell: CellValue = null;
  /** One cell for many lines: like a unit that is typed once, it does not fill a line. */
  isStretched = false;
  /**
   * A required quantity. A line on which none is filled is a spare line of a table, not a mistake.
   */
  readonly isQuantity: boolean;
  /** The first error in a range that is read whole. */
  readonly fault: Fault | undefined;
  private readonly isWord: boolean;
  private readonly isNothingWhole: boolean;
  private isRead = false;
  private whole: unknown;

  constructor(
    readonly param: BoundParam,
    readonly grid: Grid,
  ) {
    this.isWord = WORD_KINDS.has(param.kind);
    this.isQuantity = !param.optional && !this.isWord;
    this.fault = param.range ? firstFault(grid) : undefined;
    this.isNothingWhole = param.range && grid.every((row) => row.every(isEmpty));
  }

  /** What the pure function gets for it; a range that is read whole is read once for all lines. */
  read(): unknown {
    const { param, cell } = this;
    if (!param.range) return this.isWord ? readWord(param, cell) : readSingle(param, cell);
    if (!this.isRead) this.whole = readRange(param, this.grid);
    this.isRead = true;
    return this.whole;
  }

  /** Whether nothing is filled in for this line. */
  isNothing(): boolean {
    return this.param.range ? this.isNothingWhole : isEmpty(this.cell);
  }
}

/** How many lines a call has, down and across. */
export interface Extent {
  rows: number;
  columns: number;
}

/** A line of a call, counted from zero. */
export interface Line {
  row: number;
  column: number;
}

/** The arguments of a call, as many as the function has. */
export function argumentsOf(entry: Bound, args: readonly unknown[]): Argument[] {
  const filled = withoutSpareEnds(args);
  const given = entry.params.map((param, i) => new Argument(param, gridOf(filled[i])));
  const { rows, columns } = extentOf(given);
  if (rows * columns > 1) {
    for (const each of given)
      each.isStretched = !each.param.range && onlyCell(each.grid) !== undefined;
  }
  return given;
}

/** How many lines these arguments make together. */
export function extentOf(args: readonly Argument[]): Extent {
  let [rows, columns] = [1, 1];
  for (const { param, grid } of args) {
    if (param.range) continue;
    rows = Math.max(rows, grid.length);
    columns = Math.max(columns, grid[0]?.length ?? 0);
  }
  return { rows, columns };
}

/** From so many rows on a range is a whole column, of which only the filled lines are meant. */
const TALL = 10_000;

/** Whole columns without the blank lines below the last that is filled in any of them. */
export function withoutSpareEnds(args: readonly unknown[]): readonly unknown[] {
  const isTall = (arg: unknown) => Array.isArray(arg) && arg.length >= TALL;
  if (!args.some(isTall)) return args;
  const rows = Math.max(1, ...args.map((arg) => (Array.isArray(arg) ? filledRows(arg) : 1)));
  return args.map((arg) => (Array.isArray(arg) && isTall(arg) ? arg.slice(0, rows) : arg));
}

function filledRows(range: readonly unknown[]): number {
  return range.length < TALL ? range.length : 1 + range.findLastIndex((row) => !isEmptyRow(row));
}

function firstFault(grid: Grid): Fault | undefined {
  for (const row of grid) {
    const fault = row.find(isFault);
    if (fault) return fault;
  }
  return undefined;
}

/** The cell of a range for a line: single cells, rows and columns stretch; past the end is #N/A. */
export function at(grid: Grid, row: number, column: number): CellValue {
  const cells = grid[grid.length === 1 ? 0 : row];
  const cell = cells?.[cells.length === 1 ? 0 : column];
  if (cell !== undefined) return cell;
  return { fault: "#N/A", text: "the ranges are of unlike length: this one has ended" };
}

/** What the pure function gets for a call of one line; what is left out is undefined. */
export function inputsOf(entry: Bound, args: readonly unknown[]): unknown[] {
  return argumentsOf(entry, args).map((arg) => {
    if (!arg.param.range) arg.cell = at(arg.grid, 0, 0);
    return arg.read();
  });
}

/** How many lines a call has, down and across. */
export function linesOf(entry: Bound, args: readonly unknown[]): Extent {
  return extentOf(argumentsOf(entry, args));
}

/** One line of a call as a host would pass it: its own cells, and ranges whole. */
export function lineOf(entry: Bound, args: readonly unknown[], { row, column }: Line): Grid[] {
  return argumentsOf(entry, args).map(({ param, grid }) =>
    param.range ? grid : [[at(grid, row, column)]],
  );
}
