/**
 * Every function through its binding beside its pure form, on its first example: a column of calls, and where it takes
 * ranges, calls one by one.
 */
import { inputsOf } from "../../functions/bind/arguments";
import { worksheetFunction } from "../../functions/bind/register";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { readCall } from "../../functions/catalog/examples";
import * as src from "../../src/index";
import { type Case, type Times, timed } from "./measure";

const CALLS = 2000;
const pure = src as unknown as Record<string, (...inputs: unknown[]) => unknown>;

function repeated(step: () => unknown): () => void {
  return () => {
    for (let i = 0; i < CALLS; i++) step();
  };
}

function throughBinding(entry: CatalogEntry, args: unknown[]): () => unknown {
  const run = worksheetFunction(entry);
  if (entry.params.some(({ range }) => range)) return repeated(() => run(...args));
  const columns = args.map((arg) => Array.from({ length: CALLS }, () => [arg]));
  return () => run(...columns);
}

function pureForm(entry: CatalogEntry, args: unknown[]): () => unknown {
  const inputs = inputsOf(entry, args);
  return repeated(() => pure[entry.name](...inputs));
}

/** All are run once before any is measured: the first would pay for the start of what they share. */
async function each(form: (entry: CatalogEntry, args: unknown[]) => () => unknown): Promise<Times> {
  const steps = catalog.map((entry) => ({
    id: entry.id,
    step: form(entry, readCall(entry.examples[0].formula).args),
  }));
  for (const { step } of steps) step();
  const times: Times = {};
  for (const { id, step } of steps) times[id] = await timed(5, step);
  return times;
}

export const binding: Record<string, Case> = {
  binding: {
    beside: "its pure form",
    goal: 10,
    ours: () => each(throughBinding),
    other: () => each(pureForm),
  },
};
