/**
 * Ranges in, spilled ranges out.
 *
 * A pure function takes one number where a sheet may hand over a range, a blank, a word or an error.
 * lift() turns the one into the other with Excel's own broadcasting: a single cell, row or column
 * stretches; unequal lengths give #N/A where one of them has ended.
 */
import { BlankError, CalcError } from "../src/errors";
import type { CatalogEntry, Param } from "./entry";
import { WORD_KINDS } from "./kinds";

/** An error in a cell. Only #VALUE! and #N/A carry a text in Excel. */
export interface Fault {
  fault: string;
  text?: string;
}

/** What a cell holds, the host's wrappings taken off. A blank is null. */
export type CellValue = number | string | boolean | null | Fault;

export type Grid = CellValue[][];
type Pure = (...args: never[]) => unknown;

/** The worksheet form of a pure function: whatever the host hands over, a grid comes back. */
export function lift(entry: CatalogEntry, pure: Pure): (...args: unknown[]) => Grid {
  return (...args) => {
    try {
      return spill(entry, pure, gridsOf(entry, args));
    } catch (error) {
      return [[faultOf(error)]];
    }
  };
}

/** True for an error that stands in a cell. */
export function isFault(value: unknown): value is Fault {
  return typeof value === "object" && value !== null && "fault" in value;
}

function spill(entry: CatalogEntry, pure: Pure, grids: Grid[]): Grid {
  const { rows, columns } = extentOf(grids.filter((_, i) => !entry.params[i].range));
  const answer = (row: number, column: number): Grid => {
    return line(entry, pure, inputsAt(entry, grids, row, column));
  };
  if (rows === 1 && columns === 1) return answer(0, 0);
  const blocks = count(rows).map((row) => count(columns).map((column) => answer(row, column)));
  return join(entry, blocks);
}

/** One line: its inputs checked and read, the pure function called, its answer made safe for a cell. */
function line(entry: CatalogEntry, pure: Pure, inputs: (CellValue | Grid)[]): Grid {
  const fault = inputs.flat(2).find(isFault);
  if (fault) return [[fault]];
  if (entry.params.every((param, i) => isNothing(param, inputs[i]))) return [[""]];
  try {
    const args = entry.params.map((param, i) => read(param, inputs[i]));
    const answer = pure(...(args as never[]));
    return (Array.isArray(answer) ? answer : [[answer]]).map((row: unknown[]) => row.map(settle));
  } catch (error) {
    if (error instanceof BlankError && nothingFilled(entry, inputs)) return [[""]];
    return [[faultOf(error)]];
  }
}

/** A blank, however the host hands it over: 0, null and "" are alike. */
function isEmpty(input: CellValue | Grid): boolean {
  if (Array.isArray(input)) return input.flat().every(isEmpty);
  return input === null || input === "" || input === 0;
}

/** A blank as one argument sees it: zero is a temperature like any other. */
function isNothing(param: Param, input: CellValue | Grid): boolean {
  return isEmpty(input) && !(param.kind === "celsius" && input === 0);
}

/** True when no required quantity is filled: a spare line of a table, not a mistake. */
function nothingFilled(entry: CatalogEntry, inputs: (CellValue | Grid)[]): boolean {
  return entry.params.every((param, i) => {
    return param.optional || WORD_KINDS.has(param.kind) || isNothing(param, inputs[i]);
  });
}

/** A line of a call, counted from zero: calls whose arguments are ranges have several. */
export interface Line {
  row: number;
  column: number;
}

/** What a line of a call hands to the pure function; what is left out is undefined. */
export function inputsOf(
  entry: CatalogEntry,
  args: unknown[],
  { row, column }: Line = { row: 0, column: 0 },
): unknown[] {
  return inputsAt(entry, gridsOf(entry, args), row, column).map((input, i) =>
    read(entry.params[i], input),
  );
}

/** How many lines a call has, down and across. */
export function linesOf(entry: CatalogEntry, args: unknown[]): { rows: number; columns: number } {
  return extentOf(gridsOf(entry, args).filter((_, i) => !entry.params[i].range));
}

/** One line of a call as the host would hand it over: its own cells, and ranges whole. */
export function lineOf(entry: CatalogEntry, args: unknown[], { row, column }: Line): Grid[] {
  return inputsAt(entry, gridsOf(entry, args), row, column).map((input) =>
    Array.isArray(input) ? input : [[input]],
  );
}

function extentOf(grids: Grid[]): { rows: number; columns: number } {
  return {
    rows: Math.max(1, ...grids.map((grid) => grid.length)),
    columns: Math.max(1, ...grids.map((grid) => grid[0].length)),
  };
}

function gridsOf(entry: CatalogEntry, args: unknown[]): Grid[] {
  return entry.params.map((_, i) => gridOf(args[i]));
}

/** The inputs of a line: its own cell of each argument, and ranges whole. */
function inputsAt(entry: CatalogEntry, grids: Grid[], row: number, column: number) {
  return grids.map((grid, i) => (entry.params[i].range ? grid : at(grid, row, column)));
}

function read(param: Param, input: CellValue | Grid): unknown {
  if (param.mixed && param.optional && isEmpty(input)) return undefined;
  if (param.mixed) return (input as Grid).map((row) => row.map(plainCell));
  if (param.range) {
    const grid = input as Grid;
    if (param.optional && grid.length === 1 && grid[0].length === 1 && isEmpty(grid))
      return undefined;
    return grid.map((row) => row.map((cell) => readNumber(param, cell)));
  }
  const cell = input as CellValue;
  if (param.optional && isNothing(param, cell)) return undefined;
  // A temperature of zero is not a blank, so a blank temperature is not zero.
  if (param.kind === "celsius" && (cell === null || cell === "")) {
    throw new BlankError(param.name, "blank");
  }
  if (WORD_KINDS.has(param.kind)) return isEmpty(cell) ? "" : String(cell);
  return readNumber(param, cell);
}

/** A cell of a range that may hold words: a blank is an empty word. */
function plainCell(cell: CellValue): number | string {
  if (typeof cell === "number") return cell;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return cell === null ? "" : String(cell);
}

function readNumber(param: Param, cell: CellValue): number {
  if (cell === null || cell === "") return 0;
  if (typeof cell === "number") return cell;
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
function join(entry: CatalogEntry, blocks: Grid[][]): Grid {
  const answers = blocks.map((row) => row.map((block) => block.flat()));
  const length = Math.max(...answers.flat().map((answer) => answer.length));
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
