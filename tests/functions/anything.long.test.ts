import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { isFault } from "../../functions/bind/cell";
import { worksheetFunction } from "../../functions/bind/register";
import { nonsense, sensible } from "./arbitrary";

describe("whatever comes in, a grid of numbers, words and told errors goes out", () => {
  test.each(catalog)(
    "$id",
    (entry) => {
      const run = worksheetFunction(entry);
      fc.assert(
        fc.property(fc.oneof(nonsense(entry), sensible(entry)), (args) => {
          const grid = run(...args);
          expect(grid.length).toBeGreaterThan(0);
          for (const row of grid) {
            expect(row).toHaveLength(grid[0].length);
            for (const out of row) {
              if (isFault(out)) {
                expect(out.fault).toMatch(/^#/);
                if (out.fault === "#VALUE!") expect(out.text).toMatch(/\S/);
              } else if (typeof out === "number") expect(Number.isFinite(out)).toBe(true);
              else expect(typeof out).toBe("string");
            }
          }
        }),
        { numRuns: 800 },
      );
    },
    60_000,
  );
});
