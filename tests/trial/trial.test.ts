import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fadeHalf,
  lastsFor,
  panelAgree,
  standing,
  tipPoint,
  trioChance,
  trioNeed,
} from "../../src/index";
import { fitLine } from "../../src/trial/line";
import { rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { NORRIS, ROUNDING } from "../reference/norris";
import { refuses } from "../refuses";

const column = (values: (number | string)[]) => values.map((value) => [value]);
const HOURS = [0, 1, 2, 4, 6, 8];

describe("the straight line against NIST StRD Norris", () => {
  const line = fitLine(
    NORRIS.map(([, x]) => x),
    NORRIS.map(([y]) => y),
  );
  holdToPublished({
    norris_b1: () => line.slope,
    norris_b0: () => line.intercept,
    norris_se1: () => line.slopeError,
    norris_se0: () => line.interceptError,
    norris_r2: () => line.rSquared,
    norris_mse: () => line.meanSquare,
    norris_sse: () => line.meanSquare * 34,
  });
});

describe("FADEHALF and LASTSFOR", () => {
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
        const scores = HOURS.map((hour) => start * 2 ** (-hour / life));
        const [got, low, high] = fadeHalf(column(HOURS), column(scores))[0] as number[];
        expect(got / life).toBeCloseTo(1, 9);
        expect(low).toBeLessThanOrEqual(got * (1 + 1e-9));
        expect(high).toBeGreaterThanOrEqual(got * (1 - 1e-9));
        const floor = start / 8;
        expect(
          (lastsFor(column(HOURS), column(scores), floor)[0][0] as number) / (3 * life),
        ).toBeCloseTo(1, 9);
      }),
    );
  });

  test("the intervals take in the truth about 19 times in 20", () => {
    // A fixed stream of noise, so that the count is the same on every machine.
    let seed = 12345;
    const uniform = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648;
    const normal = () =>
      Math.sqrt(-2 * Math.log(uniform() || 1e-12)) * Math.cos(2 * Math.PI * uniform());
    const [rounds, life] = [2000, 4];
    let inside = 0;
    let lasting = 0;
    for (let i = 0; i < rounds; i++) {
      const scores = HOURS.map((hour) => 8 * 2 ** (-hour / life) * Math.exp(0.1 * normal()));
      const [, low, high] = fadeHalf(column(HOURS), column(scores))[0];
      if ((low as number) <= life && (typeof high === "string" || high >= life)) inside++;
      const [, from, to] = lastsFor(column(HOURS), column(scores), 1)[0];
      if ((from as number) <= 12 && (typeof to === "string" || to >= 12)) lasting++;
    }
    expect(inside / rounds).toBeGreaterThan(0.935);
    expect(inside / rounds).toBeLessThan(0.965);
    expect(lasting / rounds).toBeGreaterThan(0.935);
    expect(lasting / rounds).toBeLessThan(0.965);
  });

  test("a zero is at or below the least score: it pulls down, and never to minus infinity", () => {
    const scores = [8, 4, 2, 1, 0, 0];
    const hours = [0, 1, 2, 3, 4, 5];
    // The curve stands at 0.5 and 0.25 there, below the least score of 1: the zeros say nothing new.
    expect(fadeHalf(column(hours), column(scores))[0][0]).toBeCloseTo(1, 12);
    // A curve that would stand above the least of the scale is pulled down to it.
    const hoursOn = column([0, 1, 2, 3, 4]);
    const slow = fadeHalf(column([0, 1, 2, 3]), column([8, 7, 6, 5]))[0][0] as number;
    const pulled = fadeHalf(hoursOn, column([8, 7, 6, 5, 0]), 1)[0][0] as number;
    expect(pulled).toBeLessThan(slow);
    // By hand: the pull is that of a score of 1 at 4 h.
    expect(pulled).toBeCloseTo(fadeHalf(hoursOn, column([8, 7, 6, 5, 1]))[0][0] as number, 12);
    // Where the scale is not told, 0 is only known to be at or below 5, where the curve is already.
    expect(fadeHalf(hoursOn, column([8, 7, 6, 5, 0]))[0][0]).toBeCloseTo(slow, 12);
    // More zeros than scores, in any order, still settle.
    expect(
      fadeHalf(column([5, 0, 4, 1, 3, 2, 6, 7]), column([0, 8, 0, 5, 0, 2, 0, 0]))[0][0],
    ).toBeGreaterThan(0);
  });

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

  test("flat, rising, too few: said so", () => {
    const flat = "scores must fall with the hours: these are flat or rise, so nothing fades";
    refuses(() => fadeHalf(column([0, 1, 2]), column([3, 3, 3])), flat);
    refuses(() => fadeHalf(column([0, 1, 2]), column([1, 2, 3])), flat);
    refuses(
      () => fadeHalf(column([0, 1, 2]), column([3, 2, 0])),
      "scores must hold three or more above zero, got 2",
    );
    refuses(
      () => fadeHalf(column([1, 1, 1]), column([3, 2, 1])),
      "hours must differ, got one hour only",
    );
    refuses(
      () => lastsFor(column([0, 1, 2]), column([8, 4, 2]), 8),
      "floor must be below the fitted score at the start, 8, got 8",
    );
    refuses(() => lastsFor(column([0, 1, 2]), column([8, 4, 2]), 0), "floor is blank or zero");
    refuses(
      () => fadeHalf(column([0, 1]), column([8, 4, 2])),
      "scores must have as many cells as hours, got 3 and 2",
    );
    refuses(
      () => fadeHalf(column([0, 1, 2]), column([8, -4, 2])),
      "scores, cell 2, must be zero or more, got -4",
    );
  });

  test("a scattered row has no upper end, and says it instead of infinity", () => {
    const [half, low, high] = fadeHalf(column([0, 1, 2]), column([5, 6, 4]))[0];
    expect(half).toBeGreaterThan(low as number);
    expect(high).toBe("no upper end");
    expect(lastsFor(column([0, 1, 2]), column([5, 6, 4]), 1)[0][2]).toBe("no upper end");
  });
});

describe("the odd one out", () => {
  const rows = rowsOf("statistics").filter(({ id }) => /^tri_\d+$/.test(id));
  test("the rows are read", () => expect(rows.length).toBeGreaterThanOrEqual(12));
  holdToPublished(
    Object.fromEntries(rows.map(({ id }) => [id, () => trioNeed(Number(id.slice(4)))])),
  );

  test("16 tests with 9 right sit at p = 0.04996", () => {
    // By hand: 2150649 ways of 3^16 have 9 or more right.
    let ways = 0;
    for (let right = 9; right <= 16; right++) {
      let choose = 1;
      for (let i = 0; i < right; i++) choose = (choose * (16 - i)) / (i + 1);
      ways += choose * 2 ** (16 - right);
    }
    expect(trioChance(9, 16)).toBeCloseTo(ways / 3 ** 16, 15);
    expect(trioChance(9, 16).toFixed(5)).toBe("0.04996");
    expect(trioNeed(16)).toBe(9);
  });

  test("chances sum as they must", () => {
    for (const tests of [1, 2, 7, 30, 100, 1000]) {
      expect(trioChance(0, tests)).toBeCloseTo(1, 14);
      expect(trioChance(tests, tests) / 3 ** -tests || 1).toBeCloseTo(1, 9);
      const need = tests > 2 ? trioNeed(tests) : 0;
      if (need) {
        expect(trioChance(need, tests)).toBeLessThanOrEqual(0.05);
        expect(trioChance(need - 1, tests)).toBeGreaterThan(0.05);
      }
    }
  });

  test("refusals", () => {
    refuses(() => trioChance(5, 4), "correct must be at most 4, got 5");
    refuses(() => trioChance(1.5, 4), "correct must be a whole number up to 1000, got 1.5");
    refuses(() => trioChance(0, 0), "tests must be from 1 to 1000, got 0");
    refuses(() => trioNeed(2), "tests must be more for an alpha of 5 %, got 2");
    refuses(() => trioNeed(12, 5), "alpha must be from 0 % to 100 %, got 500 %: type 5 %");
  });
});

describe("PANELAGREE", () => {
  holdToPublished({
    friedman_W: () => panelAgree(ROUNDING)[0][0],
    friedman_chi2: () => panelAgree(ROUNDING)[0][1],
    friedman_p: () => panelAgree(ROUNDING)[0][2],
  });

  test("full agreement is 1, and ranks or scores are alike", () => {
    // By hand: W is 1 where all agree; chi-square is people x (samples - 1).
    const [w, chi] = panelAgree([
      [1, 2, 3],
      [1, 2, 3],
      [1, 2, 3],
      [10, 20, 30],
    ])[0];
    expect([w, chi]).toEqual([1, 8]);
    refuses(
      () =>
        panelAgree([
          [1, 1],
          [2, 2],
        ]),
      "ranks must differ in some row, got all samples alike",
    );
    refuses(
      () => panelAgree([[1, 2, 3]]),
      "ranks must be two people by two samples or more, got 1 x 3",
    );
  });
});

describe("STANDING and TIPPOINT", () => {
  const scores = [
    [25, 20, 15, 30],
    [10, 30, 20, 30],
    [30, 10, 30, 10],
  ];
  const weights = [[0.2, 0.15, 0.4, 0.25]];
  holdToPublished({ wsm_A2: () => standing(scores, weights)[1][0] as number });

  test("scores and weights whose products no number can hold are refused", () => {
    const text = "scores and weights are too large to be weighed: check their sizes";
    refuses(() => standing([[1e200], [1]], [[1e200]]), text);
    refuses(() => tipPoint([[1e200], [1]], [[1e200]]), text);
  });

  test("ties are said (weighted sum model worked example: A2 and A3 tie)", () => {
    expect(standing(scores, weights).map(([, place]) => place)).toEqual(["3", "1 tied", "1 tied"]);
    expect(tipPoint(scores, weights)).toEqual([[0, "tie", 3]]);
    // Weights in percent or parts of a hundred are the same weights.
    expect(standing(scores, [[20, 15, 40, 25]])).toEqual(standing(scores, weights));
  });

  test("unlike scales, each with its direction: a low price and many hours are good", () => {
    // By hand: price 0.30 is the worst (0), 0.20 the best (1), 0.25 between; hours 2, 6, 4 are 0, 1, 0.5.
    const table = [
      [0.3, 2],
      [0.2, 6],
      [0.25, 4],
    ];
    const got = standing(table, [[1, 1]], [["down", "up"]]);
    expect(got.map(([score]) => score)).toEqual(
      [0, 1, 0.5].map((each) => expect.closeTo(each, 12)),
    );
    expect(got.map(([, place]) => place)).toEqual(["3", "1", "2"]);
    refuses(
      () => standing(table, [[1, 1]], [["down", "sideways"]]),
      'directions, cell 2, must be "up" or "down", got "sideways"',
    );
    refuses(
      () => standing(table, [[1]]),
      "weights must have as many cells as scores has columns, got 1 and 2",
    );
    refuses(() => standing(table, [[0, 0]]), "the sum of weights is blank or zero");
  });

  const grids = fc
    .integer({ min: 2, max: 5 })
    .chain((criteria) =>
      fc.tuple(
        fc.array(
          fc.array(fc.integer({ min: 0, max: 20 }), { minLength: criteria, maxLength: criteria }),
          { minLength: 2, maxLength: 5 },
        ),
        fc.array(fc.integer({ min: 1, max: 20 }), { minLength: criteria, maxLength: criteria }),
      ),
    );

  test("at the tipping point the two are level, just past it the other wins, and no smaller change does it", () => {
    fc.assert(
      fc.property(grids, ([table, plain]) => {
        const totalsFor = (each: number[]) =>
          table.map((row) => row.reduce((sum, value, i) => sum + value * each[i], 0));
        const [[change, criterion, rival]] = tipPoint(table, [plain]);
        const before = totalsFor(plain);
        const winner = before.indexOf(Math.max(...before));
        if (criterion === "tie") {
          expect(before.filter((total) => total === before[winner]).length).toBeGreaterThan(1);
          return;
        }
        const winnerUnder = (delta: number, i: number) => {
          const totals = totalsFor(plain.map((weight, j) => weight + (i === j ? delta : 0)));
          return totals.every((total) => totals[winner] >= total - 1e-7);
        };
        const size =
          change === "no single weight" ? Number.POSITIVE_INFINITY : Math.abs(change as number);
        // No smaller change of any weight lets another pass.
        for (let i = 0; i < plain.length; i++) {
          for (const part of [0.25, 0.5, 0.9, 0.999]) {
            const delta = Math.min(size, 1000) * part;
            expect(winnerUnder(delta, i)).toBe(true);
            if (plain[i] - delta >= 0) expect(winnerUnder(-delta, i)).toBe(true);
          }
        }
        if (typeof change !== "number") return;
        const moved = plain.map(
          (weight, i) => weight + (i === (criterion as number) - 1 ? change : 0),
        );
        const totals = totalsFor(moved);
        expect(totals[winner]).toBeCloseTo(totals[(rival as number) - 1], 6);
      }),
      { numRuns: 400 },
    );
  });
});
