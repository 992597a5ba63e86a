import { describe, expect, test } from "vitest";
import { leastFree, travelsFree } from "../../src/cost/money";
import { landed, packPlan } from "../../src/index";

/** Orders of one to six lines in a currency of so many decimals, their goods counted in its smallest coin. */
const DECIMALS = [0, 2, 2, 2, 3, 4];
const ORDERS = 120_000;

let seed = 20_261_125;
function below(limit: number): number {
  seed = (seed * 48_271) % 2_147_483_647;
  return seed % limit;
}

interface RandomOrder {
  /** Coins in one of the currency. */
  coins: number;
  /** Each line's price in coins, and its count. */
  lines: [number, number][];
  goods: number;
}

function randomOrder(): RandomOrder {
  const coins = 10 ** DECIMALS[below(DECIMALS.length)];
  const length = 1 + below(6);
  const lines = Array.from({ length }, (): [number, number] => [
    1 + below(coins === 1 ? 40_000 : 200 * coins),
    1 + below(40),
  ]);
  return { coins, lines, goods: lines.reduce((sum, [price, count]) => sum + price * count, 0) };
}

/** What LANDED charges for freight of 7 where goods travel free from a sum, in coins. */
function freightPaid({ coins, lines, goods }: RandomOrder, freeover: number): number {
  const prices = [lines.map(([price]) => price / coins)];
  const counts = [lines.map(([, count]) => count)];
  const [answer] = landed(prices, counts, 7, freeover / coins);
  return Math.round(answer.reduce((sum, line) => sum + line, 0) - goods / coins);
}

describe("goods that reach the sum travel free, to the coin", () => {
  test(`LANDED: ${ORDERS} orders at the sum itself, a coin above and a coin below`, () => {
    let wrong = 0;
    for (let i = 0; i < ORDERS; i++) {
      const order = randomOrder();
      if (freightPaid(order, order.goods) !== 0) wrong++;
      if (freightPaid(order, order.goods + 1) !== 7) wrong++;
      if (order.goods > 1 && freightPaid(order, order.goods - 1) !== 0) wrong++;
    }
    expect(wrong).toBe(0);
  });

  test(`PACKPLAN counts its whole coins by the same rule, ${ORDERS} times`, () => {
    let wrong = 0;
    for (let i = 0; i < ORDERS; i++) {
      const { coins, lines, goods } = randomOrder();
      const binary = lines.reduce((sum, [price, count]) => sum + (price / coins) * count, 0);
      for (const off of [-1, 0, 1]) {
        const freeover = (goods + off) / coins;
        const isFree = goods >= leastFree(freeover, 1 / coins);
        if (isFree !== travelsFree(binary, freeover) || isFree !== off <= 0) wrong++;
      }
    }
    expect(wrong).toBe(0);
  });

  test("both at the sums that binary fractions miss", () => {
    // By hand: 2.6 x 4 + 13.2 x 3 = 50, and 1.1 x 3 = 3.3, where the sheet has 3.3000000000000003.
    expect(landed([[2.6], [13.2]], [[4], [3]], 12, 50).flat()).toEqual([
      expect.closeTo(10.4, 12),
      expect.closeTo(39.6, 12),
    ]);
    expect(packPlan(7, [[1]], [[0.1]], 5, 0.7)).toEqual([[7]]);
    expect(landed([[0.1]], [[7]], 5, 0.7)[0][0]).toBeCloseTo(0.7, 12);
    // A third is no decimal: three of them are 1 to both.
    expect(landed([[1 / 3]], [[3]], 5, 1)[0][0]).toBeCloseTo(1, 12);
    expect(packPlan(3, [[1]], [[1 / 3]], 5, 1)).toEqual([[3]]);
  });

  test("half a cent short is short: a unit price of four decimals is not rounded up", () => {
    // By hand: 150 at 0.3333 are 49.995.
    expect(landed([[0.3333]], [[150]], 5, 50)[0][0]).toBeCloseTo(54.995, 10);
    // One more, 50.3283, is cheaper than freight.
    expect(packPlan(150, [[1]], [[0.3333]], 5, 50)).toEqual([[151]]);
  });

  test("a free-freight sum of zero is none", () => {
    expect([travelsFree(10, 0), leastFree(0, 0.01)]).toEqual([false, 0]);
    expect(landed([[10]], [[1]], 5, 0)).toEqual([[15]]);
  });
});
