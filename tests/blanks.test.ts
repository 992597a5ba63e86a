/** Unknown is not zero: what the functions of weighing, blending and costing make of a blank. */
import { describe, expect, test } from "vitest";
import { catalog } from "../functions/catalog/catalog";
import { readCall } from "../functions/catalog/examples";
import { BLANK, BlankError } from "../src/errors";
import * as pure from "../src/index";
import { refuses } from "./refuses";

type Pure = (...args: unknown[]) => unknown;

const ours = catalog.filter(({ topic }) => /^(load|measure|blend|spirit|cost)$/.test(topic));

/** The calls of the examples as the pure functions take them, but for those of nothing at all. */
const callsOf = ({ params, examples }: (typeof ours)[number]) =>
  examples
    .map(({ formula }) =>
      readCall(formula).args.map((value, i) => {
        if (value === null) return undefined;
        return params[i].range && !Array.isArray(value) ? [[value]] : value;
      }),
    )
    .filter(
      (args) => !args.some((value) => Array.isArray(value) && value.flat().every((x) => x === 0)),
    );

describe.each(ours)("$id", (entry) => {
  const run = (pure as unknown as Record<string, Pure>)[entry.name];

  test("a blank in place of a required number is told by its name", () => {
    for (const args of callsOf(entry)) {
      entry.params.forEach(({ name, optional, range }, i) => {
        if (optional || range || typeof args[i] !== "number") return;
        refuses(() => run(...args.with(i, BLANK)), `${name} is blank`);
      });
    }
  });

  test("a blank given for what may be left out is no default", () => {
    for (const args of callsOf(entry)) {
      entry.params.forEach(({ name, optional }, i) => {
        if (!optional || typeof args[i] !== "number") return;
        refuses(() => run(...args.with(i, BLANK)), `${name} is blank`);
      });
    }
  });

  test("a blank among the cells of a range is told by its cell", () => {
    for (const args of callsOf(entry)) {
      entry.params.forEach(({ name, range, mixed }, i) => {
        // Cells that may be words come as words when they are blank.
        if (!range || mixed || !Array.isArray(args[i])) return;
        const cells = args[i] as number[][];
        const length = cells.flat().length;
        for (let k = 0; k < length; k++) {
          const blanked = cells.map((row, r) =>
            row.map((cell, c) => (r * row.length + c === k ? BLANK : cell)),
          );
          const call = () => run(...args.with(i, blanked));
          // What is nothing on purpose: shares that then fall short of a whole, packs not ordered.
          if (name === "shares") expect(call).toThrow(/^shares must sum to 100 %/);
          else if (entry.id === "LANDED" && name === "counts") expect(call).not.toThrow();
          else refuses(call, length > 1 ? `${name}, cell ${k + 1}, is blank` : `${name} is blank`);
        }
      });
    }
  });
});

test("every branch that a word opens looks at its blanks, too", () => {
  refuses(() => pure.loadOf(3, BLANK), "base is blank");
  refuses(() => pure.loadOf(3, BLANK, "base"), "base is blank");
  refuses(() => pure.loadOf(BLANK, 57, "base"), "oil is blank");
  refuses(() => pure.setRight(3, BLANK, 0.05, "base"), "base is blank");
  refuses(() => pure.setRight(BLANK, 57, 0.05, "base"), "oil is blank");
  refuses(() => pure.loadSpan(3, BLANK, 0.1, "base"), "base is blank");
  refuses(() => pure.rebasis(BLANK, "base", "base"), "load is blank");
  refuses(() => pure.rebasis(BLANK, "finished", "base"), "load is blank");
  refuses(() => pure.turn(BLANK, "g", "g"), "amount is blank");
  refuses(() => pure.turn(1, "g", "oz", BLANK), "density is blank");
  refuses(() => pure.spiritDensity(BLANK, "weight"), "strength is blank");
  refuses(() => pure.spiritMarry(40, 0.95, 0, BLANK), "abvb is blank");
  refuses(() => pure.spiritMarry(40, 0.95, BLANK, 0), "volumeb is blank");
  refuses(() => pure.evenPoint(BLANK, 20, 8), "fixed is blank");
});

describe("lists side by side", () => {
  const [row, blank] = [(...cells: number[]) => [cells], BLANK];

  test("a line that is wholly blank is nothing", () => {
    expect(pure.blendOf(row(1, blank), row(3, blank))).toBe(3);
    expect(pure.blendDensity(row(2, blank), row(0.9, blank))).toBeCloseTo(0.9, 12);
    expect(pure.landed(row(10, blank), row(2, blank), 5)).toEqual([[25, 0]]);
    expect(pure.packPlan(3, row(1, blank), row(2, blank))).toEqual([[3, 0]]);
    expect(pure.bottleCost(100, row(1, blank), row(0.02, blank))).toBe(2);
    expect(pure.sizeRun(row(1, blank), row(60, blank), row(2, blank))).toEqual([
      [120, 0],
      [0, 0],
    ]);
  });

  test("one that is half filled is told by its cell", () => {
    refuses(() => pure.blendOf(row(1, blank), row(3, 9)), "amounts, cell 2, is blank");
    refuses(() => pure.blendOf(row(1, 2), row(3, blank)), "values, cell 2, is blank");
    refuses(() => pure.blendDensity(row(2, blank), row(0.9, 1)), "weights, cell 2, is blank");
    refuses(() => pure.blendDensity(row(2, 1), row(0.9, blank)), "densities, cell 2, is blank");
    refuses(() => pure.landed(row(10, blank), row(2, 1), 5), "prices, cell 2, is blank");
    refuses(() => pure.packPlan(3, row(1, blank), row(2, 8)), "sizes, cell 2, is blank");
    refuses(() => pure.packPlan(3, row(1, 4), row(2, blank)), "prices, cell 2, is blank");
    refuses(() => pure.bottleCost(9, row(0.9, 0.1), row(1, blank)), "unitcosts, cell 2, is blank");
    refuses(() => pure.sizeRun(row(1), row(60, 9), row(2, blank)), "counts, cell 2, is blank");
    refuses(() => pure.sizeRun(row(1), row(60, blank), row(2, 9)), "fills, cell 2, is blank");
    refuses(() => pure.sizeRun(row(1), row(60, blank)), "fills, cell 2, is blank");
  });

  test("a zero that was typed leaves its neighbour free", () => {
    expect(pure.blendOf(row(1, 0), row(3, blank))).toBe(3);
    expect(pure.blendOf(row(1, 1), row(3, 0))).toBe(1.5);
    expect(pure.blendDensity(row(2, 0), row(0.9, blank))).toBeCloseTo(0.9, 12);
    expect(pure.landed(row(10, blank), row(2, 0), 5)).toEqual([[25, 0]]);
    expect(pure.bottleCost(100, row(1, 0), row(0.02, blank))).toBe(2);
    expect(pure.sizeRun(row(1), row(60, blank), row(2, 0))).toEqual([[120, 0]]);
  });
});

test("a zero that was typed is a zero, and no default", () => {
  // By hand: no bottles of either.
  expect(pure.sizeRun([[0.95], [0.05]], [[60]], [[0]])).toEqual([[0], [0]]);
  refuses(() => pure.leastBatch(0.05, 0.1, 0), "tolerance is blank or zero");
  refuses(() => pure.turn(1, "lb", "floz", 0), "density is blank or zero");
  refuses(() => pure.turn(1, "lb", "oz", 0), "density is blank or zero");
  refuses(() => pure.dropsFor(2, "mL", 17.5, 0), "density is blank or zero");
  refuses(() => pure.dropsFor(2, "g", 17.5, 0), "density is blank or zero");
  refuses(() => pure.flozCost(10, 1, "gal", 0), "density is blank or zero");
  refuses(() => pure.landed([[10]], [[1]], 5, 0, 0, [[0]]), "weights is blank or zero");
  expect(pure.spiritDensity(0.9, "weight", 0)).not.toBe(pure.spiritDensity(0.9, "weight"));
  // By hand: margin 0 asks for the cost; nothing lost, no fee, no packaging.
  expect(pure.askPrice(10, 0, 0, 0)).toBe(10);
  expect(pure.bottleCost(100, [[1]], [[0.02]], 0, 0)).toBe(2);
  expect(pure.fillWeight(100, "mL", 0.85, 0)).toBe(85);
});

test("a blank is a BlankError, so that a spare line of a table stays blank", () => {
  expect(() => pure.oilFor(BLANK, BLANK)).toThrow(BlankError);
  expect(() => pure.landed([[BLANK]], [[BLANK]], BLANK)).toThrow(BlankError);
});
