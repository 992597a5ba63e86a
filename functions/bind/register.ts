/**
 * Ties every worksheet function to its host.
 *
 * In Excel that is the CustomFunctions object of the custom functions runtime; the local sheet has
 * one of its own of the same shape, so both hosts run this same code.
 */
import * as src from "../../src/index.ts";
import type { Bound } from "../catalog/entry.ts";
import { type CellValue, type Fault, type Grid, isFault } from "./cell.ts";
import { type Pure, lift } from "./lift.ts";
import generated from "./list.json";

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

// What JSON holds is no more than text to the compiler; it is written from a list of Bound.
const list = generated as Bound[];

/** The exports of src by name. */
const pure: Readonly<Record<string, unknown>> = src;

/** A function in its worksheet form. */
export function worksheetFunction(entry: Bound): (...args: unknown[]) => Grid {
  const found = pure[entry.name];
  if (typeof found !== "function") throw new Error(`src has no function ${entry.name}`);
  // All that the catalog names in src are functions over values of cells; lift checks what it gives them.
  return lift(entry, found as Pure);
}

/** Registers them all. */
export function register<E>(host: FunctionsHost<E>): void {
  for (const entry of list) {
    const run = worksheetFunction(entry);
    host.associate(entry.id, (...args) => {
      return run(...args).map((row) =>
        row.map((cell) => (isFault(cell) ? asError(host, cell) : cell)),
      );
    });
  }
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
