import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { readCall, readResult } from "../../functions/catalog/examples";
import { worksheetFunction } from "../../functions/bind/register";

// Every @example, through the binding. Its expected value is the one in the doc comment, whose
// source stands in @source beside it.
describe.each(catalog)("$id", (entry) => {
  test.each(entry.examples)("$formula", ({ formula, result }) => {
    const got = worksheetFunction(entry)(...readCall(formula).args);
    const expected = readResult(result);
    expect(got.map((row) => row.length)).toEqual(expected.map((row) => row.length));
    expected.flat().forEach(({ value, within }, i) => {
      const cell = got.flat()[i];
      if (typeof value === "string") expect(cell).toBe(value);
      else
        expect(
          Math.abs((cell as number) - value),
          `${String(cell)} for ${value}`,
        ).toBeLessThanOrEqual(within);
    });
  });

  test("names the source of its method, its errors, the need it serves and how it comes about", () => {
    expect(entry.source).not.toBe("");
    expect(entry.need).toMatch(/\?$/);
    expect(entry.throws.length).toBeGreaterThan(0);
    expect(entry.working.length).toBeGreaterThan(0);
  });
});
