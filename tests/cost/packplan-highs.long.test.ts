import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { packPlan } from "../../src/index";
import { type Shop, costOf, leastCost } from "./solver";

function plan({ need, sizes, prices, freight, freeover }: Shop): number[] {
  return packPlan(need, [sizes], [prices], freight, freeover)[0];
}

function sizeOf({ sizes }: Shop, counts: number[]): number {
  return sizes.reduce((sum, size, i) => sum + size * counts[i], 0);
}

describe("against the HiGHS solver on random shops", () => {
  const round = (value: number, digits: number) => Number(value.toFixed(digits));
  const packs = fc.array(
    fc.tuple(
      fc.double({ min: 0.1, max: 60, noNaN: true }),
      fc.double({ min: 0.5, max: 80, noNaN: true }),
    ),
    { minLength: 1, maxLength: 12 },
  );
  const shops = fc.record({
    need: fc.double({ min: 0.1, max: 600, noNaN: true }),
    packs,
    digits: fc.constantFrom(0, 1, 2),
    freight: fc.constantFrom(0, 8.5, 12.75, 40),
    freeover: fc.constantFrom(0, 50, 150, 400),
  });

  test("600 shops of up to 12 packs cost the same", () => {
    fc.assert(
      fc.property(shops, ({ need, packs: offered, digits, freight, freeover }) => {
        const sizes = offered.map(([size]) => Math.max(10 ** -digits, round(size, digits)));
        const prices = offered.map(([, price]) => round(price, 2));
        const shop = { need: round(need, 2), sizes, prices, freight, freeover };
        const counts = plan(shop);
        expect(sizeOf(shop, counts)).toBeGreaterThanOrEqual(shop.need - 1e-9);
        expect(Math.abs(costOf(shop, counts) - leastCost(shop))).toBeLessThan(1e-6);
      }),
      { numRuns: 600 },
    );
  }, 300_000);

  test("60 hard shops, of packs nearly alike and as good a buy, cost the same", () => {
    const hard = fc
      .record({
        middle: fc.constantFrom(10, 100, 450, 3000),
        spread: fc.constantFrom(0.02, 0.1, 0.5),
        digits: fc.constantFrom(0, 1),
        times: fc.double({ min: 3, max: 63, noNaN: true }),
        offered: fc.array(
          fc.tuple(
            fc.double({ min: 0, max: 1, noNaN: true }),
            fc.double({ min: 1, max: 1.03, noNaN: true }),
          ),
          { minLength: 8, maxLength: 12 },
        ),
        freight: fc.constantFrom(0, 8.5, 12, 40),
        free: fc.constantFrom(0, 0.97, 1.05),
      })
      .map(({ middle, spread, digits, times, offered, freight, free }): Shop => {
        const need = round(middle * times, digits);
        const sizes = offered.map(([part]) => round(middle * (1 + spread * part), digits));
        const prices = offered.map(([, dear], i) => round((sizes[i] / 50) * dear, 2));
        return { need, sizes, prices, freight, freeover: round((need / 50) * free, 2) };
      });
    fc.assert(
      fc.property(hard, (shop) => {
        const counts = plan(shop);
        expect(sizeOf(shop, counts)).toBeGreaterThanOrEqual(shop.need - 1e-9);
        expect(Math.abs(costOf(shop, counts) - leastCost(shop))).toBeLessThan(1e-6);
      }),
      { numRuns: 60, seed: 15 },
    );
  }, 300_000);
});
