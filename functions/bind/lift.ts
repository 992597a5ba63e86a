/**
 * Ranges in, spills out.
 *
 * A pure function takes one number where a sheet may pass a range, a blank, a word or an error.
 * lift() turns the one into the other and broadcasts as Excel does: a single cell, row or column
 * stretches; unequal lengths give #N/A where one of them has ended.
 */
import { BlankError, CalcError } from "../../src/errors.ts";
import type { Bound } from "../catalog/entry.ts";
import { WORD_KINDS } from "../catalog/kinds.ts";
import { type Argument, type Line, argumentsOf, at, extentOf } from "./arguments.ts";
import {
  type CellValue,
  type Grid,
  type Param,
  faultOf,
  isEmpty,
  isFault,
  settle,
} from "./cell.ts";

/**
 * A function of src. Which arguments it takes is known from its doc comment, not to the compiler.
 */
export type Pure = (...args: never[]) => unknown;

/** The worksheet form of a pure function: a grid comes back for anything that a host passes. */
export function lift(entry: Bound, pure: Pure): (...args: unknown[]) => Grid {
  return (...args) => {
    try {
      return spill(entry, pure, argumentsOf(entry, args));
    } catch (error) {
      return [[faultOf(error)]];
    }
  };
}

function spill(entry: Bound, pure: Pure, args: Argument[]): Grid {
  const { rows, columns } = extentOf(args);
  const answer = (row: number, column: number) => answerOf(pure, args, { row, column });
  if (rows === 1 && columns === 1) return answer(0, 0);
  const blocks = count(rows).map((row) => count(columns).map((column) => answer(row, column)));
  return join(entry, blocks);
}

/** The answer of a line: its inputs checked and read, the pure function called, all made safe. */
function answerOf(pure: Pure, args: Argument[], line: Line): Grid {
  const filled = args.map((arg) => ({ arg, cell: arg.param.range ? null : at(arg.grid, line) }));
  const fault =
    filled.map(({ cell }) => cell).find(isFault) ?? args.find((arg) => arg.fault)?.fault;
  if (fault) return [[fault]];
  if (filled.every(isNothing)) return [[""]];
  try {
    const inputs = filled.map(({ arg, cell }) => ({ param: arg.param, input: arg.read(cell) }));
    refuseBlanks(inputs);
    // The metadata tells what it takes, and the guards of src look at it once more.
    const answer = pure(...(inputs.map(({ input }) => input) as never[]));
    return (Array.isArray(answer) ? answer : [[answer]]).map((row: unknown[]) => row.map(settle));
  } catch (error) {
    if (error instanceof BlankError && isSpare(filled)) return [[""]];
    return [[faultOf(error)]];
  }
}

/** An argument with its cell of a line; a range that is read whole has none. */
interface Filled {
  arg: Argument;
  cell: CellValue;
}

function isNothing({ arg, cell }: Filled): boolean {
  return arg.isNothing ?? isEmpty(cell);
}

/** True for a line of which no required quantity is filled: of its own, where it has any. */
function isSpare(filled: Filled[]): boolean {
  const quantities = filled.filter(({ arg }) => isQuantity(arg.param));
  const own = quantities.filter(({ arg }) => !arg.isStretched);
  return (own.length > 0 ? own : quantities).every(isNothing);
}

/** A required number that was left blank is unknown, even if the function could do with a zero. */
function refuseBlanks(inputs: { param: Param; input: unknown }[]) {
  const blank = inputs.find(
    ({ param, input }) => !param.optional && !param.range && Number.isNaN(input),
  );
  if (blank) throw new BlankError(blank.param.name, "blank");
}

/**
 * A required quantity. A line on which none is filled is a spare line of a table, not a mistake.
 */
function isQuantity({ optional, kind }: Param): boolean {
  return !optional && !WORD_KINDS.has(kind);
}

/**
 * The answers of all lines as one grid. An answer of several cells (two amounts, say) lies across
 * a column of lines, and down a row of them; over a whole grid of lines it has no room.
 */
function join(entry: Bound, blocks: Grid[][]): Grid {
  const answers = blocks.map((row) => row.map((block) => block.flat()));
  const length = answers.flat().reduce((most, answer) => Math.max(most, answer.length), 0);
  if (!entry.returns.range || length === 1) return answers.map((row) => row.flat());
  const isColumn = answers.every((row) => row.length === 1);
  if (!isColumn && answers.length > 1) {
    throw new CalcError(`${entry.id} answers with ${length} cells: give it one row or one column`);
  }
  const lines = answers.flat().map((answer) => padded(answer, length));
  return isColumn ? lines : transposed(lines, length);
}

/** A line that failed shows its error, and a blank line its blank, in every cell of the answer. */
function padded(cells: CellValue[], width: number): CellValue[] {
  return cells.length === width ? cells : count(width).flatMap(() => cells.slice(0, 1));
}

function transposed(lines: Grid, length: number): Grid {
  return count(length).map((i) => lines.flatMap((cells) => cells.slice(i, i + 1)));
}

function count(length: number): number[] {
  return Array.from({ length }, (_, i) => i);
}
