/** The buying plan alone, its needs and packs typed: what to buy, what is not known, what is proven. */
import { describe, expect, test } from "vitest";
import { oneSheet } from "./one-sheet";

type Sheet = Awaited<ReturnType<typeof oneSheet>>;

const down = (plan: Sheet, name: string, from: number, lines: number) =>
  Array.from({ length: lines }, (_, i) => plan.at(name, from + i));

const spotOf = (plan: Sheet, name: string) =>
  globalThis.o_spreadsheet.helpers.toCartesian(plan.cell(name));

/** Lines of Alder Clear, Rain on Slate and Attic Cedar in the demo; three packs each. */
const [CLEAR, RAIN, CEDAR] = [0, 3, 6];
const [ALDER, BLUEPOST] = [0, 1];

describe("the demo", () => {
  test("each order is bought at the least cost, freight counted", async () => {
    const plan = await oneSheet("Buying plan");
    // By hand: 7778.6 g with 3 % lost on the way, 8019.2 g. Two gallons and two quarts, 123 and free freight,
    // hold 8044 g; three gallons, 138, and one drum, 199, are dearer.
    expect(plan.at("lines.tobuy", CLEAR)).toBeCloseTo(7778.6 / 0.97, 6);
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([2, 2, 0]);
    const order = ["goods", "paid", "landed", "short"].map((name) => plan.at(`orders.${name}`));
    expect(order).toEqual([123, 0, 123, ""]);
    // By hand: 297.6 g of oil, 40 g being there: a pound is 27.4; 4 oz and 8 oz are 24.5 and hold 340 g.
    expect(plan.at("lines.tobuy", RAIN)).toBeCloseTo(327.5 / 0.97 - 40, 6);
    expect(down(plan, "lines.buy", RAIN, 3)).toEqual([1, 1, 0]);
    expect(plan.at("lines.left", RAIN)).toBeCloseTo(12 * 28.349523125 - (327.5 / 0.97 - 40), 5);
    expect(plan.at("orders.short", BLUEPOST)).toBeCloseTo(60 - 24.5, 10);
    expect(down(plan, "lines.buy", CEDAR, 3)).toEqual([0, 1, 0]);
    expect(plan.at("totals", 0, 0)).toBeCloseTo(123 + 24.5 + 11.9, 9);
    expect(plan.at("totals", 0, 1)).toBeCloseTo(9.75 + 8, 9);
    expect(plan.at("totals", 0, 2)).toBeCloseTo(123 + 24.5 + 9.75 + 11.9 + 8, 9);
    expect(plan.at("notcounted")).toBe("");
    expect(down(plan, "orders.said", ALDER, 3)).toEqual(
      Array(3).fill("the cheapest of these packs, proven"),
    );
  });

  test("a little short of free freight, it buys more to travel free", async () => {
    const plan = await oneSheet("Buying plan");
    // By hand, for 3093 g and free freight from 60: a gallon with freight comes to 60.50; four quarts
    // travel free at 62, a gallon and a quart at 61.50.
    plan.put("lines.needed", 3000, CLEAR);
    plan.put("orders.freefrom", 60, ALDER);
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([0, 1, 0]);
    plan.put("orders.freight", 20, ALDER);
    // With freight of 20 the gallon comes to 66.
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([1, 1, 0]);
    expect(plan.at("orders.paid", ALDER)).toBe(0);
  });

  test("enough on hand, nothing to buy; a least to keep is bought", async () => {
    const plan = await oneSheet("Buying plan");
    // By hand: 7778.6 / 0.97 is 8019.175...; a tenth of a milligram more on hand is enough.
    plan.put("lines.onhand", 8019.1754, CLEAR);
    const first = ["tobuy", "buy", "said"].map((name) => plan.at(`lines.${name}`, CLEAR));
    expect(first).toEqual([0, "", "enough on hand"]);
    expect(["goods", "paid"].map((name) => plan.at(`orders.${name}`, ALDER))).toEqual([0, 0]);
    expect(plan.at("orders.said", ALDER)).toBe("nothing to buy");
    plan.put("lines.least", 100, CLEAR);
    expect(plan.at("lines.tobuy", CLEAR)).toBeCloseTo(100, 3);
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([1, 0, 0]);
  });
});

describe("what is not known", () => {
  test("a freight or a need that is blank: its order is left out, by name", async () => {
    const plan = await oneSheet("Buying plan");
    plan.put("orders.freight", null, ALDER);
    expect(plan.at("orders.said", ALDER)).toMatch(/^freight is blank: type 0 if it is free/);
    expect(plan.at("orders.goods", ALDER)).toBe("");
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual(["", "", ""]);
    expect(plan.at("notcounted")).toBe("Not counted: Alder Clear");
    plan.put("orders.freight", 0, ALDER);
    expect(plan.at("notcounted")).toBe("");
    plan.put("lines.needed", null, RAIN);
    expect(plan.at("lines.tobuy", RAIN)).toBe("not known");
    expect(plan.at("lines.said", RAIN)).toBe("needed: how much?");
    expect(plan.at("notcounted")).toBe("Not counted: Rain on Slate");
    expect(plan.at("orders.said", BLUEPOST)).toBe("not all of it: 1 not counted; nothing to buy");
  });

  test("a pack without its price, density, size, unit or supplier is left out, and the others are not", async () => {
    const plan = await oneSheet("Buying plan");
    plan.put("lines.price", null, CLEAR + 1);
    expect(plan.at("lines.said", CLEAR + 1)).toBe("no price: left out");
    // By hand: without the gallon, ten quarts are 155; a drum is 199.
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([10, "", 0]);
    expect(plan.at("orders.said", ALDER)).toBe(
      "the cheapest of these packs, proven; packs that are left out: 1",
    );
    plan.put("lines.price", 46, CLEAR + 1);
    for (const [name, said] of [
      ["density", "density? left out"],
      ["unit", "pack unit?"],
      ["size", "pack size?"],
      ["supplier", "which supplier? left out"],
    ] as const) {
      const was = plan.at(`lines.${name}`, CLEAR + 1);
      plan.put(`lines.${name}`, null, CLEAR + 1);
      expect(plan.at("lines.said", CLEAR + 1)).toContain(said);
      expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([10, "", 0]);
      plan.put(`lines.${name}`, was, CLEAR + 1);
    }
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual([2, 2, 0]);
    for (const i of [0, 1, 2]) plan.put("lines.price", null, RAIN + i);
    expect(plan.at("lines.said", RAIN)).toContain("no pack to choose from: not counted");
    expect(plan.at("notcounted")).toBe("Not counted: Rain on Slate");
    expect(plan.at("totals", 0, 2)).toBeCloseTo(123 + 11.9 + 8, 9);
  });

  test("a supplier without a line under Orders is said, and its material named", async () => {
    const plan = await oneSheet("Buying plan");
    plan.put("orders.supplier", "Elder Row", ALDER);
    expect(plan.at("lines.said", CLEAR)).toContain("no line under Order from");
    expect(plan.at("notcounted")).toBe("Not counted: Alder Clear");
  });

  test("pieces are not grams", async () => {
    const plan = await oneSheet("Buying plan");
    plan.put("lines.unit", "piece", CEDAR);
    expect(plan.at("lines.said", CEDAR)).toBe("needed in g, sold by piece: left out");
    expect(plan.at("lines.buy", CEDAR)).toBe("");
  });
});

describe("lines", () => {
  test("may be sorted: a need goes with its line, and nothing else changes", async () => {
    const plan = await oneSheet("Buying plan");
    const { row, col } = spotOf(plan, "lines.price");
    const sheetId = plan.model.getters.getActiveSheetId();
    const right = plan.model.getters.getNumberCols(sheetId) - 1;
    const zone = { top: row, bottom: row + 8, left: 0, right };
    const sorted = plan.model.dispatch("SORT_CELLS", {
      sheetId,
      row,
      col,
      zone,
      sortDirection: "desc",
    });
    expect(sorted.reasons).toEqual([]);
    // By hand: the drum of 199 is first, and the quart, on whose line the need stands, is fourth from the end.
    expect(down(plan, "lines.price", 0, 9)).toEqual([
      199, 46, 27.4, 26, 15.6, 15.5, 11.9, 8.9, 6.8,
    ]);
    expect(down(plan, "lines.buy", 0, 9)).toEqual([0, 2, 0, 0, 1, 2, 1, 1, 0]);
    expect(plan.at("lines.tobuy", 5)).toBeCloseTo(7778.6 / 0.97, 6);
    expect(plan.at("totals", 0, 2)).toBeCloseTo(123 + 24.5 + 9.75 + 11.9 + 8, 9);
  });

  test("a need on two lines of one material is not summed in silence", async () => {
    const plan = await oneSheet("Buying plan");
    plan.put("lines.needed", 100, CLEAR + 2);
    expect(plan.at("lines.said", CLEAR)).toBe("its need stands on two lines");
    expect(plan.at("notcounted")).toContain("Alder Clear");
    expect(down(plan, "lines.buy", CLEAR, 3)).toEqual(["", "", ""]);
  });

  test("packs beyond those that are looked at are said, and nothing is called proven without it", async () => {
    const plan = await oneSheet("Buying plan");
    for (let i = 0; i < 6; i++) {
      const pack = { material: "Salt Orchard", supplier: "Elm Yard", size: 10 + i, unit: "g" };
      for (const [name, content] of Object.entries({ ...pack, price: 5 + i }))
        plan.put(`lines.${name}`, content, 9 + i);
    }
    for (const [name, content] of Object.entries({ needed: 40, counted: "g" }))
      plan.put(`lines.${name}`, content, 9);
    plan.put("orders.supplier", "Elm Yard", 3);
    plan.put("orders.freight", 0, 3);
    // By hand: four of 10 g at 5 are 20; of the others each gram costs more.
    expect(down(plan, "lines.buy", 9, 6)).toEqual([4, 0, 0, 0, 0, ""]);
    expect(plan.at("lines.said", 9)).toBe("only the first 5 packs are looked at");
    expect(plan.at("orders.said", 3)).toBe(
      "the cheapest of these packs, proven; packs that are left out: 1",
    );
  });
});

test("goods that are the free-freight sum to the cent travel free", async () => {
  const plan = await oneSheet("Buying plan");
  // By hand: a hundred at 4.35 are 435, and 434.99999999999994 in binary fractions.
  expect(4.35 * 100).toBeLessThan(435);
  const line = { needed: 100, lost: null, size: 1, unit: "g", price: 4.35 };
  for (const [name, content] of Object.entries(line)) plan.put(`lines.${name}`, content, CLEAR);
  for (const i of [1, 2])
    for (const name of ["material", "supplier", "size", "unit", "density", "price"])
      plan.put(`lines.${name}`, null, CLEAR + i);
  plan.put("orders.freight", 5, ALDER);
  plan.put("orders.freefrom", 435, ALDER);
  expect([plan.at("lines.buy", CLEAR), plan.at("orders.paid"), plan.at("orders.short")]).toEqual([
    100,
    0,
    "",
  ]);
  plan.put("orders.freight", 0.005, ALDER);
  plan.put("orders.freefrom", 435.01, ALDER);
  expect([plan.at("lines.buy", CLEAR), plan.at("orders.paid")]).toEqual([100, 0.005]);
});
