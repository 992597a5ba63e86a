import fc from "fast-check";
import { expect, test } from "vitest";
import { sizeRun } from "../../src/index";
import { refuses } from "../refuses";

const parts = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), {
  minLength: 1,
  maxLength: 8,
});
const sizes = fc.array(
  fc.tuple(fc.double({ min: 1, max: 1000, noNaN: true }), fc.integer({ min: 0, max: 500 })),
  {
    minLength: 1,
    maxLength: 6,
  },
);

test("every column sums to its fills", () => {
  fc.assert(
    fc.property(parts, sizes, (raw, columns) => {
      const whole = raw.reduce((a, b) => a + b, 0);
      const shares = raw.map((part) => [part / whole]);
      const grid = sizeRun(
        shares,
        [columns.map(([fill]) => fill)],
        [columns.map(([, count]) => count)],
      );
      columns.forEach(([fill, count], j) => {
        const sum = grid.reduce((total, row) => total + row[j], 0);
        expect(Math.abs(sum - fill * count)).toBeLessThanOrEqual(1e-9 * fill * (count + 1));
      });
    }),
  );
});

test("shares within 0.1 % of 100 % are divided by their sum; beyond, the sum is told", () => {
  // By hand: 33.3 % three times is 99.9 %, and each is a third of the batch.
  const thirds = sizeRun([[0.333], [0.333], [0.333]], [[90]]);
  thirds.forEach(([amount]) => expect(amount).toBeCloseTo(30, 9));
  expect(sizeRun([[0.95], [0.051]], [[100]])).toHaveLength(2);
  refuses(
    () => sizeRun([[0.9], [0.05]], [[100]]),
    "shares must sum to 100 % within 0.1 %, got 95 %",
  );
  refuses(
    () => sizeRun([[95], [5]], [[100]]),
    "shares, cell 1, must be from 0 % to 100 %, got 9500 %: type 95 %",
  );
});

test("ranges may lie either way, and must be of like length", () => {
  const across = sizeRun([[0.95, 0.05]], [[60], [120]]);
  expect(across).toEqual(sizeRun([[0.95], [0.05]], [[60, 120]]));
  refuses(
    () => sizeRun([[0.95], [0.05]], [[60, 120]], [[1]]),
    "counts must have as many cells as fills, got 1 and 2",
  );
});

test("bottles are whole, and one that is filled has a size", () => {
  refuses(
    () => sizeRun([[1]], [[60]], [[2.5]]),
    "counts must be a whole number of bottles, got 2.5",
  );
  refuses(() => sizeRun([[1]], [[60, 0]], [[2, 3]]), "fills, cell 2, is blank or zero");
  expect(sizeRun([[1]], [[60, 0]], [[2, 0]])).toEqual([[120, 0]]);
});
