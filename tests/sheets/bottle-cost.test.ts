/** Bottle cost: alone, in the one workbook, and in a workshop that is not the demo's. */
import { describe, expect, test, vi } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";
import { oneSheet } from "./one-sheet";
import { BY_HAND, otherWorkshop } from "./other-workshop";
import { wholeSet } from "./whole-set";

const title = "Bottle cost";
const MIDDLE = 1;

// A workbook of all sheets takes a busy machine seconds to draw.
vi.setConfig({ testTimeout: 60_000 });

type Sheet = Awaited<ReturnType<typeof oneSheet>>;
const row = ({ at }: Sheet, name: string, columns = 3) =>
  Array.from({ length: columns }, (_, across) => at(name, 0, across));

const blank = (columns: number) => Array.from({ length: columns }, () => "");
const unknown = (columns: number) => Array.from({ length: columns }, () => "not known");

describe("alone", () => {
  test("one bottle of each size, its prices, its break-even and the split", async () => {
    const sheet = await oneSheet(title);
    const { at } = sheet;
    // By hand, from the demo's inputs.
    const fills = [2, 4, 8].map((ounces) => ounces * 29.5735295625 * 0.87 * 1.02);
    const gram = {
      base: 60.5 / (3785.411784 * 0.85),
      slate: 27.4 / 453.59237,
      cedar: 31.2 / (16 * 28.349523125),
    };
    const liquids = fills.map(
      (fill) => (fill * (0.95 * gram.base + 0.04 * gram.slate + 0.01 * gram.cedar)) / 0.97,
    );
    const costs = liquids.map(
      (liquid, i) => liquid + ([1.15, 1.65, 2.05][i] ?? NaN) + ([0.9, 0.9, 1.2][i] ?? NaN),
    );
    const close = (values: number[]) => values.map((value) => expect.closeTo(value, 9));
    expect(row(sheet, "sizes.fill")).toEqual(close(fills));
    expect(row(sheet, "costs.liquid")).toEqual(close(liquids));
    expect(row(sheet, "costs.lostof")).toEqual(close(liquids.map((liquid) => liquid * 0.03)));
    expect(row(sheet, "costs.cost", 4)).toEqual([...close(costs), ""]);
    const asks = costs.map((cost) => (cost + 0.3) / (1 - 0.5 - 0.065));
    expect(row(sheet, "retail.ask")).toEqual(close(asks));
    expect(row(sheet, "trade.price")).toEqual(close(costs.map((cost) => cost / 0.75)));
    const prices = asks.map((ask, i) => (i === MIDDLE ? 14 : ask));
    const kept = prices.map((price, i) => price - price * 0.065 - 0.3 - (costs[i] ?? NaN));
    expect(row(sheet, "retail.kept")).toEqual(close(kept));
    expect(row(sheet, "retail.rate")).toEqual(
      close(kept.map((sum, i) => sum / (prices[i] ?? NaN))),
    );
    expect(row(sheet, "retail.even")).toEqual(kept.map((sum) => Math.ceil(180 / sum)));
    const sold = [60, 90, 20];
    const soldTrade = [20, 40, 0];
    const profit = costs.reduce(
      (sum, cost, i) =>
        sum + (sold[i] ?? NaN) * (kept[i] ?? NaN) + (soldTrade[i] ?? NaN) * (cost / 0.75 - cost),
      -180,
    );
    expect(at("profit")).toBeCloseTo(profit, 8);
    expect(at("first")).toBeCloseTo(profit * 0.6, 8);
    expect(Number(at("first")) + Number(at("second"))).toBeCloseTo(profit, 8);
    // The parts of the price are the price; the lines of the liquid are the liquid, less what is lost.
    const parts = ["costs.cost", "retail.fees", "retail.kept"];
    expect(parts.map((name) => Number(at(name, 0, MIDDLE))).reduce((a, b) => a + b)).toBeCloseTo(
      14,
      10,
    );
    const lines = [0, 1, 2].map((line) => Number(at("liquids.cost", line, MIDDLE)));
    expect(lines.reduce((a, b) => a + b)).toBeCloseTo((liquids[MIDDLE] ?? NaN) * 0.97, 10);
    expect([at("filled"), at("counted")]).toEqual([3, 3]);
  });

  test("markup is the price less the cost, over the cost", async () => {
    const { at } = await oneSheet(title);
    const cost = Number(at("costs.cost", 0, MIDDLE));
    expect(at("retail.markup", 0, MIDDLE)).toBeCloseTo((14 - cost) / cost, 12);
    // By hand: a margin of 25 % without fees is a markup of a third.
    expect(at("trade.markup", 0, MIDDLE)).toBeCloseTo(1 / 3, 12);
  });

  test("a price below cost is marked, and never pays", async () => {
    const sheet = await oneSheet(title);
    sheet.put("retail.own", 4.5, 0, MIDDLE);
    expect(row(sheet, "retail.said")).toEqual(["no", "below cost", "no"]);
    expect(sheet.at("retail.kept", 0, MIDDLE)).toBeLessThan(0);
    expect(sheet.at("retail.rate", 0, MIDDLE)).toBeLessThan(0);
    expect(sheet.at("retail.even", 0, MIDDLE)).toBe("never");
    // By hand: 14 less 6.5 % and 0.30 keeps 12.79; a cost of that is not below cost.
    sheet.put("retail.own", 14, 0, MIDDLE);
    sheet.put("costs.bottle", 0.85 + Number(sheet.at("retail.kept", 0, MIDDLE)), 0, MIDDLE);
    expect(sheet.at("retail.kept", 0, MIDDLE)).toBeCloseTo(0, 10);
    expect(sheet.at("retail.said", 0, MIDDLE)).toBe("no");
  });

  test("packaging and work that are blank are not free; a zero is; other sizes stay known", async () => {
    const sheet = await oneSheet(title);
    const { put, at } = sheet;
    const before = row(sheet, "costs.cost") as number[];
    const told = () => at("costs.sprayer", 0, 6);
    expect(told()).toBe("");
    put("costs.sprayer", null, 0, MIDDLE);
    expect(told()).toBe("blank is not known: type 0 if there is none");
    expect(row(sheet, "costs.cost")).toEqual([before[0], "not known", before[2]]);
    expect([at("retail.ask", 0, MIDDLE), at("retail.kept", 0, MIDDLE), at("profit")]).toEqual([
      "",
      "",
      "",
    ]);
    expect([at("counted"), at("filled", 0, 1)]).toEqual([2, "see where it says not known"]);
    put("costs.sprayer", 0, 0, MIDDLE);
    // By hand: the sprayer of 0.38 less.
    expect(at("costs.cost", 0, MIDDLE)).toBeCloseTo((before[1] ?? NaN) - 0.38, 12);
    put("hour", null);
    expect(row(sheet, "costs.work", 4)).toEqual([...unknown(3), ""]);
    expect(at("counted")).toBe(0);
  });

  test("an ingredient without a price, or without a share, says so on its line, and nothing is summed", async () => {
    const sheet = await oneSheet(title);
    const { put, at } = sheet;
    put("liquids.landed", null, 1);
    expect([at("liquids.pergram", 1), at("liquids.cost", 1), at("liquids.said", 1)]).toEqual([
      "price?",
      "price?",
      "no price",
    ]);
    expect(row(sheet, "costs.liquid")).toEqual(unknown(3));
    put("liquids.load", 0, 1);
    expect([at("liquids.cost", 1), at("liquids.share", 0)]).toEqual([0, expect.closeTo(0.99, 12)]);
    expect(at("costs.liquid")).toBeGreaterThan(0);
    put("liquids.landed", 27.4, 1);
    put("liquids.load", null, 1);
    expect([at("liquids.share", 0), at("liquids.share", 1), at("liquids.cost", 1)]).toEqual([
      "load?",
      "load?",
      "share?",
    ]);
    expect(at("liquids.said", 1)).toBe("2 loads are blank: only one is the rest");
    expect(at("costs.liquid")).toBe("not known");
    // What is free costs nothing, and is known.
    put("liquids.load", 0.04, 1);
    const before = Number(at("costs.liquid"));
    const line = Number(at("liquids.cost", 1));
    put("liquids.landed", 0, 1);
    expect(at("costs.liquid")).toBeCloseTo(before - line / 0.97, 12);
  });

  test("shares that do not come to the whole are refused in words", async () => {
    const { put, at } = await oneSheet(title);
    put("liquids.load", 0.9, 0);
    expect(at("liquids.said")).toBe("the loads come to 95.0%: leave one blank, it is the rest");
    expect(at("costs.liquid")).toBe("not known");
    put("liquids.load", 0.95, 0);
    expect([at("liquids.said"), at("liquids.share")]).toEqual(["", expect.closeTo(0.95, 12)]);
    put("liquids.load", null, 0);
    put("liquids.load", 0.995, 1);
    expect(at("liquids.said")).toBe("the loads are over 100 %");
    expect(at("costs.liquid")).toBe("not known");
  });

  test("a density that is none is an error with words, never another cost", async () => {
    const { put, at } = await oneSheet(title);
    // Pounds per US gallon.
    put("density", 8.5);
    expect(at("sizes.fill")).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
    expect([at("costs.liquid"), at("costs.cost")]).toEqual(["not known", "not known"]);
    put("density", null);
    expect([at("sizes.fill"), at("costs.cost")]).toEqual(["density?", "not known"]);
    // A size by weight takes none.
    put("sizes.unit", "oz", 0, MIDDLE);
    expect(at("sizes.fill", 0, MIDDLE)).toBeCloseTo(4 * 28.349523125 * 1.02, 10);
    expect(at("costs.cost", 0, MIDDLE)).toBeGreaterThan(0);
    put("density", 0.87);
    put("liquids.packdensity", 8.5, 0);
    expect(at("liquids.pergram")).toMatch(
      /^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/,
    );
    expect(at("costs.liquid")).toBe("not known");
    put("liquids.packdensity", null, 0);
    expect([at("liquids.pergram"), at("costs.liquid")]).toEqual(["density?", "not known"]);
    // A pack by weight needs no density, and still takes none that is wrong.
    put("liquids.packdensity", 0.85, 0);
    put("liquids.packdensity", 8.5, 1);
    expect(at("liquids.pergram", 1)).toMatch(/^#VALUE! density must be/);
  });

  test("a price needs its fees, its bottles and the fixed costs; a way to sell that is not used needs none", async () => {
    const sheet = await oneSheet(title);
    const { put, at } = sheet;
    const lacking = "an asking price takes a margin and both fees: 0 if none";
    expect(at("trademargin", 0, 1)).toBe("");
    put("tradefee", null);
    for (const name of ["ask", "fees", "kept", "rate"])
      expect(row(sheet, `trade.${name}`, 2)).toEqual(["", ""]);
    expect(at("trademargin", 0, 1)).toBe(lacking);
    // Bottles are expected at a price that is not known.
    expect([at("profit"), at("open")]).toEqual(["", "Not known: type the fixed costs"]);
    for (let across = 0; across < 3; across++) put("trade.sold", null, 0, across);
    const kept = row(sheet, "retail.kept") as number[];
    const byHand = [60, 90, 20].reduce((sum, count, i) => sum + count * (kept[i] ?? NaN), -180);
    expect(at("profit")).toBeCloseTo(byHand, 9);
    put("season", null);
    expect([at("retail.even"), at("profit")]).toEqual(["", ""]);
    put("season", 0);
    expect(at("retail.even")).toBe(0);
  });

  test("what is nothing by leaving it blank is said in words; empty it shows no number", async () => {
    const { put, at } = await oneSheet(title);
    put("sizes.overfill", null);
    put("lost", null);
    expect([at("sizes.overfill", 0, 6), at("lost", 0, 1)]).toEqual([
      "blank: filled to the mark",
      "blank: none lost",
    ]);
    const empty = await oneSheet(title, false);
    for (const name of [
      "sizes.fill",
      "costs.liquid",
      "costs.cost",
      "retail.price",
      "trade.kept",
      "profit",
    ])
      expect(empty.at(name)).toBe("");
    expect(empty.at("counted")).toBe(0);
  });
});

describe("in the one workbook", () => {
  test("each recipe costs in each size what Price list says; what is typed over says what is drawn", async () => {
    const set = await wholeSet();
    const { at, row, put } = await set.on(title);
    const list = await set.on("Price list");
    for (const [recipe, first, sizes] of [
      ["Orchard body", 4, 2],
      ["Rain candle", 6, 1],
      ["Rain room", 0, 3],
    ] as const) {
      await put("recipe", recipe);
      for (const [mine, theirs] of [
        ["costs.cost", "cost"],
        ["retail.price", "price"],
        ["retail.kept", "kept"],
        ["trade.price", "priceTrade"],
        ["trade.kept", "keptTrade"],
      ] as const) {
        const said = await Promise.all(
          Array.from({ length: sizes }, (_, i) => list.at(`prices.${theirs}`, first + i)),
        );
        expect(said.every((value) => typeof value === "number")).toBe(true);
        const close = said.map((value) => expect.closeTo(Number(value), 9));
        expect(await row(mine, 6)).toEqual([...close, ...blank(6 - sizes)]);
      }
    }
    const told = (name: string) => at(name, 0, 6);
    expect([await told("sizes.size"), await told("costs.label")]).toEqual(["", ""]);
    const before = Number(await at("costs.cost", 0, 1));
    await put("costs.label", 0.5, 0, 1);
    // By hand: 24 and freight of 22 for 200 labels, of which 5 % are lost, are 0.242.
    expect(await told("costs.label")).toBe("4 fl oz typed over: 0.24 is drawn");
    expect(await at("costs.cost", 0, 1)).toBeCloseTo(before + 0.5 - 46 / 200 / 0.95, 10);
    await put("sizes.size", "16 fl oz");
    expect(await told("sizes.size")).toBe("Size 1 typed over: 2 fl oz is drawn");
    expect(await at("sizes.holds")).toBe(16);
    await put("density", 0.9);
    expect(await at("density", 0, 1)).toBe("typed over: 0.854 is drawn");
    await put("liquids.landed", 30, 1);
    expect(await at("liquids.over", 1)).toBe("Landed ($)");
    await put("liquids.load", 0.05, 1);
    expect(await at("liquids.over", 1)).toBe("Share (%); Landed ($)");
    // The base is what is left.
    expect(await at("liquids.share")).toBeCloseTo(0.94, 12);
  });

  test("keeps to the 8,192 letters that Excel takes of a formula, beside all sheets with long names", () => {
    const others = plannedSheets(
      templates.map((template, i) => ({ sheet: `${"o".repeat(29)} ${i}`.slice(-31), template })),
    );
    const template = templates.find((each) => each.title === title) as (typeof templates)[0];
    const { cells } = drawingOf(template, true, others);
    const longest = Math.max(...cells.map(({ content }) => String(content).length));
    expect(longest).toBeLessThanOrEqual(8192);
    expect(longest).toBeGreaterThan(2000);
  });
});

test("another workshop, with five ingredients and four sizes, is as an independent computation has it", async () => {
  const set = await otherWorkshop();
  const { at, row, put } = await set.on(title);
  const list = await set.on("Price list");
  const materials = await set.on("Materials");
  await put("recipe", "Harbour");
  for (const [name, typed] of Object.entries({
    hour: 20,
    lost: 0.04,
    margin: 0.4,
    fee: 0.08,
    fixed: 0.25,
  }))
    await list.put(name, typed);
  // An additive without a price leaves every cost unknown, in words.
  const HUSH = 9;
  expect(await row("sizes.size", 6)).toEqual(["Small", "Middle", "Large", "Refill", "", ""]);
  expect(await row("costs.cost", 6)).toEqual([...unknown(4), ...blank(2)]);
  expect(await row("costs.liquid", 4)).toEqual(unknown(4));
  expect([await at("liquids.pergram", 4), await at("liquids.said", 4)]).toEqual([
    "price?",
    "no price",
  ]);
  // What is known is there: 0 where a size takes no label.
  expect(await row("costs.label", 4)).toEqual([
    ...Array.from({ length: 3 }, () => expect.closeTo(0.15, 12)),
    0,
  ]);
  await put("liquids.landed", HUSH, 4);
  expect(await at("liquids.over", 4)).toBe("Landed ($)");

  const { shares, perGram, density, fills, pieces, minutes } = BY_HAND;
  const gram = perGram(HUSH).reduce((sum, each, i) => sum + each * (shares[i] ?? NaN), 0);
  const costs = fills(density).map(
    (fill, i) =>
      (fill * gram) / 0.96 +
      (pieces[i] ?? []).reduce((a, b) => a + b) +
      ((minutes[i] ?? NaN) / 60) * 20,
  );
  const close = (values: number[]) => values.map((value) => expect.closeTo(value, 9));
  expect(await at("density")).toBeCloseTo(density, 12);
  expect(await row("sizes.fill", 4)).toEqual(close(fills(density)));
  expect(await row("costs.cost", 4)).toEqual(close(costs));
  const asks = costs.map((cost) => (cost + 0.25) / 0.52);
  expect(await row("retail.ask", 4)).toEqual(close(asks));
  expect(await row("retail.kept", 4)).toEqual(close(asks.map((ask) => 0.4 * ask)));

  // More sizes than there are columns.
  const sizes = await set.on("Sizes");
  expect(await at("sizes.size", 0, 6)).toBe("");
  for (const [i, size] of ["Tin", "Jug", "Can"].entries())
    await sizes.put("sizes.size", size, 4 + i);
  expect(await row("sizes.size", 7)).toEqual([
    ...["Small", "Middle", "Large", "Refill", "Tin", "Jug"],
    "7 sizes, 6 fit: type over one for another",
  ]);
  // Of a tin nothing is known: it costs nothing to nobody.
  expect([await at("sizes.fill", 0, 4), await at("costs.cost", 0, 4)]).toEqual([
    "holds?",
    "not known",
  ]);

  // Two sizes on Price list, the second under its cost: they alone are shown then.
  await materials.put("materials.price", HUSH, 4);
  for (const [i, size] of ["Large", "Small"].entries()) {
    await list.put("prices.recipe", "Harbour", i);
    await list.put("prices.size", size, i);
  }
  await list.put("prices.own", 1.5, 1);
  expect(await row("sizes.size", 6)).toEqual(["Large", "Small", ...blank(4)]);
  expect(await row("costs.cost", 2)).toEqual(close([costs[2] ?? NaN, costs[0] ?? NaN]));
  expect([await list.at("prices.cost"), await list.at("prices.cost", 1)]).toEqual(
    close([costs[2] ?? NaN, costs[0] ?? NaN]),
  );
  expect(await row("retail.price", 2)).toEqual(close([asks[2] ?? NaN, 1.5]));
  expect(await row("retail.said", 2)).toEqual(["no", "below cost"]);

  // Without the density of an ingredient what is sold by volume is not known; what is sold by weight is.
  await materials.put("materials.density", null, 3);
  await put("sizes.size", "Refill", 0, 2);
  expect(await at("density")).toBe("");
  expect(await row("sizes.fill", 3)).toEqual([
    "density?",
    "density?",
    expect.closeTo(453.59237, 9),
  ]);
  expect(await row("costs.cost", 3)).toEqual([...unknown(2), expect.closeTo(costs[3] ?? NaN, 9)]);
});

test("a size that is drawn offers the sizes of Sizes; one that shows nothing is not marked as wrong", async () => {
  const { model, on } = await wholeSet(true);
  const sheet = await on("Bottle cost");
  const { sheet: name, row, column } = sheet.spotOf("sizes.size", 0, 0);
  const sheetId = model.getters.getSheetIdByName(name) ?? "";
  const at = { sheetId, row, col: column };
  expect(model.getters.getValidationRuleForCell(at)?.criterion.type).toBe("isValueInRange");
  const last = { ...at, col: column + 5 };
  expect(await sheet.at("sizes.size", 0, 5)).toBe("");
  expect(model.getters.isDataValidationInvalid(last)).toBe(false);
  await sheet.put("sizes.size", "no such size");
  expect(model.getters.isDataValidationInvalid(at)).toBe(true);
});
