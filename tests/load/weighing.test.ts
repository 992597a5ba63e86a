import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leastBatch, loadOf, loadSpan } from "../../src/index";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

// A load of 100 % makes the batch all oil, so the least batch is the least weighable quantity.
describe("LEASTBATCH against the least weighable quantity of pharmacy practice", () => {
  holdToPublished({
    W30: () => leastBatch(1, 6, 0.05),
    W31: () => leastBatch(1, 6, 0.01),
    W32: () => leastBatch(1, 10, 0.05),
    W33: () => leastBatch(1, 2.5, 0.03),
    // USP <41> asks for 2000 standard deviations, which is one deviation in 0.05 %.
    W01: () => leastBatch(1, 0.00015, 1 / 2000),
  });

  test("the default tolerance is 5 %", () => {
    expect(leastBatch(0.05, 0.1)).toBe(leastBatch(0.05, 0.1, 0.05));
  });

  test("refuses what has no answer", () => {
    refuses(() => leastBatch(0, 0.1), "load is blank or zero");
    refuses(() => leastBatch(0.05, 0), "readability is blank or zero");
    refuses(
      () => leastBatch(0.05, 0.1, 5),
      "tolerance must be from 0 % to 100 %, got 500 %: type 5 %",
    );
  });
});

describe("LOADSPAN", () => {
  test("holds every load that rounds to the readings", () => {
    const steps = fc.integer({ min: 1, max: 2000 });
    const off = fc.double({ min: -0.499, max: 0.499, noNaN: true });
    fc.assert(
      fc.property(steps, steps, off, off, fc.constantFrom(0.01, 0.1, 1), (a, b, da, db, step) => {
        const [[low, high]] = loadSpan(a * step, b * step, step);
        const real = loadOf((a + da) * step, (b + db) * step);
        expect(real).toBeGreaterThanOrEqual(low - 1e-12);
        expect(real).toBeLessThanOrEqual(high + 1e-12);
      }),
    );
  });

  test("0.10 oz on a 0.1 oz scale is anything from half to one and a half times the load", () => {
    // By hand: 0.05 / 2 and 0.15 / 2.
    const [[low, high]] = loadSpan(0.1, 1.9, 0.1);
    expect(low).toBeCloseTo(0.025, 12);
    expect(high).toBeCloseTo(0.075, 12);
  });

  test("no oil shown may still be half a step of oil", () => {
    const [[low, high]] = loadSpan(0, 10, 0.1);
    expect(low).toBe(0);
    expect(high).toBeCloseTo(0.005, 12);
  });

  test("of the base, as asked", () => {
    // By hand: (3 - 0.05) / (60 + 0.05) and (3 + 0.05) / (60 - 0.05).
    const [[low, high]] = loadSpan(3, 60, 0.1, "base");
    expect(low).toBeCloseTo(2.95 / 60.05, 12);
    expect(high).toBeCloseTo(3.05 / 59.95, 12);
  });

  test("refuses a base within the rounding", () => {
    refuses(() => loadSpan(3, 0.05, 0.1), "base must be more than half of readability, got 0.05");
  });
});
