/** Numbers at the ends of what a cell can hold: every function ends, with a number or in words. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../functions/catalog/catalog";
import { isFault } from "../functions/bind/cell";
import { worksheetFunction } from "../functions/bind/register";

const CALLS = 300;

const extreme = fc.constantFrom(
  ...[0, 5e-324, 1e-310, 1e-300, 1e-12, 1e-6, 0.05, 1, 7, 1e6, 1e14, 9e15, 1e300, 1.7e308],
);
const share = fc.constantFrom(0, 5e-324, 1e-310, 0.05, 0.5, 1);
const word = fc.constantFrom("g", "lb", "mL", "floz", "base", "finished", "volume", "weight");
const ours = catalog.filter(
  ({ topic, id }) => /^(load|measure|blend|spirit|cost)$/.test(topic) || id === "ALCOHOLVOLUME",
);

describe.each(ours)("$id", (entry) => {
  test(`ends, ${CALLS} times`, () => {
    const call = fc.integer({ min: 1, max: 4 }).chain((length) =>
      fc.tuple(
        ...entry.params.map(({ kind, range, optional }) => {
          if (kind === "unit" || kind === "choice") return optional ? fc.option(word) : word;
          const one = kind === "share" ? share : extreme;
          const even = fc.constant(1 / length);
          const cell = (kind === "share" ? fc.oneof(even, even, one) : one).map((each) => [each]);
          const given: fc.Arbitrary<unknown> = range
            ? fc.array(cell, { minLength: length, maxLength: length })
            : one;
          return optional ? fc.option(given) : given;
        }),
      ),
    );
    const run = (args: unknown[]) => {
      for (const cell of worksheetFunction(entry)(...args).flat()) {
        const isAnswer =
          typeof cell === "number" ? Number.isFinite(cell) : typeof cell === "string";
        expect(isAnswer || isFault(cell), JSON.stringify(args)).toBe(true);
      }
    };
    fc.assert(fc.property(call, run), { numRuns: CALLS });
  }, 300_000);
});
