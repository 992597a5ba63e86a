import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fadeHalf, lastsFor } from "../../src/index";
import { BLANK } from "../../src/errors";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";
import { LOG_HOURS } from "./noise";

const column = (values: (number | string)[]) => values.map((value) => [value]);
const HOURS = [0, 1, 2, 4, 6, 8];

describe("published and made decays", () => {
  const [half] = fadeHalf([[0, 6, 12, 18, 24]], [[1, 0.5, 0.25, 0.125, 0.0625]])[0] as number[];
  holdToPublished({
    // OpenStax Chemistry 12.4: hydrogen peroxide halves every 6 h.
    hl_h2o2_k: () => Math.LN2 / half,
    // 64 is 2^6: six half-lives of 42 days.
    hl_64: () => lastsFor([[0, 42, 84]], [[64, 32, 16]], 1)[0][0] as number,
    hl_i131: () => {
      const days = [0, 1, 2, 3];
      return fadeHalf([days], [days.map((day) => Math.exp(-0.138 * day))])[0][0] as number;
    },
  });

  test("a made decay comes back, whatever its start and half-life", () => {
    const positive = fc.double({ min: 0.5, max: 40, noNaN: true });
    fc.assert(
      fc.property(positive, positive, (start, life) => {
        const scores = column(HOURS.map((hour) => start * 2 ** (-hour / life)));
        const [got, low, high] = fadeHalf(column(HOURS), scores)[0] as number[];
        expect(got / life).toBeCloseTo(1, 9);
        expect(low).toBeLessThanOrEqual(got);
        expect(high).toBeGreaterThanOrEqual(got);
        for (const fit of ["scores", "logs"] as const) {
          const [until] = lastsFor(column(HOURS), scores, start / 8, undefined, fit)[0];
          expect((until as number) / (3 * life)).toBeCloseTo(1, 9);
        }
      }),
    );
  });
});

describe("the half-life of whole scores on the log's own hours", () => {
  test("a zero is a score and not the end of what is known", () => {
    const [zeros] = fadeHalf(column([0, 1, 2, 3, 4, 5]), column([8, 4, 2, 1, 0, 0]))[0];
    // By hand: 0.5 and 0.25 were due there, so the curve must lie a little lower than without them.
    expect(zeros).toBeLessThan(1);
    expect(zeros).toBeGreaterThan(0.9);
    const [slow] = fadeHalf(column([0, 1, 2, 3]), column([8, 7, 6, 5]))[0] as number[];
    const [fallen] = fadeHalf(column([0, 1, 2, 3, 4]), column([8, 7, 6, 5, 0]))[0] as number[];
    expect(fallen).toBeLessThan(slow);
  });

  test("the least on the scale widens the interval and moves no half-life", () => {
    const [hours, scores] = [column(LOG_HOURS), column([9, 8, 7.5, 6, 4.5, 4, 2.5, 0.5, 0])];
    const [half, low, high] = fadeHalf(hours, scores)[0] as number[];
    const [same, lower, higher] = fadeHalf(hours, scores, 2)[0] as number[];
    expect(same).toBe(half);
    expect([lower < low, higher > high]).toEqual([true, true]);
    // Whole scores are rounded to 1, told or not.
    const whole = column([9, 8, 7, 6, 5, 4, 2, 1, 0]);
    expect(fadeHalf(hours, whole, 1)).toEqual(fadeHalf(hours, whole));
    refuses(() => fadeHalf(hours, whole, 0), "least is blank or zero");
  });
});

describe("the hours until a floor", () => {
  test("a slope that may be nothing: 1.15, 0 to 3.45", () => {
    const [until, low, high] = lastsFor(column([0, 1, 2, 4]), column([4, 3, 3, 1]), 3)[0];
    // By hand: slope -0.34004, intercept 1.49094; the band leaves the floor at 3.45400 only.
    expect(until).toBeCloseTo(1.15379, 5);
    expect(low).toBe(0);
    expect(high).toBeCloseTo(3.454, 5);
  });
});

describe("what no number tells is told in words", () => {
  test.each([
    ["flat", [7, 7, 7, 7], ["over 6", "over 6", "no upper end"]],
    ["rising", [1, 2, 4, 8], ["over 6", "over 6", "no upper end"]],
    ["gone by the second hour", [8, 0, 0, 0], ["under 1", "no lower end", "under 1"]],
  ])("%s", (_, scores, told) => {
    const hours = column([0, 1, 2, 6]);
    expect(fadeHalf(hours, column(scores))).toEqual([told]);
    const lasts = lastsFor(hours, column(scores), 2, 1)[0];
    expect([lasts[0], lasts[2]]).toEqual([told[0], told[2]]);
  });

  test("a row that may or may not fade has a low, and says that there is no high", () => {
    const row = [column([0, 1, 2, 4, 8]), column([7, 5, 6, 7, 6])] as const;
    expect(fadeHalf(...row)[0]).toEqual(["over 8", expect.closeTo(7.7734, 3), "no upper end"]);
    expect(lastsFor(...row, 4, 1)[0]).toEqual(["over 8", expect.any(Number), "no upper end"]);
  });

  test("where neither end exists, both are told", () => {
    const row = [column([0, 1, 2]), column([5, 6, 4])] as const;
    expect(fadeHalf(...row)[0]).toEqual([expect.any(Number), "no lower end", "no upper end"]);
    for (const fit of ["scores", "logs"] as const) {
      expect(lastsFor(...row, 4.5, undefined, fit)[0]).toEqual([
        expect.any(Number),
        "no lower end",
        "no upper end",
      ]);
    }
  });
});

describe("what is asked of a row", () => {
  test("gaps are passed over, text is not", () => {
    const whole = fadeHalf(column([0, 2, 4]), column([8, 4, 2]));
    expect(fadeHalf(column([0, 1, 2, 3, 4]), column([8, "", 4, "-", 2]))).toEqual(whole);
    expect(fadeHalf(column([0, 2, 4, ""]), column([8, 4, 2, ""]))).toEqual(whole);
    refuses(
      () => fadeHalf(column([0, 1, 2]), column([8, "faint", 2])),
      'scores, cell 2, must be a number, or blank or a dash for a gap, got "faint"',
    );
    refuses(
      () => fadeHalf(column([0, "", 2]), column([8, 4, 2])),
      "hours, cell 2, is blank beside a score",
    );
  });

  test("too few, all zero, one hour, unlike lengths, sizes that no number holds", () => {
    const hours = column([0, 1, 2]);
    refuses(() => fadeHalf(hours, column([3, 2, ""])), "scores must hold three or more, got 2");
    refuses(() => fadeHalf(hours, column([0, 0, 0])), "scores must not all be zero");
    refuses(
      () => fadeHalf(column([1, 1, 1]), column([3, 2, 1])),
      "hours must differ, got one hour only",
    );
    refuses(
      () => fadeHalf(column([0, 1]), column([8, 4, 2])),
      "scores must have as many cells as hours, got 3 and 2",
    );
    refuses(
      () => fadeHalf(hours, column([8, -4, 2])),
      "scores, cell 2, must be zero or more, got -4",
    );
    refuses(
      () => fadeHalf(hours, column([8, 1e200, 2])),
      "scores, cell 2, must be 0 or from 1e-100 to 1e+100, got 1e+200",
    );
    refuses(
      () => fadeHalf(column([0, 1, 1e10]), column([8, 4, 2])),
      "hours, cell 3, must be at most 1000000000, got 10000000000",
    );
  });

  test("the floor", () => {
    const hours = column([0, 1, 2]);
    const fading = column([8, 4, 2]);
    refuses(
      () => lastsFor(hours, fading, 8),
      "floor must be below the fitted score at the start, 8, got 8",
    );
    refuses(() => lastsFor(hours, fading, 0), "floor is blank or zero");
    refuses(() => lastsFor(hours, fading, BLANK), "floor is blank");
    refuses(
      () => lastsFor(hours, column([2, 2, 2]), 3),
      "floor must be below the fitted score at the last hour, as the scores do not fall, 2, got 3",
    );
  });

  test("a zero has no logarithm", () => {
    const row = [column([0, 1, 2, 3]), column([8, 4, 2, 0])] as const;
    refuses(
      () => lastsFor(...row, 1, undefined, "logs"),
      'scores must be above zero for a fit of "logs", got 0: fit "scores"',
    );
    // Left out, the fit is of the scores where one is zero or the scale is told, else of the logs.
    expect(lastsFor(...row, 1)).toEqual(lastsFor(...row, 1, undefined, "scores"));
    const above = [column([0, 1, 2, 3]), column([8, 5, 2, 1])] as const;
    expect(lastsFor(...above, 1)).toEqual(lastsFor(...above, 1, undefined, "logs"));
    expect(lastsFor(...above, 1, 1)).toEqual(lastsFor(...above, 1, 1, "scores"));
  });
});

describe("rows that no nose writes", () => {
  test("ten thousand are fitted, more are refused in words", () => {
    const hours = Array.from({ length: 10_001 }, (_, i) => i / 100);
    const scores = hours.map((hour, i) => 8 * 2 ** (-hour / 20) + (i % 3) / 10);
    const [got] = fadeHalf(column(hours.slice(1)), column(scores.slice(1)))[0] as number[];
    // The added 0.1 on average slows it a little.
    expect(got).toBeGreaterThan(20);
    expect(got).toBeLessThan(22);
    refuses(
      () => fadeHalf(column(hours), column(scores)),
      "scores must be 10000 or fewer, got 10001",
    );
  }, 60_000);
});
