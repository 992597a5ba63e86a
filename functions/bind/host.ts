/**
 * Ties worksheet functions to their host.
 *
 * In Excel that is the CustomFunctions object of the custom functions runtime; the local sheet has
 * one of its own of the same shape, so both hosts run this same code.
 */
import { type CellValue, type Fault, isFault } from "./cell.ts";
import { lift } from "./lift.ts";
import { type Listed, boundOf } from "./listed.ts";

/** A host, and its own kind of error. */
export interface FunctionsHost<E> {
  associate(id: string, run: Run<E>): void;
  Error: new (code: never, message?: string) => E;
}

/** A function as a host calls it. */
export type Run<E> = (...args: unknown[]) => HostCell<E>[][];

/** An error on its way into a cell, for hosts that have no kind of their own. */
export class CellError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

/** What a host is given for a cell. */
export type HostCell<E> = Exclude<CellValue, Fault> | E;

/** Registers each function of a list. */
export function associate<E>(host: FunctionsHost<E>, list: readonly Listed[]): void {
  for (const listed of list) host.associate(listed[0], runOf(host, listed));
}

/** A function with its answers as the host takes them. */
export function runOf<E>(host: FunctionsHost<E>, listed: Listed): Run<E> {
  const run = lift(boundOf(listed), listed[2]);
  const cellToHost = (cell: CellValue) => (isFault(cell) ? asError(host, cell) : cell);
  // Rows without an error are not made anew: columns are long.
  const toHost = (row: CellValue[]) => (isFaultless(row) ? row : row.map(cellToHost));
  return (...args) => run(...args).map(toHost);
}

function isFaultless(row: CellValue[]): row is Exclude<CellValue, Fault>[] {
  return !row.some(isFault);
}

/** The errors that a function may give back to Excel; it takes no other. */
const GIVEN_BACK: ReadonlySet<string> = new Set(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"]);

function asError<E>(host: FunctionsHost<E>, { fault, text }: Fault): E {
  const isGivenBack = GIVEN_BACK.has(fault);
  const code = isGivenBack ? fault : "#VALUE!";
  const told = isGivenBack ? text : `an input is the error ${fault}${text ? `: ${text}` : ""}`;
  // The host's codes are the texts that the cell shows, such as "#N/A"; its type names are its own.
  return new host.Error(code as never, told);
}
