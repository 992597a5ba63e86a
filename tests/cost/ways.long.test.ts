/** Two ways to the cheapest goods that only hard shops reach, each by itself on many small ones. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bestByAmount } from "../../src/cost/by-amount";
import { bestByRest } from "../../src/cost/by-rest";
import { NOTHING, type Plan, type WholePack, add, baseOf } from "../../src/cost/partial-plans";
import { packPlan } from "../../src/index";
import { leastCost } from "./solver";

type Totals = [price: number, size: number, count: number];

/** By hand: the best cover of an amount is some pack, and the best cover of what it leaves. */
function leastTotals(need: number, packs: readonly WholePack[]): Totals {
  const least: Totals[] = [[0, 0, 0]];
  for (let amount = 1; amount <= need; amount++) {
    const ways = packs.map(({ size, price }): Totals => {
      const [paid, holds, count] = least[Math.max(0, amount - size)];
      return [paid + price, holds + size, count + 1];
    });
    ways.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2]);
    least.push(ways[0]);
  }
  return least[need];
}

const totals = ({ price, size, count }: Plan): Totals => [price, size, count];

/** What the packs of a plan come to, one by one. */
function addedUp(plan: Plan): Totals {
  const sums: Totals = [0, 0, 0];
  for (let { last } = plan; last; last = last.rest.last) {
    sums[0] += last.pack.price * last.times;
    sums[1] += last.pack.size * last.times;
    sums[2] += last.times;
  }
  return sums;
}

const pack = fc.record({
  size: fc.integer({ min: 1, max: 60 }),
  price: fc.integer({ min: 1, max: 60 }),
});
/** As good a buy as one another, or nearly: then ties decide. */
const alike = fc
  .record({ size: fc.integer({ min: 1, max: 60 }), more: fc.integer({ min: 0, max: 1 }) })
  .map(({ size, more }) => ({ size, price: 2 * size + more }));
const shops = fc.record({
  packs: fc.oneof(...[pack, alike].map((each) => fc.array(each, { minLength: 1, maxLength: 6 }))),
  need: fc.integer({ min: 1, max: 400 }),
});

describe("on 1,500 shops", () => {
  test("by amount: the least price, then size, then packs", () => {
    fc.assert(
      fc.property(shops, ({ packs, need }) => {
        const known = add(NOTHING, packs[0], Math.ceil(need / packs[0].size));
        const best = bestByAmount(known, need, packs, baseOf(packs)) ?? NOTHING;
        expect(totals(best)).toEqual(leastTotals(need, packs));
        expect(addedUp(best)).toEqual(totals(best));
      }),
      { numRuns: 1500 },
    );
  });

  test("by rest: the same where there is an answer, and there is one for most needs", () => {
    let answers = 0;
    fc.assert(
      fc.property(shops, ({ packs, need }) => {
        const base = baseOf(packs);
        const others = packs.filter((each) => each !== base);
        const best = bestByRest(need, base, others);
        if (!best) return;
        answers++;
        expect(totals(best)).toEqual(leastTotals(need, packs));
        expect(addedUp(best)).toEqual(totals(best));
      }),
      { numRuns: 1500 },
    );
    expect(answers).toBeGreaterThan(750);
  });
});

describe("shops that the search alone does not end", () => {
  /** Ten or more packs from 450 g to 460 g, to a hundredth of a gram, each as good a buy as the next. */
  const shop = (count: number, need: number) => {
    const sizes = Array.from({ length: count }, (_, i) => 450 + ((i * 389 + 17) % 1000) / 100);
    const prices = sizes.map((size, i) => Number((size / 50 + (i % 3) / 100).toFixed(2)));
    return { need, sizes, prices, freight: 12, freeover: 0 };
  };

  test.each([
    [22, 8897],
    [22, 120_011],
  ])("%i packs, a need of %f: HiGHS costs the same", (count, need) => {
    const each = shop(count, need);
    const [counts] = packPlan(need, [each.sizes], [each.prices], each.freight);
    const total = (values: number[]) =>
      values.reduce((sum, value, i) => sum + value * counts[i], 0);
    expect(total(each.sizes)).toBeGreaterThanOrEqual(need - 1e-9);
    expect(Math.abs(total(each.prices) + each.freight - leastCost(each))).toBeLessThan(1e-6);
  });
});
