import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { readCall } from "../../functions/catalog/examples";
import { holds } from "./working-holds";

/** Calls made of each example by scaling its numbers. */
const VARIATIONS = 230;

describe.each(catalog)("$id", (entry) => {
  const calls = entry.examples.map(({ formula }) => readCall(formula).args);

  test("the last step is what the cell shows, whatever the numbers, wherever it has an answer", () => {
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

/** Half of the arguments with other numbers; whole ones stay whole, as they may count something. */
function scaled(value: unknown, by: number): unknown {
  if (Array.isArray(value)) return value.map((item) => scaled(item, by));
  if (typeof value !== "number") return value;
  return Number.isInteger(value) ? Math.max(1, Math.round(value * by)) : value * by;
}
