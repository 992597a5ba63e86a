import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { worksheetFunction } from "../../functions/bind/register";
import { anyCall } from "./arbitrary";
import { unsound } from "./sound";

// More of the same, with other seeds and a watch on the clock: npm run fuzz.
describe("whatever comes in, a grid of numbers, words and told errors goes out", () => {
  test.each(catalog)("$id", (entry) => {
    const run = worksheetFunction(entry);
    const property = fc.property(anyCall(entry), (args) => {
      expect(unsound(run(...args))).toBeUndefined();
    });
    fc.assert(property, { numRuns: 800 });
  });
});
