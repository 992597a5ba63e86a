import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { readCall } from "../../functions/catalog/examples";
import { inputsOf } from "../../functions/bind/arguments";
import { isFault } from "../../functions/bind/cell";
import { worksheetFunction } from "../../functions/bind/register";
import { MEANINGS } from "../../functions/working/meanings";
import { math, scopeOf, stepsOf } from "../../functions/working/steps";

/** Calls made of each example by scaling its numbers. */
const VARIATIONS = 230;

describe.each(catalog)("$id", (entry) => {
  const calls = entry.examples.map(({ formula }) => readCall(formula).args);

  test("the last step of every example is what the cell shows", () => {
    for (const args of calls) holds(entry, args);
  });

  test("so it is with other numbers, wherever the cell has an answer", () => {
    let answered = 0;
    const factor = fc.option(fc.double({ min: 0.5, max: 1.5, noNaN: true }), { nil: 1, freq: 1 });
    const factors = fc.array(factor, { minLength: 9, maxLength: 9 });
    const run = (example: number, by: number[]) => {
      const args = calls[example].map((value, i) => scaled(value, by[i]));
      if (holds(entry, args)) answered++;
    };
    fc.assert(fc.property(fc.nat(calls.length - 1), factors, run), { numRuns: VARIATIONS });
    expect(answered).toBeGreaterThan(VARIATIONS / 20);
  });
});

/** Holds the working of a call against its cell; false where the cell refuses. */
function holds(entry: CatalogEntry, args: unknown[]): boolean {
  const cell = worksheetFunction(entry)(...args) as unknown[][];
  const flat = cell.flat();
  if (flat.some((value) => isFault(value) || value === "")) return false;
  const steps = stepsOf(entry, args);
  const last = steps[steps.length - 1].value;
  same((Array.isArray(last) ? last.flat(2) : [last]) as unknown[], flat, steps);
  const scope = scopeOf(entry, inputsOf(entry, args));
  for (const { line, value } of steps) {
    const again: unknown = math.evaluate(line.expression, { ...scope });
    same([again].flat(3), [value].flat(3), line.expression);
    scope[line.name] = value;
  }
  return true;
}

function same(got: unknown[], wanted: unknown[], told: unknown) {
  const text = JSON.stringify(told);
  expect(got.length, text).toBe(wanted.length);
  wanted.forEach((value, i) => {
    if (typeof value !== "number") expect(got[i], text).toBe(value);
    else
      expect(Math.abs((got[i] as number) - value), text).toBeLessThanOrEqual(
        1e-9 * Math.max(1, Math.abs(value)),
      );
  });
}

/** Half of the arguments with other numbers; whole ones stay whole, as they may count something. */
function scaled(value: unknown, by: number): unknown {
  if (Array.isArray(value)) return value.map((item) => scaled(item, by));
  if (typeof value !== "number") return value;
  return Number.isInteger(value) ? Math.max(1, Math.round(value * by)) : value * by;
}

test("every function that a working line calls is explained in words, and none besides", () => {
  const called = catalog.flatMap(({ working }) =>
    working.flatMap(({ expression }) => expression.match(/[a-z]+(?=\()/g) ?? []),
  );
  expect(Object.keys(MEANINGS).sort()).toEqual([...new Set(called)].sort());
});
