/**
 * Ranges in, spilled ranges out.
 *
 * A pure function takes one number where a sheet may hand over a range, a blank, a word or an error.
 * lift() turns the one into the other with Excel's own broadcasting: a single cell, row or column
 * stretches; unequal lengths give #N/A where one of them has ended.
 */
import { BLANK, BlankError, CalcError } from "../../src/errors";
import type { Bound } from "../catalog/entry";
import { WORD_KINDS, isLeftOutAtZero, isRefusedAtZero } from "../catalog/kinds";

/** An error in a cell. Only #VALUE! and #N/A carry a text in Excel. */
export interface Fault {
  fault: string;
  text?: string;
}

/** What a cell holds, the host's wrappings taken off. A blank is null. */
export type CellValue = number | string | boolean | null | Fault;

export type Grid = CellValue[][];
type Pure = (...args: never[]) => unknown;
type Param = Bound["params"][number];

/** An argument of a call as its lines see it. What is the same for all lines is worked out once. */
interface Argument {
  param: Param;
  grid: Grid;
  /** Of a range that is read whole: the first error in it, and whether it holds nothing. */
  fault?: Fault;
  isNothing?: boolean;
  /** One cell for many lines: like a unit that is typed once, it does not fill a line. */
  isStretched?: boolean;
  /** Reads it for the pure function; a range that is read whole, once for all lines. */
  read: (cell: CellValue) => unknown;
}

/** The worksheet form of a pure function: whatever the host hands over, a grid comes back. */
export function lift(entry: Bound, pure: Pure): (...args: unknown[]) => Grid {
  return (...args) => {
    try {
      return spill(entry, pure, argumentsOf(entry, args));
    } catch (error) {
      return [[faultOf(error)]];
    }
  };
}

/** True for an error that stands in a cell. */
export function isFault(value: unknown): value is Fault {
  return typeof value === "object" && value !== null && "fault" in value;
}

function spill(entry: Bound, pure: Pure, args: Argument[]): Grid {
  const { rows, columns } = extentOf(args);
  for (const arg of args) {
    const isCell = arg.grid.length === 1 && arg.grid[0].length === 1;
    arg.isStretched = rows * columns > 1 && isCell && !arg.param.range;
  }
  const answer = (row: number, column: number) => line(pure, args, row, column);
  if (rows === 1 && columns === 1) return answer(0, 0);
  const blocks = count(rows).map((row) => count(columns).map((column) => answer(row, column)));
  return join(entry, blocks);
}

/** One line: its inputs checked and read, the pure function called, its answer made safe for a cell. */
function line(pure: Pure, args: Argument[], row: number, column: number): Grid {
  const cells = args.map(({ param, grid }) => (param.range ? null : at(grid, row, column)));
  const fault = cells.find(isFault) ?? args.find((arg) => arg.fault)?.fault;
  if (fault) return [[fault]];
  const isNothing = (arg: Argument, i: number) => arg.isNothing ?? isEmpty(cells[i]);
  if (args.every(isNothing)) return [[""]];
  try {
    const inputs = args.map((arg, i) => arg.read(cells[i]));
    refuseBlanks(args, inputs);
    const answer = pure(...(inputs as never[]));
    return (Array.isArray(answer) ? answer : [[answer]]).map((row: unknown[]) => row.map(settle));
  } catch (error) {
    if (error instanceof BlankError && isSpare(args, isNothing)) return [[""]];
    return [[faultOf(error)]];
  }
}

/** True for a line of which no required quantity is filled: of its own, where it has any. */
function isSpare(args: Argument[], isNothing: (arg: Argument, i: number) => boolean): boolean {
  const quantities = args.filter(({ param }) => isQuantity(param));
  const own = quantities.filter((arg) => !arg.isStretched);
  return (own.length > 0 ? own : quantities).every((arg) => isNothing(arg, args.indexOf(arg)));
}

/** A required number that was left blank is unknown, whatever the function would make of a zero. */
function refuseBlanks(args: Argument[], inputs: unknown[]) {
  const blank = args.findIndex(
    ({ param }, i) => !param.optional && !param.range && Number.isNaN(inputs[i]),
  );
  if (blank >= 0) throw new BlankError(args[blank].param.name, "blank");
}

/** A required quantity. A line on which none is filled is a spare line of a table, not a mistake. */
function isQuantity({ optional, kind }: Param): boolean {
  return !optional && !WORD_KINDS.has(kind);
}

/** A cell with nothing in it, where the host says so. */
function isBlank(cell: CellValue): boolean {
  return cell === null || cell === "";
}

/** A cell that may have nothing in it: some hosts hand a blank over as 0. */
function isEmpty(cell: CellValue): boolean {
  return isBlank(cell) || cell === 0;
}

/** A line of a call, counted from zero: calls whose arguments are ranges have several. */
export interface Line {
  row: number;
  column: number;
}

/** What a line of a call hands to the pure function; what is left out is undefined. */
export function inputsOf(
  entry: Bound,
  args: unknown[],
  { row, column }: Line = { row: 0, column: 0 },
): unknown[] {
  return argumentsOf(entry, args).map(({ param, grid, read }) =>
    read(param.range ? null : at(grid, row, column)),
  );
}

/** How many lines a call has, down and across. */
export function linesOf(entry: Bound, args: unknown[]): { rows: number; columns: number } {
  return extentOf(argumentsOf(entry, args));
}

/** One line of a call as the host would hand it over: its own cells, and ranges whole. */
export function lineOf(entry: Bound, args: unknown[], { row, column }: Line): Grid[] {
  return argumentsOf(entry, args).map(({ param, grid }) =>
    param.range ? grid : [[at(grid, row, column)]],
  );
}

function extentOf(args: Argument[]): { rows: number; columns: number } {
  const grids = args.filter(({ param }) => !param.range).map(({ grid }) => grid);
  return {
    rows: Math.max(1, ...grids.map((grid) => grid.length)),
    columns: Math.max(1, ...grids.map((grid) => grid[0].length)),
  };
}

function argumentsOf(entry: Bound, args: unknown[]): Argument[] {
  const grids = trimmed(entry.params.map((_, i) => gridOf(args[i])));
  return entry.params.map((param, i) => {
    const grid = grids[i];
    if (!param.range) return { param, grid, read: (cell) => readCell(param, cell) };
    let reading: { value: unknown } | undefined;
    return {
      param,
      grid,
      fault: firstFault(grid),
      isNothing: grid.every((row) => row.every(isEmpty)),
      read: () => (reading ??= { value: readRange(param, grid) }).value,
    };
  });
}

/** From so many rows on a range is a whole column, of which only the filled lines are meant. */
const TALL = 10_000;

/** Whole columns without the blank lines below the last that is filled in any of them. */
function trimmed(grids: Grid[]): Grid[] {
  if (grids.every((grid) => grid.length < TALL)) return grids;
  const filled = grids.map((grid) => {
    if (grid.length < TALL) return grid.length;
    let rows = grid.length;
    while (rows > 0 && grid[rows - 1].every(isEmpty)) rows--;
    return rows;
  });
  const rows = Math.max(1, ...filled);
  return grids.map((grid) => (grid.length < TALL ? grid : grid.slice(0, rows)));
}

function firstFault(grid: Grid): Fault | undefined {
  for (const row of grid) {
    const fault = row.find(isFault);
    if (fault) return fault;
  }
  return undefined;
}

/** A range that is read whole; one blank cell in place of what may be left out is nothing. */
function readRange(param: Param, grid: Grid): unknown {
  const isCell = grid.length === 1 && grid[0].length === 1;
  if (param.mixed) {
    if (param.optional && grid.every((row) => row.every(isEmpty))) return undefined;
    return grid.map((row) => row.map(plainCell));
  }
  if (param.optional && isCell && isBlank(grid[0][0])) return undefined;
  return grid.map((row) => row.map((cell) => readNumber(param, cell)));
}

function readCell(param: Param, cell: CellValue): unknown {
  if (WORD_KINDS.has(param.kind)) {
    if (isEmpty(cell)) return param.optional ? undefined : "";
    return String(cell);
  }
  if (param.optional && (isBlank(cell) || (cell === 0 && isLeftOutAtZero(param)))) return undefined;
  if (cell === 0 && isRefusedAtZero(param)) throw new CalcError(zeroDegrees(param));
  return readNumber(param, cell);
}

/** What to type, since a host may hand over a blank cell as 0. */
function zeroDegrees({ name, optional, default: fallback }: Param): string {
  const leaveOut = optional ? `, and for ${fallback} leave it out of the formula` : "";
  return `${name} is blank or zero: for zero degrees type 0.001${leaveOut}`;
}

/** A cell of a range that may hold words: a blank is an empty word. */
function plainCell(cell: CellValue): number | string {
  if (typeof cell === "number") return cell;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return cell === null ? "" : String(cell);
}

function readNumber(param: Param, cell: CellValue): number {
  if (typeof cell === "number") return cell;
  if (cell === null || cell === "") return BLANK;
  if (typeof cell === "boolean") {
    throw new CalcError(`${param.name} must be a number, got ${cell ? "TRUE" : "FALSE"}`);
  }
  const text = String(cell);
  const numeric = /^[\d.,\s]+%?$/.test(text);
  const mend = numeric ? ", which is text: retype it in a cell that is not formatted as text" : "";
  throw new CalcError(`${param.name} must be a number, got "${text}"${mend}`);
}

/** Never NaN, null or infinity in a cell. */
function settle(value: unknown): CellValue {
  if (typeof value === "string") return value;
  if (typeof value === "number" && Number.isFinite(value)) return value === 0 ? 0 : value;
  return faultOf(
    new CalcError("the result is too large for a cell: check the sizes of the inputs"),
  );
}

/**
 * The answers of all lines as one grid. An answer of several cells (two amounts, say) lies across
 * a column of lines, and down a row of them; over a whole grid of lines it has no room.
 */
function join(entry: Bound, blocks: Grid[][]): Grid {
  const answers = blocks.map((row) => row.map((block) => block.flat()));
  const length = answers.flat().reduce((most, answer) => Math.max(most, answer.length), 0);
  if (!entry.returns.range || length === 1) return answers.map((row) => row.map(([cell]) => cell));
  const isColumn = answers[0].length === 1;
  if (!isColumn && answers.length > 1) {
    throw new CalcError(`${entry.id} answers with ${length} cells: give it one row or one column`);
  }
  const lines = answers.flat().map((answer) => padded(answer, length));
  return isColumn ? lines : count(length).map((i) => lines.map((cells) => cells[i]));
}

/** A line that failed shows its error, and a blank line its blank, in every cell of the answer. */
function padded(cells: CellValue[], width: number): CellValue[] {
  return cells.length === width ? cells : count(width).map(() => cells[0]);
}

/** The cell of a range for a line: single cells, rows and columns stretch; past the end is #N/A. */
function at(grid: Grid, row: number, column: number): CellValue {
  const cells = grid[grid.length === 1 ? 0 : row];
  const cell = cells?.[cells.length === 1 ? 0 : column];
  if (cell !== undefined) return cell;
  return { fault: "#N/A", text: "the ranges are of unlike length: this one has ended" };
}

function count(length: number): number[] {
  return Array.from({ length }, (_, i) => i);
}

function gridOf(argument: unknown): Grid {
  if (!Array.isArray(argument)) return [[unwrap(argument)]];
  const grid = argument.map((row: unknown) => (Array.isArray(row) ? row : [row]).map(unwrap));
  return grid.length > 0 && grid[0].length > 0 ? grid : [[null]];
}

/** Takes off the object that a host may put around a cell's value. */
function unwrap(cell: unknown): CellValue {
  if (cell === null || cell === undefined) return null;
  if (typeof cell === "number") {
    return Number.isFinite(cell)
      ? cell
      : { fault: "#VALUE!", text: "a number came without a value" };
  }
  if (typeof cell === "string" || typeof cell === "boolean") return cell;
  // A fault that another of our functions gave.
  if (isFault(cell)) return cell;
  const wrapped = cell as { type?: string; basicValue?: unknown; code?: unknown; message?: string };
  if (wrapped.type === "Error") return { fault: String(wrapped.basicValue), text: wrapped.message };
  if ("basicValue" in wrapped) return unwrap(wrapped.basicValue);
  if (typeof wrapped.code === "string") return { fault: wrapped.code, text: wrapped.message };
  return { fault: "#VALUE!", text: "a cell came that holds neither a number nor a word" };
}

function faultOf(error: unknown): Fault {
  if (error instanceof CalcError) return { fault: "#VALUE!", text: error.message };
  throw error;
}
