/**
 * Ranges in, spills out.
 *
 * A pure function takes one number where a sheet may pass a range, a blank, a word or an error.
 * lift() turns the one into the other and broadcasts as Excel does: a single cell, row or column
 * stretches; unequal lengths give #N/A where one of them has ended.
 */
import { BlankError, CalcError } from "../../src/errors.ts";
import { refuseTwoCurrencies } from "../../src/written-money.ts";
import type { Bound } from "../catalog/entry.ts";
import { WORD_KINDS } from "../catalog/kinds.ts";
import { type Argument, argumentsOf, at, extentOf } from "./arguments.ts";
import {
  type CellValue,
  type Fault,
  type Grid,
  type BoundParam,
  faultOf,
  isBlank,
  isEmpty,
  isFault,
  readerOf,
  settle,
  unwrap,
} from "./cell.ts";

/**
 * A function of src. Which arguments it takes is known from its doc comment, not to the compiler.
 */
export type Pure = (...args: never[]) => unknown;

/** The worksheet form of a pure function: a grid comes back for anything that a host passes. */
export function lift(entry: Bound, pure: Pure): (...args: unknown[]) => Grid {
  const line = lineOfOne(entry);
  return (...args) => {
    try {
      if (line?.takes(args)) return asGrid(answerOf(pure, line.given, undefined));
      return spill(
        entry,
        pure,
        argumentsOf(entry, args).map((arg) => ({ ...arg, cell: null })),
      );
    } catch (error) {
      return [[faultOf(error)]];
    }
  };
}

/** An argument with its cell of the line that is looked at; a range that is read whole has none. */
interface Given extends Argument {
  cell: CellValue;
}

/**
 * A formula that is filled down is called for one line at a time, ten thousand times: its arguments are set out once for
 * all these calls, as no function is called within itself. A function that reads a range whole has none.
 */
function lineOfOne({ params }: Bound) {
  if (params.some(({ range }) => range)) return undefined;
  const given = params.map((param): Given => {
    return { param, grid: [], isStretched: false, read: readerOf(param), cell: null };
  });
  const money = given.filter(isMoney);
  return {
    given,
    /** Whether all that is passed are single cells, which are then those of the line. */
    takes(args: unknown[]): boolean {
      if (args.some(Array.isArray)) return false;
      for (const [i, arg] of given.entries()) arg.cell = unwrap(args[i]);
      if (money.length > 1) refuseTwoCurrencies([money.map(({ cell }) => [cell])]);
      return true;
    },
  };
}

const isMoney = ({ param }: Argument) => param.kind === "money";

function spill(entry: Bound, pure: Pure, args: Given[]): Grid {
  refuseTwoCurrencies(args.filter(isMoney).map(({ grid }) => grid));
  const { rows, columns } = extentOf(args);
  const fault = args.find((arg) => arg.fault)?.fault;
  const answer = (row: number, column: number) => {
    for (const arg of args) if (!arg.param.range) arg.cell = at(arg.grid, row, column);
    return answerOf(pure, args, fault);
  };
  if (rows === 1 && columns === 1) return asGrid(answer(0, 0));
  if (!entry.returns.range)
    return eachLine(rows, columns, (row, column) => firstOf(answer(row, column)));
  return join(
    entry,
    eachLine(rows, columns, (row, column) => asGrid(answer(row, column))),
  );
}

/** Columns are long: nothing is made for a line but its answer. */
function eachLine<T>(rows: number, columns: number, give: (row: number, column: number) => T) {
  const all: T[][] = [];
  for (let row = 0; row < rows; row++) {
    const line: T[] = [];
    for (let column = 0; column < columns; column++) line.push(give(row, column));
    all.push(line);
  }
  return all;
}

/** What a line gives: a cell, or several. */
type Answer = CellValue | Grid;

function asGrid(answer: Answer): Grid {
  return Array.isArray(answer) ? answer : [[answer]];
}

function firstOf(answer: Answer): CellValue {
  return Array.isArray(answer) ? (answer[0]?.[0] ?? "") : answer;
}

/**
 * The answer of a line: its inputs checked and read, the pure function called, all made safe.
 * `fault` is that of a range that is read whole.
 */
function answerOf(pure: Pure, args: Given[], fault: Fault | undefined): Answer {
  let isFilled = false;
  for (const arg of args) {
    if (isFault(arg.cell)) return arg.cell;
    isFilled ||= !isNothing(arg);
  }
  if (fault) return fault;
  if (!isFilled) return "";
  try {
    const inputs = args.map(inputOf);
    // Even if the function could do with a zero.
    const blank = args.find(isUnknown);
    if (blank) throw new BlankError(blank.param.name, "blank");
    // The metadata tells what it takes, and the guards of src look at it once more.
    const answer = pure(...(inputs as never[]));
    if (!Array.isArray(answer)) return settle(answer);
    return answer.map((each: unknown[]) => each.map(settle));
  } catch (error) {
    if (error instanceof BlankError && isSpare(args)) return "";
    return faultOf(error);
  }
}

const inputOf = ({ read, cell }: Given) => read(cell);
const isNothing = ({ isNothing: isWholeNothing, cell }: Given) => isWholeNothing ?? isEmpty(cell);

/** A required number that was left blank. */
function isUnknown({ param, cell }: Given): boolean {
  return isBlank(cell) && isQuantity(param) && !param.range;
}

/** True for a line of which no required quantity is filled: of its own, where it has any. */
function isSpare(args: Given[]): boolean {
  const quantities = args.filter(({ param }) => isQuantity(param));
  const own = quantities.filter(({ isStretched }) => !isStretched);
  return (own.length > 0 ? own : quantities).every(isNothing);
}

/**
 * A required quantity. A line on which none is filled is a spare line of a table, not a mistake.
 */
function isQuantity({ optional, kind }: BoundParam): boolean {
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
