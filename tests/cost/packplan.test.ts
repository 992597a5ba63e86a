import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packPlan } from "../../src/index";
import { refuses } from "../refuses";
import { published, rowsOf } from "../reference/checks";
import { type Shop, costOf, leastCost } from "./solver";

function plan({ need, sizes, prices, freight, freeover }: Shop): number[] {
  return packPlan(need, [sizes], [prices], freight, freeover)[0];
}

function sizeOf({ sizes }: Shop, counts: number[]): number {
  return sizes.reduce((sum, size, i) => sum + size * counts[i], 0);
}

/** Every order that costs no more than some order does, compared by cost, then size, then packs. */
function bruteForce(shop: Shop): number[] {
  const { need, sizes, prices, freight } = shop;
  const most = Math.min(...sizes.map((size, i) => Math.ceil(need / size) * prices[i])) + freight;
  let best: { counts: number[]; key: number[] } | undefined;
  const isLess = (a: number[], b: number[]) => {
    const i = a.findIndex((value, j) => Math.abs(value - b[j]) > 1e-9);
    return i >= 0 && a[i] < b[i];
  };
  const visit = (counts: number[], goods: number) => {
    if (counts.length === sizes.length) {
      const size = sizeOf(shop, counts);
      if (size < need - 1e-9) return;
      const key = [costOf(shop, counts), size, counts.reduce((a, b) => a + b, 0)];
      if (!best || isLess(key, best.key)) best = { counts, key };
      return;
    }
    const price = prices[counts.length];
    for (let n = 0; goods + n * price <= most + 1e-9; n++) visit([...counts, n], goods + n * price);
  };
  visit([], 0);
  return best?.counts ?? sizes.map(() => 0);
}

describe("against brute force on small shops", () => {
  const shop = fc
    .array(fc.tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 1, max: 20 })), {
      minLength: 1,
      maxLength: 3,
    })
    .chain((packs) =>
      fc.record({
        need: fc.integer({ min: 1, max: 50 }),
        sizes: fc.constant(packs.map(([size]) => size)),
        prices: fc.constant(packs.map(([, price]) => price)),
        freight: fc.integer({ min: 0, max: 15 }),
        freeover: fc.integer({ min: 0, max: 60 }),
      }),
    );

  test("cost, surplus and number of packs are the least there are", () => {
    fc.assert(
      fc.property(shop, (each) => {
        const [ours, theirs] = [plan(each), bruteForce(each)];
        const keyOf = (counts: number[]) => [
          costOf(each, counts),
          sizeOf(each, counts),
          counts.reduce((a, b) => a + b, 0),
        ];
        expect(keyOf(ours)).toEqual(keyOf(theirs));
      }),
      { numRuns: 600 },
    );
  });

  test("also with decimals", () => {
    fc.assert(
      fc.property(shop, fc.constantFrom(0.1, 0.25, 0.01), (whole, part) => {
        const each = {
          ...whole,
          need: whole.need * part,
          sizes: whole.sizes.map((size) => size * part),
          prices: whole.prices.map((price) => price * 0.01),
          freight: whole.freight * 0.01,
          freeover: whole.freeover * 0.01,
        };
        expect(plan(each)).toEqual(plan(whole));
      }),
      { numRuns: 300 },
    );
  });
});

describe("shops made to break greedy and rounding", () => {
  test("taking the largest first fails (Burkardt, change_making: 20, 25, 40 to 50 is 25 + 25)", () => {
    expect(rowsOf("decisions").some(({ id }) => id === "pack_greedy")).toBe(true);
    expect(packPlan(50, [[20, 25, 40]], [[20, 25, 40]])).toEqual([[0, 2, 0]]);
  });

  test.each([
    ["pack_cover_7", 7],
    ["pack_cover_22", 22],
    ["pack_cover_25", 25],
  ])("the coin problem, %s: packs of 6, 9 and 20 cover %i", (id, need) => {
    // Price by size, so that the least cost is the smallest amount that can be bought.
    const [counts] = packPlan(need, [[6, 9, 20]], [[6, 9, 20]]);
    expect(sizeOf({ sizes: [6, 9, 20] } as Shop, counts)).toBe(published(id).expected);
  });

  test("43 cannot be bought exactly of 6, 9 and 20; 44 can (coin problem, row pack_frob)", () => {
    const bought = (need: number) =>
      sizeOf({ sizes: [6, 9, 20] } as Shop, packPlan(need, [[6, 9, 20]], [[6, 9, 20]])[0]);
    expect(bought(published("pack_frob").expected)).toBe(44);
    expect(bought(44)).toBe(44);
  });

  test("0.1 + 0.2 is 0.3: no pack more for a rounding error", () => {
    expect(packPlan(0.3, [[0.1]], [[1]])).toEqual([[3]]);
    expect(packPlan(0.1 + 0.2, [[0.1]], [[1]])).toEqual([[3]]);
    expect(packPlan(1.1 * 3, [[1.1]], [[1]])).toEqual([[3]]);
    expect(packPlan(0.30001, [[0.1]], [[1]])).toEqual([[4]]);
  });

  test("freight: a larger order may be cheaper", () => {
    // By hand: 30 and 15 freight, or 40 without.
    expect(packPlan(3, [[1, 5]], [[10, 40]], 15, 40)).toEqual([[4, 0]]);
    expect(packPlan(3, [[1, 5]], [[10, 40]], 5, 40)).toEqual([[3, 0]]);
    expect(packPlan(3, [[1, 5]], [[10, 40]], 15)).toEqual([[3, 0]]);
    // At the sum itself it is free; the same cost either way goes to the less left over.
    expect(packPlan(4, [[1]], [[10]], 15, 40)).toEqual([[4]]);
    expect(packPlan(3, [[1]], [[10]], 10, 40)).toEqual([[3]]);
  });

  test("ties go to the least left over, then to the fewest packs", () => {
    expect(packPlan(5, [[5, 6]], [[10, 10]])).toEqual([[1, 0]]);
    expect(packPlan(12, [[2, 3, 6]], [[2, 3, 6]])).toEqual([[0, 0, 2]]);
    expect(packPlan(7, [[1, 4]], [[2, 7]])).toEqual([[3, 1]]);
  });

  test("packs measured in odd units: pounds, ounces and kilos in grams", () => {
    const shop: Shop = {
      need: 7778.5885,
      sizes: [453.59237, 2267.96185, 28.349523125 * 4, 1000, 5000],
      prices: [14.2, 58, 5.5, 29, 118],
      freight: 12.75,
      freeover: 250,
    };
    expect(Math.abs(costOf(shop, plan(shop)) - leastCost(shop))).toBeLessThan(1e-6);
  });
});

describe("answers at once", () => {
  // No clock here: npm run bench shows the time. These would not end if the search went over amounts.
  test("a need of 10,000 times the smallest pack and more, with decimals", () => {
    const shop: Shop = {
      need: 123456.78,
      sizes: [0.5, 1.25, 3.8, 12.5, 60],
      prices: [1.1, 2.45, 6.9, 21.4, 99.5],
      freight: 12,
      freeover: 150,
    };
    expect(Math.abs(costOf(shop, plan(shop)) / leastCost(shop) - 1)).toBeLessThan(1e-9);
  });

  test("no volume discount at all, where every pack is as good as another", () => {
    const sizes = [0.25, 0.5, 1, 2.5, 3.75, 5];
    const prices = sizes.map((size) => size * 8);
    const [counts] = packPlan(99_999.25, [sizes], [prices], 9);
    expect(sizeOf({ sizes } as Shop, counts)).toBe(99_999.25);
    // By hand: 19,999 of 5, and 4.25 as 3.75 and 0.5.
    expect(counts).toEqual([0, 1, 0, 0, 1, 19_999]);
  });

  test("nothing needed, nothing bought", () => {
    expect(packPlan(0, [[1, 5]], [[10, 40]], 15, 40)).toEqual([[0, 0]]);
    expect(packPlan(0, [[0]], [[0]])).toEqual([[0]]);
  });
});

test("absurd numbers are refused in words, and end", () => {
  const digits = "sizes and prices must have fewer digits to be planned exactly: round them";
  refuses(() => packPlan(1e14, [[1e-12, 1e14]], [[1, 2]], 3, 4), digits);
  refuses(() => packPlan(10, [[1e-310, 7]], [[2, 5]]), digits);
  refuses(() => packPlan(10, [[3, 7]], [[2, 5]], 1e300, 4), digits);
  const larger = "need must be smaller beside these sizes and prices to be planned exactly, got";
  refuses(() => packPlan(1e14, [[1e-12]], [[1]], 3, 4), `${larger} 100000000000000`);
  refuses(() => packPlan(1e300, [[3, 7]], [[2, 5]]), `${larger} 1e+300`);
  // A search that would not end gives up, in words.
  refuses(
    () => packPlan(1, [[3, 1e-15]], [[1e12, 0.01]]),
    "these sizes and prices are too finely graded to plan exactly: round them to fewer digits",
  );
  // By hand: 333,333,333,331 of 3 and one of 7.
  expect(packPlan(1e12, [[3, 7]], [[2, 5]], 3, 4e300)).toEqual([[333_333_333_331, 1]]);
}, 120_000);

test("a thousand offers are planned, a thousand and one are a column too many", () => {
  const sizes = Array.from({ length: 1001 }, (_, i) => i + 1);
  const prices = sizes.map((size) => 2 * size);
  expect(packPlan(700, [sizes.slice(1)], [prices.slice(1)])[0][698]).toBe(1);
  refuses(
    () => packPlan(700, [sizes], [prices]),
    "sizes must hold at most 1000 packs on offer, got 1001",
  );
});

test("refusals", () => {
  refuses(() => packPlan(5, [[1, 5]], [[10, 0]]), "prices, cell 2, is blank or zero");
  refuses(() => packPlan(5, [[1, 0]], [[10, 3]]), "sizes, cell 2, is blank or zero");
  refuses(() => packPlan(5, [[0]], [[0]]), "sizes and prices must hold a pack");
  refuses(
    () => packPlan(5, [[1, 2]], [[10]]),
    "prices must have as many cells as sizes, got 1 and 2",
  );
  refuses(() => packPlan(-5, [[1]], [[10]]), "need must be zero or more, got -5");
  expect(packPlan(5, [[1], [0], [5]], [[10], [0], [40]])).toEqual([[0], [0], [1]]);
});
