/** Size run: alone, and in a workshop that is not the demo's. */
import { describe, expect, test, vi } from "vitest";
import { oneSheet } from "./one-sheet";
import { BY_HAND, otherWorkshop } from "./other-workshop";
import { wholeSet } from "./whole-set";

const title = "Size run";
const OUNCE = 28.349523125;

// A workbook of all sheets takes a busy machine seconds to draw.
vi.setConfig({ testTimeout: 60_000 });

type Sheet = Awaited<ReturnType<typeof oneSheet>>;
const row = ({ at }: Sheet, name: string, columns = 4, line = 0) =>
  Array.from({ length: columns }, (_, across) => at(name, line, across));
const close = (values: number[]) => values.map((value) => expect.closeTo(value, 8));

describe("alone", () => {
  test("every size is weighed out to its bottles, with spare, and its pieces are counted", async () => {
    const sheet = await oneSheet(title);
    const { at } = sheet;
    // By hand: 2 fl oz x 29.5735295625 mL x 0.87 g/mL x 1.02, 12 bottles, 95 % base; 4, 8 and 16 fl oz likewise.
    const fill = 2 * 29.5735295625 * 0.87 * 1.02;
    const all = [12, 48, 48, 48].map((twoOunces) => twoOunces * fill);
    expect(row(sheet, "sizes.fill")).toEqual(close([fill, 2 * fill, 4 * fill, 8 * fill]));
    expect(row(sheet, "sizes.amount")).toEqual(close(all));
    expect(row(sheet, "weights.all")).toEqual(close(all));
    expect(row(sheet, "liquids.grams")).toEqual(close(all.map((each) => 0.95 * each)));
    expect(row(sheet, "liquids.grams", 4, 1)).toEqual(close(all.map((each) => 0.04 * each)));
    expect(row(sheet, "liquids.grams", 5, 3)).toEqual(["", "", "", "", ""]);
    // 156 times that fill, 2 % spare.
    expect(at("batch")).toBeCloseTo(156 * fill * 1.02, 8);
    expect(at("liquids.buy", 1)).toBeCloseTo(0.04 * 156 * fill * 1.02, 8);
    expect(at("liquids.buyoz", 1)).toBeCloseTo((0.04 * 156 * fill * 1.02) / OUNCE, 8);
    expect(at("liquids.weigh", 1)).toBe(Math.round(0.4 * 156 * fill * 1.02) / 10);
    expect(row(sheet, "sizes.can")).toEqual(["yes", "yes", "yes", "yes"]);
    // By hand: 12, 24, 12 and 6 and 5 % of them, rounded up; the two smaller sizes have no box.
    expect(row(sheet, "pieces.bottle", 7)).toEqual([13, 26, 13, 7, "", "", "59 in all"]);
    expect(row(sheet, "pieces.box", 7)).toEqual([0, 0, 13, 7, "", "", "20 in all"]);
    // One bottle of each, on request; what to weigh for the run stays.
    sheet.put("show", "one bottle");
    expect(row(sheet, "liquids.grams", 4, 2)).toEqual(
      close([1, 2, 4, 8].map((twice) => 0.01 * twice * fill)),
    );
    expect(at("liquids.weigh", 1)).toBe(Math.round(0.4 * 156 * fill * 1.02) / 10);
  });

  test("loads of the base are told apart from loads of the finished batch", async () => {
    const { put, at } = await oneSheet(title);
    put("of", "base");
    // By hand: 4 g and 1 g of oil on 100 g of base are 4/105 and 1/105 of the batch.
    expect(at("liquids.share", 1)).toBeCloseTo(4 / 105, 12);
    expect(at("liquids.share", 2)).toBeCloseTo(1 / 105, 12);
    expect(at("liquids.share")).toBeCloseTo(100 / 105, 12);
    expect(at("of", 0, 1)).toBe("the base alone");
    put("liquids.load", 1, 0);
    expect([at("liquids.share"), at("liquids.said")]).toEqual([
      "base?",
      "leave the load of the base blank",
    ]);
    put("of", null);
    expect([at("liquids.share"), at("of", 0, 1), at("liquids.weigh")]).toEqual([
      "load of?",
      "say which: finished or base",
      "",
    ]);
  });

  test("in oz all weights and the scale's step are in oz; bottles may hold mL", async () => {
    const { put, at } = await oneSheet(title);
    const grams = Number(at("liquids.grams", 1, 1));
    put("weighin", "oz");
    put("step", 0.05);
    expect(at("liquids.grams", 1, 1)).toBeCloseTo(grams / OUNCE, 10);
    expect(at("sizes.amount", 0, 1)).toBeCloseTo(grams / 0.04 / OUNCE, 9);
    expect(at("liquids.weigh", 1)).toBeCloseTo(
      Math.round(Number(at("liquids.buyoz", 1)) / 0.05) * 0.05,
      9,
    );
    expect(at("step", 0, 1)).toBe("oz");
    // By hand: 12 bottles of 100 mL at 0.87 g/mL, 2 % over, 4 %.
    put("sizes.holds", 100);
    put("sizes.unit", "mL");
    expect(at("liquids.grams", 1)).toBeCloseTo((12 * 100 * 0.87 * 1.02 * 0.04) / OUNCE, 10);
    // A pound is a weight: no density is looked at.
    put("sizes.holds", 1, 0, 1);
    put("sizes.unit", "lb", 0, 1);
    expect(at("sizes.fill", 0, 1)).toBeCloseTo(453.59237 * 1.02, 9);
  });

  test("a coarse scale says no, and how far off each ingredient can be", async () => {
    const sheet = await oneSheet(title);
    const { put, at } = sheet;
    // By hand: a step of 5 g is 5 % of 100 g, and 1 % of 10 000 g; all bottles of one size are 2519 g.
    put("step", 5);
    expect(row(sheet, "sizes.can")).toEqual(Array.from({ length: 4 }, () => "no: too little"));
    // 83.5 g on that scale are 85; half a step is 2.94 % of it.
    expect([at("liquids.weigh", 2), at("liquids.said", 2)]).toEqual([
      85,
      "too little for this scale: up to 3% off",
    ]);
    expect(at("liquids.said", 1)).toBe("");
    put("tolerance", null);
    expect(at("tolerance", 0, 1)).toBe("blank: 5 % is taken");
    put("step", 400);
    expect([at("liquids.weigh", 2), at("liquids.said", 2)]).toEqual([
      0,
      "less than this scale can show",
    ]);
    put("step", null);
    expect([at("liquids.weigh", 2), at("sizes.can"), at("step", 0, 1)]).toEqual([
      "",
      "",
      "what is its smallest step?",
    ]);
  });

  test("fewer sizes and one oil leave no error", async () => {
    const sheet = await oneSheet(title);
    for (const across of [2, 3])
      for (const name of ["size", "holds", "unit", "overfill", "count"])
        sheet.put(`sizes.${name}`, null, 0, across);
    for (const name of ["material", "load"]) sheet.put(`liquids.${name}`, null, 2);
    expect(row(sheet, "sizes.fill")).toEqual([expect.any(Number), expect.any(Number), "", ""]);
    expect(row(sheet, "weights.all")).toEqual([expect.any(Number), expect.any(Number), "", ""]);
    expect([sheet.at("liquids.share"), sheet.at("liquids.share", 2)]).toEqual([
      expect.closeTo(0.96, 12),
      "",
    ]);
    expect(sheet.at("batch")).toBeGreaterThan(0);
  });

  test("a size without its count, or a count without its size, is told where it stands", async () => {
    const { put, at } = await oneSheet(title);
    expect([at("sizes.said"), at("batch", 0, 1)]).toEqual(["", ""]);
    put("sizes.count", null, 0, 1);
    expect([at("sizes.said", 0, 1), at("batch"), at("liquids.weigh")]).toEqual([
      "how many?",
      "not known",
      "",
    ]);
    expect(at("batch", 0, 1)).toBe("look at each size below");
    put("sizes.count", 0, 0, 1);
    expect([at("sizes.said", 0, 1), at("liquids.grams", 0, 1)]).toEqual(["", 0]);
    put("sizes.count", 2.5, 0, 1);
    expect([at("sizes.said", 0, 1), at("batch"), at("pieces.label", 0, 1)]).toEqual([
      "whole ones?",
      "not known",
      "",
    ]);
    put("sizes.count", 3, 0, 5);
    expect(at("sizes.said", 0, 5)).toBe("which size?");
  });

  test("what is not known is never a weight", async () => {
    const { put, at } = await oneSheet(title);
    // Pounds per US gallon.
    put("density", 8.5);
    expect(at("sizes.fill")).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
    put("density", null);
    put("show", "one bottle");
    expect([at("sizes.fill"), at("batch"), at("liquids.grams"), at("weights.all")]).toEqual([
      "density?",
      "not known",
      "",
      "",
    ]);
    put("density", 0.87);
    put("liquids.load", null, 1);
    expect([at("liquids.share", 1), at("liquids.said", 1), at("liquids.grams", 1)]).toEqual([
      "load?",
      "2 loads are blank: only one is the rest",
      "",
    ]);
    put("sizes.overfill", null);
    expect(at("sizes.overfill", 0, 6)).toBe("blank: filled to the mark");
    put("pieces.boxeach", null);
    expect([at("pieces.box"), at("pieces.box", 0, 6), at("pieces.boxeach", 0, 6)]).toEqual([
      "",
      "not known for every size",
      "blank is not known: type 0 if there is none",
    ]);
  });
});

test("another workshop, with five ingredients and four sizes, is as an independent computation has it", async () => {
  const set = await otherWorkshop();
  const { at, row: across, put } = await set.on(title);
  await put("recipe", "Harbour");
  const sizes = ["Small", "Middle", "Large", "Refill"];
  const counts = [20, 7, 3, 2];
  for (const [i, size] of sizes.entries()) {
    await put("sizes.size", size, 0, i);
    await put("sizes.count", counts[i] ?? null, 0, i);
  }
  await put("step", 0.01);
  await put("spare", 0.03);
  await put("morepieces", 0.1);
  const { shares, density, fills } = BY_HAND;
  const amounts = fills(density).map((fill, i) => fill * (counts[i] ?? NaN));
  const all = amounts.reduce((a, b) => a + b) * 1.03;
  expect(await at("of")).toBe("base");
  expect(await across("sizes.fill", 4)).toEqual(close(fills(density)));
  for (const [line, share] of shares.entries()) {
    expect(await at("liquids.share", line)).toBeCloseTo(share, 12);
    expect(await at("liquids.weigh", line)).toBe(Math.round(share * all * 100) / 100);
    for (const [i, amount] of amounts.entries())
      expect(await at("liquids.grams", line, i)).toBeCloseTo(share * amount, 8);
  }
  expect(await at("batch")).toBeCloseTo(all, 8);
  // By hand: one in ten more, rounded up; the refill takes none but its bottle, the middle one no box.
  expect(await across("pieces.bottle", 7)).toEqual([22, 8, 4, 3, "", "", "37 in all"]);
  expect(await across("pieces.label", 7)).toEqual([22, 8, 4, 0, "", "", "34 in all"]);
  expect(await across("pieces.box", 7)).toEqual([22, 0, 4, 0, "", "", "26 in all"]);
  // Two labels on the large one; a fill that is typed over.
  await put("pieces.labeleach", 2, 0, 2);
  expect(await at("pieces.labeleach", 0, 6)).toBe("Large typed over: 1 is drawn");
  expect(await at("pieces.label", 0, 2)).toBe(7);
  await put("sizes.overfill", 0.1, 0, 1);
  expect(await at("sizes.overfill", 0, 6)).toBe("Size 2 typed over: 3.0% is drawn");
});

test("more lines than are drawn are said, and what is not enough on hand", async () => {
  const set = await wholeSet();
  const { at } = await set.on(title);
  // By hand: 5200 g of the base were counted, and less has been on hand since than is needed.
  expect(await at("liquids.said")).toMatch(/^on hand only [\d,.]+ g$/);
  const recipes = await set.on("Recipes");
  for (let i = 0; i < 9; i++) {
    await recipes.put("recipes.recipe", "Rain room", 9 + i);
    await recipes.put("recipes.material", "Salt Orchard", 9 + i);
    await recipes.put("recipes.load", 0.001, 9 + i);
  }
  expect(await at("recipe", 0, 1)).toBe(
    "Recipes has 12 lines of it, here are 10: copy the last line down",
  );
});
