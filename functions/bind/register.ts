/**
 * Ties every worksheet function to its host.
 *
 * In Excel that is the CustomFunctions object of the custom functions runtime; the local sheet has
 * one of its own of the same shape, so both hosts run this same code.
 */
import { type CellValue, type Fault, type Grid, isFault } from "./cell.ts";
import { lift } from "./lift.ts";
import { list } from "./list.ts";
import { type Listed, boundOf } from "./listed.ts";

/** A host, and its own kind of error. */
export interface FunctionsHost<E> {
  associate(id: string, run: (...args: unknown[]) => HostCell<E>[][]): void;
  Error: new (code: never, message?: string) => E;
}

/** An error on its way into a cell, for hosts that have no kind of their own. */
export class CellError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

/** What a host is given for a cell. */
export type HostCell<E> = Exclude<CellValue, Fault> | E;

/** A function in its worksheet form. */
export function worksheetFunction({ id }: { id: string }): (...args: unknown[]) => Grid {
  const found = list.find(([each]) => each === id);
  if (!found) throw new Error(`there is no function ${id}`);
  return lifted(found);
}

function lifted(listed: Listed) {
  return lift(boundOf(listed), listed[2]);
}

/** Registers them all. */
export function register<E>(host: FunctionsHost<E>): void {
  const cellToHost = (cell: CellValue) => (isFault(cell) ? asError(host, cell) : cell);
  // Rows without an error are not made anew: columns are long.
  const toHost = (row: CellValue[]) => (isFaultless(row) ? row : row.map(cellToHost));
  for (const listed of list) {
    const run = lifted(listed);
    host.associate(listed[0], (...args) => run(...args).map(toHost));
  }
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
