import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { spraysIn } from "../../src/index";
import { meanReach } from "../../src/sample";
import { normal, partOf } from "../chance";
import { refuses } from "../refuses";

const column = (values: (number | string)[]) => values.map((value) => [value]);

/** As many values with just this mean and standard deviation. */
function madeOf(mean: number, spread: number, count: number): number[] {
  const apart = spread * Math.sqrt((count - 1) / count);
  return Array.from({ length: count }, (_, i) => mean + (i % 2 === 0 ? apart : -apart));
}

describe("SPRAYSIN: the weight of a spray", () => {
  // Printed t table, two sides 95 %, as on sophia.org (Confidence interval for the mean).
  test.each([
    [2, 12.71],
    [3, 4.303],
    [6, 2.571],
    [10, 2.262],
    [20, 2.093],
  ])("Student's t for %i values is %f", (count, t) => {
    expect(meanReach(0.975, count) * Math.sqrt(count)).toBeCloseTo(t, t > 10 ? 1 : 3);
  });

  test("published: n 10, mean 17.3, s 4.1 gives 14.4 to 20.2 (wyzant.com, 212177)", () => {
    const [answer] = spraysIn(column(madeOf(17.3, 4.1, 10)), "g", 100, "g");
    expect(answer[3]).toBeCloseTo(17.3, 12);
    expect((answer[4] as number).toFixed(1)).toBe("14.4");
    expect((answer[5] as number).toFixed(1)).toBe("20.2");
  });

  test("published: n 10, mean 8.1, s 4.8 gives 4.67 to 11.53 (algebra.com, 980616)", () => {
    const [answer] = spraysIn(column(madeOf(8.1, 4.8, 10)), "g", 100, "g");
    expect((answer[4] as number).toFixed(2)).toBe("4.67");
    expect((answer[5] as number).toFixed(2)).toBe("11.53");
  });

  test("by hand: 100 mL of 0.9 g/mL, 2 % left, 1.4 g in ten strokes is 630 sprays", () => {
    const [answer] = spraysIn([[1.3, 1.4, 1.5]], "g", 100, "mL", 0.9, 10, 0.02);
    expect(answer[0]).toBeCloseTo((100 * 0.9 * 0.98) / 0.14, 9);
    expect(answer[1]).toBeCloseTo(88.2 / (answer[5] as number), 9);
    expect(answer[2]).toBeCloseTo(88.2 / (answer[4] as number), 9);
  });

  test("the unit of the weighings does not change the sprays", () => {
    const grams = spraysIn(column([0.13, 0.14, 0.16]), "g", 4, "floz", 0.9)[0];
    const ounces = spraysIn(
      column([0.13, 0.14, 0.16].map((each) => each / 28.349523125)),
      "oz",
      4,
      "floz",
      0.9,
    )[0];
    grams.slice(0, 3).forEach((sprays, i) => expect(ounces[i]).toBeCloseTo(sprays as number, 6));
  });
});

describe("SPRAYSIN: the interval, simulated", () => {
  test.each([
    [3, 1],
    [5, 1],
    [10, 10],
  ])("%i weighings of %i strokes take in the truth in 93.5 to 96.5 %", (count, strokes) => {
    const draw = normal(20261 + count);
    const held = partOf(5000, () => {
      const weighings = Array.from({ length: count }, () =>
        Array.from({ length: strokes }, () => draw(0.14, 0.012)).reduce((a, b) => a + b, 0),
      );
      const [[, least, most, , low, high]] = spraysIn(
        column(weighings),
        "g",
        100,
        "g",
        undefined,
        strokes,
      );
      const takesIn = (from: unknown, to: unknown, truth: number) =>
        (from as number) <= truth && (typeof to === "string" || truth <= (to as number));
      // Both intervals are one: they take in the truth together or not at all.
      expect(takesIn(least, most, 100 / 0.14)).toBe(takesIn(low, high, 0.14));
      return takesIn(least, most, 100 / 0.14);
    });
    expect(held).toBeGreaterThan(0.935);
    expect(held).toBeLessThan(0.965);
  });

  test("on a coarse scale the scatter alone misleads; with the scale's step the interval holds", () => {
    // Strokes of 0.1425 g, each tared, on a scale that shows 0.01 g: nearly always 0.14.
    const coverage = (readability: number) => {
      const draw = normal(5);
      return partOf(2000, () => {
        const shown = Array.from({ length: 20 }, () => Math.round(draw(14.25, 0.15)) / 100);
        const args = ["g", 60, "g", undefined, 1, 0, readability] as const;
        const [[, , , , low, high]] = spraysIn(column(shown), ...args);
        return (low as number) <= 0.1425 && 0.1425 <= (high as number);
      });
    };
    expect(coverage(1e-9)).toBeLessThan(0.4);
    expect(coverage(0.01)).toBeGreaterThan(0.95);
  });

  test("few and scattered strokes leave no upper end", () => {
    const [answer] = spraysIn(column([0.05, 0.2]), "g", 100, "g");
    expect(answer.slice(0, 5)).toEqual([
      expect.closeTo(800, 9),
      expect.closeTo(100 / (answer[5] as number), 9),
      "no upper end",
      0.125,
      0,
    ]);
  });
});

describe("SPRAYSIN: what is not known", () => {
  const fine = column([0.13, 0.14, 0.15]);

  test("weighings that are all alike say nothing of their spread", () => {
    const text =
      "readability is needed: the weighings are all alike, so the scale is too coarse to tell them apart";
    refuses(() => spraysIn(column([0.14, 0.14, 0.14]), "g", 100, "g"), text);
    const [answer] = spraysIn(column([1.4, 1.4, 1.4]), "g", 100, "g", undefined, 10, 0, 0.1);
    expect(answer.slice(4)).toEqual([expect.closeTo(0.13, 12), expect.closeTo(0.15, 12)]);
  });

  test("refusals", () => {
    refuses(
      () => spraysIn(column([0.14]), "g", 100, "g"),
      "weighings must hold two or more, got 1",
    );
    refuses(
      () => spraysIn(column([0.14, 0, 0.15]), "g", 100, "g"),
      "weighings, cell 2, is blank or zero",
    );
    refuses(
      () => spraysIn(column([0.14, "none"]), "g", 100, "g"),
      'weighings, cell 2, must be a number, got "none"',
    );
    refuses(() => spraysIn(fine, "g", BLANK, "g"), "fill is blank");
    refuses(
      () => spraysIn(fine, "g", 100, "mL"),
      "density is needed: g is a weight and mL a volume; weigh a known volume to find it",
    );
    refuses(
      () => spraysIn(fine, "g", 100, "g", 0.9, 2.5),
      "strokes must be a whole number, got 2.5",
    );
    refuses(() => spraysIn(fine, "g", 100, "g", 0.9, 0), "strokes is blank or zero");
    refuses(() => spraysIn(fine, "g", 100, "g", 0.9, 1, 1), "left must be below 100 %, got 100 %");
    refuses(
      () => spraysIn(fine, "g", 100, "g", 0.9, 1, 0, -1),
      "readability must be zero or more, got -1",
    );
    expect(spraysIn(fine, "g", 100, "g", 0.9, 1, 0, 0)).toEqual(spraysIn(fine, "g", 100, "g"));
    refuses(
      () => spraysIn(column([150.2, 150.1, 149.9]), "g", 100, "g"),
      "weighings must be what strokes weigh, not the bottle: each is above the fill",
    );
  });
});
