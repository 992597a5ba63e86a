/**
 * Ties every worksheet function to its host. The only file that knows CustomFunctions.
 *
 * In Excel that object comes with the custom functions runtime; the local sheet brings its own of the
 * same shape, so both hosts run this same code.
 */
import * as src from "../../src/index";
import type { Bound } from "../catalog/entry";
import { type Fault, isFault, lift } from "./lift";
import list from "./list.json";

export interface FunctionsHost {
  associate(id: string, run: (...args: unknown[]) => unknown): void;
  Error: new (code: never, message?: string) => unknown;
}

/** Each function in its worksheet form, by id. */
export function worksheetFunction(entry: Bound) {
  return lift(
    entry,
    src[entry.name as keyof typeof src] as unknown as (...args: never[]) => unknown,
  );
}

/** Registers them all. */
export function register(host: FunctionsHost): void {
  for (const entry of list as Bound[]) {
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

function asError(host: FunctionsHost, { fault, text }: Fault): unknown {
  // The host's codes are the texts that the cell shows, such as "#N/A".
  if (GIVEN_BACK.has(fault)) return new host.Error(fault as never, text);
  return new host.Error(
    "#VALUE!" as never,
    `an input is the error ${fault}${text ? `: ${text}` : ""}`,
  );
}
