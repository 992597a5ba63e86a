import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { askPrice, bottleCost, evenPoint, keepRate, landed } from "../../src/index";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

const money = fc.double({ min: 0.01, max: 1e4, noNaN: true });
const rates = fc.double({ min: 0, max: 0.45, noNaN: true });

describe("LANDED", () => {
  const lines = fc.array(fc.tuple(money, fc.integer({ min: 0, max: 50 }), money), {
    minLength: 1,
    maxLength: 9,
  });

  test("the lines sum to what the order costs, by value or by weight", () => {
    fc.assert(
      fc.property(lines, money, rates, fc.boolean(), (order, freight, tax, byWeight) => {
        const weights = byWeight ? [order.map(([, , weight]) => weight)] : undefined;
        const [got] = landed(
          [order.map(([p]) => p)],
          [order.map(([, n]) => n)],
          freight,
          0,
          tax,
          weights,
        );
        const goods = order.reduce((sum, [price, count]) => sum + price * count, 0);
        const paid = goods * (1 + tax) + (goods ? freight : 0);
        expect(got.reduce((a, b) => a + b, 0)).toBeCloseTo(paid, 4);
      }),
    );
  });

  test("freight is free at the sum itself, and charged a cent below", () => {
    expect(landed([[50]], [[2]], 9, 100)).toEqual([[100]]);
    expect(landed([[49.99]], [[2]], 9, 100)[0][0]).toBeCloseTo(108.98, 10);
  });

  test("tax is on the goods, not on the freight; a line not ordered costs nothing", () => {
    // By hand: 20 and 20 of goods, 10 % tax on each, 10 freight shared.
    expect(landed([[10], [20], [5]], [[2], [1], [0]], 10, 0, 0.1)).toEqual([[27], [27], [0]]);
  });

  test("refusals", () => {
    refuses(() => landed([[10], [0]], [[1], [1]], 5), "prices, cell 2, is blank or zero");
    refuses(() => landed([[10]], [[1]], 5, 0, 0, [[0]]), "weights is blank or zero");
    refuses(
      () => landed([[10]], [[1, 2]], 5),
      "counts must have as many cells as prices, got 2 and 1",
    );
    refuses(() => landed([[10]], [[1]], -5), "freight must be zero or more, got -5");
    refuses(
      () => landed([[10]], [[1]], 5, 0, 8),
      "tax must be from 0 % to 100 %, got 800 %: type 8 %",
    );
  });
});

describe("BOTTLECOST", () => {
  test("loss makes the liquid dearer and leaves the packaging", () => {
    // By hand: 1.35 of liquid over 0.9, and 1.20.
    expect(bottleCost(100, [[0.95], [0.05]], [[0.01], [0.08]], 1.2, 0.1)).toBeCloseTo(
      1.5 + 1.2,
      12,
    );
    expect(bottleCost(100, [[1]], [[0.02]])).toBeCloseTo(2, 12);
  });

  test("refusals", () => {
    refuses(
      () => bottleCost(100, [[0.95], [0.05]], [[0.01], [0]]),
      "unitcosts, cell 2, is blank or zero",
    );
    refuses(
      () => bottleCost(100, [[0.9], [0.05]], [[0.01], [0.1]]),
      "shares must sum to 100 % within 0.1 %, got 95 %",
    );
    refuses(() => bottleCost(0, [[1]], [[0.01]]), "fill is blank or zero");
    refuses(() => bottleCost(100, [[1]], [[0.01]], 0, 1), "loss must be below 100 %, got 100 %");
    expect(bottleCost(100, [[1], [0]], [[0.01], [0]])).toBe(1);
  });
});

describe("prices and margins", () => {
  test("a price asked for a margin keeps that margin", () => {
    fc.assert(
      fc.property(
        money,
        rates,
        rates,
        fc.double({ min: 0, max: 5, noNaN: true }),
        (cost, margin, fee, fixed) => {
          expect(keepRate(askPrice(cost, margin, fee, fixed), cost, fee, fixed)).toBeCloseTo(
            margin,
            9,
          );
        },
      ),
    );
  });

  holdToPublished({
    // A markup of 50 % on a cost of 10 is a price of 15.
    markup_margin: () => keepRate(15, 10) * 100,
    be_bird: () => evenPoint(13268, 30, 14.5),
    // A profit wanted is a fixed cost to earn.
    be_bird_target: () => evenPoint(13268 + 21000, 30, 14.5),
  });

  test("break-even is whole bottles, and the one before does not pay", () => {
    fc.assert(
      fc.property(
        money,
        money,
        rates,
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (fixed, price, fee, part) => {
          const cost = price * (1 - fee) * part;
          const bottles = evenPoint(fixed, price, cost, fee);
          const left = price * (1 - fee) - cost;
          expect(Number.isInteger(bottles)).toBe(true);
          expect(bottles * left).toBeGreaterThanOrEqual(fixed * (1 - 1e-9));
          expect((bottles - 1) * left).toBeLessThan(fixed);
        },
      ),
    );
    // By hand: 108000 / (50 - 32) is 6000 exactly, not 6001.
    expect(evenPoint(108000, 50, 32)).toBe(6000);
    expect(evenPoint(0.3, 0.2, 0.1)).toBe(3);
    expect(evenPoint(0, 20, 10)).toBe(0);
    // By hand: 0.3 / 0.1 is 3; a computer's 0.3 - 0.2 falls short of 0.1 and would make it 4.
    expect(evenPoint(0.3, 0.3, 0.2)).toBe(3);
    // By hand: a cent more than a million bottles earn takes one bottle more.
    expect(evenPoint(1_000_000.01, 2, 1)).toBe(1_000_001);
  });

  test("refusals", () => {
    refuses(
      () => askPrice(10, 0.9, 0.1),
      "margin and feerate together must be below 100 %, got 100 %",
    );
    refuses(() => askPrice(10, 40), "margin must be from 0 % to 100 %, got 4000 %: type 40 %");
    refuses(() => askPrice(0, 0.4), "cost is blank or zero");
    refuses(() => keepRate(0, 10), "price is blank or zero");
    refuses(() => evenPoint(100, 10, 9, 0.1), "price must be above cost and fees, 10, got 10");
    refuses(() => evenPoint(100, 10, 12), "price must be above cost and fees, 12, got 10");
    // By hand: three times 1.10 is 3.30, and what rounding leaves of it earns nothing.
    refuses(() => evenPoint(100, 1.1 * 3, 3.3), "price must be above cost and fees, 3.3, got 3.3");
    expect(keepRate(10, 12)).toBeCloseTo(-0.2, 12);
  });
});
