import { expect } from "vitest";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { inputsOf } from "../../functions/bind/arguments";
import { isFault } from "../../functions/bind/cell";
import { worksheetFunction } from "../../functions/bind/register";
import { math, scopeOf, stepsOf } from "../../functions/working/steps";

/** Holds the working of a call against its cell; false where the cell refuses. */
export function holds(entry: CatalogEntry, args: unknown[]): boolean {
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
