/** Rows and columns of cells: guarded cell by cell, side by side, summed, and laid out again. */
import { CalcError, isBlankNumber } from "./errors.ts";

/** What a cell of a list must be: gives its value, or refuses it by its name. */
export type Guard = (argument: string, value: number, index: number) => number;

/**
 * A cell of one row or one column. Its name is made when an error asks for it: columns are long.
 */
class NamedCell<T> {
  constructor(
    private readonly argument: string,
    private readonly place: number,
    private readonly length: number,
    readonly cell: T,
  ) {}

  get name(): string {
    return nameOf(this.argument, this.place, this.length);
  }
}

function nameOf(argument: string, place: number, length: number): string {
  return length > 1 ? `${argument}, cell ${place + 1},` : argument;
}

/**
 * What a list holds at a place; for places that are known to be there, as in a list beside another.
 */
export function at<T>(values: readonly T[], place: number): T {
  const value = values[place];
  if (value === undefined) throw new RangeError(`a list of ${values.length} has no place ${place}`);
  return value;
}

/** The keys of a table, in the order in which it is written down. */
export function keysOf<K extends string>(table: Readonly<Record<K, unknown>>): K[] {
  // A table that is written down has the keys that its type names, and no others.
  return Object.keys(table) as K[];
}

/** The cells of a range in their order. */
export function flat<T>(range: readonly (readonly T[])[]): readonly T[] {
  if (range.length === 1) return at(range, 0);
  // A column of a million rows, which is slow to flatten otherwise.
  return range[0]?.length === 1 ? range.map((row) => at(row, 0)) : range.flatMap((row) => row);
}

/** The cells of a range that is one row or one column, and no other. */
export function lineOf<T>(argument: string, range: readonly (readonly T[])[]): readonly T[] {
  const rows = range.length;
  const columns = range[0]?.length ?? 0;
  if (rows === 1 || columns === 1) return flat(range);
  throw new CalcError(`${argument} must be one row or one column, got ${rows} x ${columns} cells`);
}

/** The cells of one row or one column, each with the name that an error calls it by. */
export function cellsOf<T>(
  argument: string,
  range: readonly (readonly T[])[],
): { readonly name: string; readonly cell: T }[] {
  const line = lineOf(argument, range);
  return line.map((cell, i) => new NamedCell(argument, i, line.length, cell));
}

/** The cells of one row or one column as a list; each passes the guard. */
export function list(
  argument: string,
  range: readonly (readonly number[])[],
  guard: Guard,
): number[] {
  const line = lineOf(argument, range);
  return line.map((value, i) => {
    try {
      return guard(argument, value, i);
    } catch {
      // Refused again, by the name of its cell.
      return guard(nameOf(argument, i, line.length), value, i);
    }
  });
}

/** A guard by which a blank counts as zero: an ingredient of which the recipe has nothing. */
export function orZero(guard: Guard): Guard {
  return (argument, value, index) => (isBlankNumber(value) ? 0 : guard(argument, value, index));
}

/** A guard for a list beside another: a blank is refused where the other asks for a number. */
export function askedWhere(
  isAsked: (index: number) => boolean,
  guard: Guard,
  elsewhere = guard,
): Guard {
  const none = orZero(elsewhere);
  return (argument, value, index) => (isAsked(index) ? guard : none)(argument, value, index);
}

/** For lists beside this one: where it has something. */
export function usedIn(amounts: readonly number[]): (index: number) => boolean {
  return (index) => (amounts[index] ?? 0) > 0;
}

/** An answer for each cell of a range, laid out as the range is. */
export function laidOutAs(range: readonly unknown[], answers: number[]): number[][] {
  return range.length === 1 ? [answers] : answers.map((answer) => [answer]);
}

/** Two ranges that are read side by side need as many cells each. */
export function sameLength(
  a: string,
  listA: readonly unknown[],
  b: string,
  listB: readonly unknown[],
) {
  if (listA.length === listB.length) return;
  throw new CalcError(
    `${b} must have as many cells as ${a}, got ${listB.length} and ${listA.length}`,
  );
}

/** Each number times the one beside it in a list that is as long. */
export function products(values: readonly number[], beside: readonly number[]): number[] {
  return values.map((value, i) => value * at(beside, i));
}

/** Sum of a list. */
export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
