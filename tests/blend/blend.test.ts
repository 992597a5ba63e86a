import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blendDensity, blendOf, blendShare, blendSplit } from "../../src/index";
import { published } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

describe("alligation against published exercises", () => {
  holdToPublished({
    A02: () => blendOf([[20, 25]], [[95, 50]]),
    A06: () => blendOf([[110], [220], [330]], [[35], [25], [20]]),
    A12: () => blendSplit(1000, 0.7, 0, 0.25)[0][0],
    // 300 mL of 70 % brought to 40 %: the first lot is 300 mL of the total, the rest is water.
    A04: () => 300 / blendShare(0.7, 0, 0.4) - 300,
  });

  test("A08: 50 % and 100 % to make 20 mL of 70 % is 12 and 8 mL (wyzant 929842; seen in a published text)", () => {
    const [[first, second]] = blendSplit(20, 0.5, 1, 0.7);
    expect(first).toBeCloseTo(12, 12);
    expect(second).toBeCloseTo(8, 12);
    // The row holds two numbers, which published() will not take for one.
    expect(() => published("A08")).toThrow();
  });
});

const value = fc.double({ min: -100, max: 100, noNaN: true });

test("a split, blended again, has the target and the total", () => {
  fc.assert(
    fc.property(
      value,
      value,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0.1, max: 1e4, noNaN: true }),
      (a, b, t, total) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        const target = Math.min(Math.max(a, b), Math.max(Math.min(a, b), b + t * (a - b)));
        const [[first, second]] = blendSplit(total, a, b, target);
        expect(first + second).toBeCloseTo(total, 9);
        expect(blendOf([[first, second]], [[a, b]])).toBeCloseTo(target, 6);
      },
    ),
  );
});

test("a mean lies between the least and the most", () => {
  const lots = fc.array(fc.tuple(fc.double({ min: 0.01, max: 100, noNaN: true }), value), {
    minLength: 1,
    maxLength: 9,
  });
  fc.assert(
    fc.property(lots, (rows) => {
      const mean = blendOf([rows.map(([w]) => w)], [rows.map(([, v]) => v)]);
      expect(mean).toBeGreaterThanOrEqual(Math.min(...rows.map(([, v]) => v)) - 1e-9);
      expect(mean).toBeLessThanOrEqual(Math.max(...rows.map(([, v]) => v)) + 1e-9);
    }),
  );
});

test("BLENDDENSITY: volumes add", () => {
  // By hand: 85 g at 0.85 and 15 g at 1.0 fill 100 + 15 mL.
  expect(blendDensity([[85], [15]], [[0.85], [1]])).toBeCloseTo(100 / 115, 12);
  expect(blendDensity([[85], [0]], [[0.85], [0]])).toBeCloseTo(0.85, 12);
  refuses(() => blendDensity([[85], [15]], [[0.85], [0]]), "densities, cell 2, is blank or zero");
  refuses(() => blendDensity([[0], [0]], [[0.85], [1]]), "the sum of weights is blank or zero");
  refuses(
    () => blendDensity([[1], [2]], [[1]]),
    "densities must have as many cells as weights, got 1 and 2",
  );
});

test("refusals", () => {
  refuses(() => blendShare(0.5, 0.5, 0.5), "valuea and valueb must differ, got 0.5 twice");
  refuses(() => blendShare(0.5, 1, 0.4), "target must be from 0.5 to 1, got 0.4");
  refuses(() => blendShare(10, 9, 11), "target must be from 9 to 10, got 11");
  refuses(() => blendOf([[1, 2]], [[1]]), "values must have as many cells as amounts, got 1 and 2");
  refuses(() => blendOf([[0, 0]], [[1, 2]]), "the sum of amounts is blank or zero");
  refuses(() => blendOf([[-1, 2]], [[1, 2]]), "amounts, cell 1, must be zero or more, got -1");
});
