import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { standing, tipPoint, trioChance, trioNeed } from "../../src/index";
import { fitLine } from "../../src/trial/line";
import { rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { NORRIS } from "../reference/norris";
import { refuses } from "../refuses";

describe("the straight line against NIST StRD Norris", () => {
  const line = fitLine(
    NORRIS.map(([, x]) => x),
    NORRIS.map(([y]) => y),
  );
  holdToPublished({
    norris_b1: () => line.slope,
    norris_b0: () => line.intercept,
    // By hand: textbook forms of what the line gives.
    norris_se1: () => Math.sqrt(line.meanSquare / line.spread),
    norris_se0: () =>
      Math.sqrt(line.meanSquare * (1 / line.points + line.centre ** 2 / line.spread)),
    norris_r2: () =>
      1 - (line.meanSquare * 34) / (line.meanSquare * 34 + line.slope ** 2 * line.spread),
    norris_mse: () => line.meanSquare,
    norris_sse: () => line.meanSquare * 34,
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

  test("the least number at any alpha: one fewer is likelier than that by guessing", () => {
    for (const tests of [5, 16, 41]) {
      for (const alpha of [0.01, 0.2, 0.5, 0.9, 0.99]) {
        const need = trioNeed(tests, alpha);
        expect(trioChance(need, tests)).toBeLessThanOrEqual(alpha);
        expect(trioChance(need - 1, tests)).toBeGreaterThan(alpha);
      }
    }
  });

  test("refusals", () => {
    refuses(() => trioChance(5, 4), "correct must be at most 4, got 5");
    refuses(() => trioChance(1.5, 4), "correct must be a whole number up to 1000, got 1.5");
    refuses(() => trioChance(0, 0), "tests must be from 1 to 1000, got 0");
    refuses(() => trioNeed(2), "tests must be more for an alpha of 5 %, got 2");
    // A zero that was typed is a zero, never "left out".
    refuses(() => trioNeed(16, 0), "alpha must be above 0 % and below 100 %, got 0 %");
    refuses(() => trioNeed(16, 1), "alpha must be above 0 % and below 100 %, got 100 %");
    refuses(() => trioNeed(12, 5), "alpha must be from 0 % to 100 %, got 500 %: type 5 %");
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

  test("a blank is unknown: its cell is named; a zero that was typed is a zero", () => {
    const costs = (cost: number) => [
      [0.48, 6],
      [cost, 8],
    ];
    const down = [["down", "up"]];
    for (const judged of [standing, tipPoint]) {
      refuses(() => judged(costs(BLANK), [[1, 1]], down), "scores, row 2, column 1, is blank");
      refuses(() => judged(costs(0.4), [[1, BLANK]], down), "weights, cell 2, is blank");
      refuses(() => judged(costs(0.4), [[1, 1]], [["", "up"]]), "directions, cell 1, is blank");
      refuses(() => judged([[BLANK, BLANK]], [[1, 1]]), "scores is blank");
    }
    expect(standing(costs(0), [[1, 0]], down)[1]).toEqual([1, "1"]);
  });

  test("a row with nothing in it stays blank, and moves no candidate's number", () => {
    const spare = [BLANK, BLANK];
    const table = [spare, [4, 2], spare, [3, 4], spare];
    expect(standing(table, [[0.7, 0.3]])).toEqual([
      ["", ""],
      [expect.closeTo(3.4, 12), "1"],
      ["", ""],
      [expect.closeTo(3.3, 12), "2"],
      ["", ""],
    ]);
    // By hand: 0.7 x 1 = (0.3 + change) x 2.
    expect(tipPoint(table, [[0.7, 0.3]])).toEqual([[expect.closeTo(0.05, 12), 2, 4]]);
  });

  test("what is a tie for the one is a tie for the other, whatever the scale", () => {
    const unit = fc.double({ min: 0.5, max: 1, noNaN: true });
    const tiny = fc.constantFrom(0, 1e-16, 1e-13, 3e-10, 7e-10, 9e-10, 1.1e-9, 2e-9, 1e-6);
    const scale = fc.constantFrom(1e-12, 1e-3, 1, 1e6, 1e12);
    fc.assert(
      fc.property(unit, fc.array(tiny, { minLength: 1, maxLength: 4 }), scale, (top, off, by) => {
        const table = [0, ...off].map((each) => [(top - each) * by, (top - each) * by]);
        const places = standing(table, [[0.3, 0.7]]).map(([, place]) => place);
        const isTied = places.filter((place) => String(place).startsWith("1")).length > 1;
        expect(tipPoint(table, [[0.3, 0.7]])[0][1] === "tie").toBe(isTied);
        expect(places.includes("1 tied")).toBe(isTied);
        // Places are counted from the top: as many stand above a place as it says.
        for (const place of places) {
          const rank = Number.parseInt(String(place), 10);
          expect(places.filter((each) => Number.parseInt(String(each), 10) < rank)).toHaveLength(
            rank - 1,
          );
        }
      }),
    );
    // Ten billionths of a very small score are a difference all the same.
    expect(standing([[1e-12], [2e-12]], [[1]]).map(([, place]) => place)).toEqual(["2", "1"]);
    expect(tipPoint([[1e-12], [2e-12]], [[1]])).toEqual([["no single weight", "", ""]]);
  });

  // By the rule in STANDING's comment: a billionth of the largest score, here 1.
  test.each([
    [0.9e-9, ["1 tied", "1 tied"], [0, "tie", 2]],
    [1.1e-9, ["1", "2"], ["no single weight", "", ""]],
  ])("a billionth of the largest score divides a tie from a lead: %d", (gap, places, tip) => {
    const table = [
      [1, 1],
      [1 - gap, 1 - gap],
    ];
    const weights = [[0.3, 0.7]];
    expect(standing(table, weights).map(([, place]) => place)).toEqual(places);
    expect(tipPoint(table, weights)).toEqual([tip]);
  });

  test("prices that differ by rounding alone are alike", () => {
    const table = [
      [0.1 + 0.2, 5],
      [0.3, 5],
    ];
    const places = standing(table, [[1, 1]], [["down", "up"]]).map(([, place]) => place);
    expect(places).toEqual(["1 tied", "1 tied"]);
    expect(tipPoint(table, [[1, 1]], [["down", "up"]])).toEqual([[0, "tie", 2]]);
  });

  test("a hundred thousand candidates have their places", () => {
    const many = 100_000;
    // Each score of 0 to 49,999 comes twice; 7 and many have no common factor.
    const table = Array.from({ length: many }, (_, i) => [((i * 7) % many) >> 1]);
    const places = standing(table, [[1]]);
    table.forEach(([score], i) => {
      if (i % 997) return;
      expect(places[i]).toEqual([score, `${many - 2 * score - 1} tied`]);
    });
    const [[change, word, second]] = tipPoint(table, [[1]], [["up"]]);
    expect([change, word]).toEqual([0, "tie"]);
    expect(table[(second as number) - 1]).toEqual([49_999]);
  }, 60_000);

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
