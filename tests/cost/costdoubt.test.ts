import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { costDoubt } from "../../src/index";
import { uniform } from "../chance";
import { refuses } from "../refuses";

const column = (values: (number | string)[]) => values.map((value) => [value]);
const AMOUNTS = [95, 5, 1, 1];
const LOWS = [0.01, 0.07, 1, 0.2];
const HIGHS = [0.012, 0.09, 1.3, 0.26];

/** Costs with each price anywhere between its quotes (JCGM 101). */
function simulated(isTogether: boolean): number[] {
  const draw = uniform(7);
  return Array.from({ length: 60_000 }, () => {
    const all = draw();
    return AMOUNTS.reduce((cost, amount, i) => {
      const place = isTogether ? all : draw();
      return cost + amount * (LOWS[i] + place * (HIGHS[i] - LOWS[i]));
    }, 0);
  });
}

describe("COSTDOUBT", () => {
  test("by hand: one price from 10 to 12 is 11, with (12 - 10) / (2 sqrt 3) (GUM 4.3.7)", () => {
    const doubt = 1 / Math.sqrt(3);
    expect(costDoubt([[1]], [[10]], [[12]])).toEqual([
      [
        11,
        expect.closeTo(doubt, 12),
        expect.closeTo(11 - 2 * doubt, 12),
        expect.closeTo(11 + 2 * doubt, 12),
      ],
    ]);
  });

  test.each([
    ["apart", false],
    ["together", true],
  ] as const)("Monte Carlo: prices that move %s", (prices, isTogether) => {
    const [[cost, doubt, low, high]] = costDoubt(
      column(AMOUNTS),
      column(LOWS),
      column(HIGHS),
      prices,
    );
    const costs = simulated(isTogether);
    const mean = costs.reduce((a, b) => a + b, 0) / costs.length;
    const spread = Math.sqrt(costs.reduce((a, b) => a + (b - mean) ** 2, 0) / costs.length);
    expect(Math.abs(mean / cost - 1)).toBeLessThan(0.001);
    expect(Math.abs(spread / doubt - 1)).toBeLessThan(0.01);
    const held = costs.filter((each) => low <= each && each <= high).length / costs.length;
    expect(held).toBeGreaterThan(0.95);
  });

  test("prices that move together are the wider", () => {
    const [apart, together] = (["apart", "together"] as const).map(
      (prices) => costDoubt([AMOUNTS], [LOWS], [HIGHS], prices)[0],
    );
    expect(together[1]).toBeGreaterThan(apart[1] * 1.5);
    expect(together[0]).toBe(apart[0]);
  });

  test("spare lines are passed over, an amount of zero needs no price", () => {
    const answer = costDoubt(column([2, "", 0]), column([3, "", ""]), column([4, "", ""]));
    expect(answer).toEqual(costDoubt([[2]], [[3]], [[4]]));
    const spare = Array<string[]>(1048575).fill([""]);
    expect(costDoubt([[2], ...spare], [[3], ...spare], [[4], ...spare])).toEqual(answer);
  }, 20_000);

  test("a blank is never free, and never nothing", () => {
    refuses(
      () => costDoubt(column([2, 5]), column([3, ""]), column([4, 6])),
      "lows, cell 2, is blank",
    );
    refuses(
      () => costDoubt(column([2, 5]), column([3, 6]), column([4, BLANK])),
      "highs, cell 2, is blank",
    );
    refuses(
      () => costDoubt(column([2, ""]), column([3, 6]), column([4, 7])),
      "amounts, cell 2, is blank",
    );
    refuses(() => costDoubt([[2]], [[0]], [[4]]), "lows is blank or zero");
    refuses(() => costDoubt([[0]], [[3]], [[4]]), "the sum of amounts is blank or zero");
  });

  test("refusals", () => {
    refuses(
      () => costDoubt(column([2, 5]), column([3, 6]), column([4, 5])),
      "highs, cell 2, must be at least its low, 6, got 5",
    );
    refuses(() => costDoubt([[2]], [["ask"]], [[4]]), 'lows must be a number, got "ask"');
    refuses(() => costDoubt([[-1]], [[3]], [[4]]), "amounts must be zero or more, got -1");
    refuses(
      () => costDoubt(column([2, 5]), [[3]], [[4]]),
      "lows must have as many cells as amounts, got 1 and 2",
    );
    refuses(
      () => costDoubt([[2]], [[3]], [[4]], "alone" as never),
      'prices must be "apart" or "together", got "alone"',
    );
  });
});
