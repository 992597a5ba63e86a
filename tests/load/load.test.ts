import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { baseFor, batchFrom, loadOf, oilFor, rebasis, setRight } from "../../src/index";
import { refuses } from "../refuses";

const amounts = fc.double({ min: 1e-3, max: 1e6, noNaN: true });
const loads = fc.double({ min: 1e-4, max: 0.99, noNaN: true });
const bases = fc.constantFrom("finished" as const, "base" as const);

function near(a: number, b: number, relative = 1e-12) {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(relative * Math.max(Math.abs(a), Math.abs(b)));
}

describe("mass is conserved", () => {
  test("oil and base are the batch", () => {
    fc.assert(
      fc.property(amounts, loads, bases, (batch, load, basis) => {
        near(oilFor(batch, load, basis) + baseFor(batch, load, basis), batch);
      }),
    );
  });

  test("what is weighed out has the load that was asked for", () => {
    fc.assert(
      fc.property(amounts, loads, bases, (batch, load, basis) => {
        near(loadOf(oilFor(batch, load, basis), baseFor(batch, load, basis), basis), load, 1e-10);
      }),
    );
  });

  test("the oil on hand makes the batch that takes that oil", () => {
    fc.assert(
      fc.property(amounts, loads, bases, (oil, load, basis) => {
        near(oilFor(batchFrom(oil, load, basis), load, basis), oil);
      }),
    );
  });
});

test("the two conventions turn into each other and back", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 0.5, noNaN: true }), (load) => {
      near(rebasis(rebasis(load, "finished", "base"), "base", "finished"), load);
    }),
  );
  // By hand: 5 g of oil in 100 g of base is 5/105 of the finished batch.
  near(rebasis(0.05, "base", "finished"), 5 / 105);
  expect(rebasis(0.05, "base", "base")).toBe(0.05);
});

describe("SETRIGHT", () => {
  test("lands on the load, and takes nothing out", () => {
    fc.assert(
      fc.property(amounts, amounts, loads, bases, (oil, base, load, basis) => {
        const [[addOil, addBase]] = setRight(oil, base, load, basis);
        near(loadOf(oil + addOil, base + addBase, basis), load, 1e-9);
        expect(Math.min(addOil, addBase)).toBe(0);
        expect(Math.max(addOil, addBase)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test("a batch on its load needs nothing", () => {
    expect(setRight(3, 57, 0.05)).toEqual([[0, 0]]);
    expect(setRight(0.3, 5.7, 0.05)).toEqual([[0, 0]]);
  });

  test("cannot reach no oil once oil is in, nor pure oil once base is in", () => {
    refuses(() => setRight(1, 10, 0), "load is blank or zero");
    refuses(() => setRight(1, 10, 1), "load must be below 100 % once base is poured, got 100 %");
    refuses(() => setRight(0, 0, 0.05), "oil and base together is blank or zero");
  });
});

test("the load guards", () => {
  const text = "load must be from 0 % to 100 %, got 500 %: type 5 %";
  refuses(() => oilFor(60, 5), text);
  refuses(() => baseFor(60, 5), text);
  refuses(() => rebasis(5, "base", "finished"), text);
  refuses(() => batchFrom(3, 5), text);
  refuses(() => setRight(3, 57, 5), text);
  refuses(() => batchFrom(3, 0), "load is blank or zero");
  refuses(() => oilFor(-60, 0.05), "batch must be zero or more, got -60");
  refuses(
    () => oilFor(60, 0.05, "total" as never),
    'basis must be "finished" or "base", got "total"',
  );
  refuses(() => loadOf(3, 0, "base"), "base is blank or zero");
  refuses(
    () => rebasis(1, "finished", "base"),
    "load must be below 100 % to be told as a share of the base, got 100 %: there is no base",
  );
});

test("the ends of the range", () => {
  expect(oilFor(60, 0)).toBe(0);
  expect(oilFor(60, 1)).toBe(60);
  expect(baseFor(60, 1)).toBe(0);
  // By hand: 100 % of the base is half of the finished batch.
  expect(oilFor(60, 1, "base")).toBe(30);
  expect(loadOf(0, 57)).toBe(0);
  expect(loadOf(10, 5, "base")).toBe(2);
});
