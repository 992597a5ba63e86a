/** The sheets as one workbook: what is typed once is drawn everywhere, and follows. */
import { describe, expect, test, vi } from "vitest";
import { cellName, readCellName } from "../../functions/formula/addresses";
import { findSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";
import { wholeSet } from "./whole-set";

// A workbook of all sheets takes a busy machine seconds to draw.
vi.setConfig({ testTimeout: 120_000 });

test("no cell of the whole set is an error, filled or empty", async () => {
  for (const filled of [true, false]) {
    const { workbook } = await wholeSet(filled);
    for (const sheet of await workbook.sheetNames()) {
      const cells = await workbook.read({ sheet, row: 0, column: 0 }, 240, 60);
      const faults = cells.flatMap((line, row) =>
        line.flatMap((value, column) =>
          value !== null && typeof value === "object"
            ? [`${sheet}!${cellName(row, column)} ${JSON.stringify(value)}`]
            : [],
        ),
      );
      // A score that is not there is #N/A, so that the chart leaves it out.
      expect(faults.filter((fault) => !fault.includes("#N/A"))).toEqual([]);
    }
  }
});

describe("a price on Materials", () => {
  test("goes through recipes to the price list, and is never taken for nothing", async () => {
    const set = await wholeSet();
    // By hand: (46 + 14.5) / (3785.411784 mL x 0.85 g/mL) / 0.98.
    const perg = 60.5 / (3785.411784 * 0.85) / 0.98;
    expect(await set.at("Materials", "materials.perg")).toBeCloseTo(perg, 12);
    expect(await set.at("Recipes", "recipes.costpart")).toBeCloseTo(0.95 * perg, 12);
    const before = Number(await set.at("Price list", "prices.cost"));
    const grams = Number(await set.at("Price list", "prices.grams"));
    await set.type("Materials", "materials.price", 0, 92);
    // By hand: 92 is over the sum from which freight is free.
    const dearer = 92 / (3785.411784 * 0.85) / 0.98;
    const after = Number(await set.at("Price list", "prices.cost"));
    expect(after - before).toBeCloseTo((grams * 0.95 * (dearer - perg)) / 0.97, 10);
    await set.type("Materials", "materials.price", 0, null);
    expect(await set.at("Price list", "prices.cost")).toBe("");
    expect(await set.at("Price list", "prices.said")).toContain("no price");
  });

  test("a recipe that is not there costs nothing to nobody, also in a size by weight", async () => {
    const set = await wholeSet();
    await set.type("Sizes", "sizes.holds", 0, 100);
    await set.type("Sizes", "sizes.unit", 0, "g");
    const size = String(await set.at("Sizes", "sizes.size"));
    await set.type("Price list", "prices.size", 0, size);
    expect(await set.at("Price list", "prices.liquid")).toBeGreaterThan(0);
    await set.type("Price list", "prices.recipe", 0, "Nowhere mist");
    expect(await set.at("Price list", "prices.liquid")).toBe("");
    expect(await set.at("Price list", "prices.cost")).toBe("");
    expect(await set.at("Price list", "prices.said")).toContain("not in Recipes");
  });

  test("another offer in use is drawn from then on; two in use are said", async () => {
    const set = await wholeSet();
    await set.type("Materials", "materials.standing", 2, "in use");
    expect(await set.at("Materials", "materials.said", 2)).toContain("a line above is in use too");
    await set.type("Materials", "materials.standing", 0, "offer");
    // By hand: 199 for 5 gal, over the sum from which freight is free.
    const perg = 199 / (5 * 3785.411784 * 0.85) / 0.98;
    expect(await set.at("Recipes", "recipes.costpart")).toBeCloseTo(0.95 * perg, 12);
  });
});

describe("recipes", () => {
  test("of the base and of the finished batch", async () => {
    const set = await wholeSet();
    // By hand: 6 % of the wax is 0.06 / 1.06 of the candle.
    expect(await set.at("Recipes", "recipes.share", 8)).toBeCloseTo(0.06 / 1.06, 12);
    expect(await set.at("Recipes", "recipes.share", 7)).toBeCloseTo(1 / 1.06, 12);
    await set.type("Recipes", "recipes.of", 7, null);
    expect(await set.at("Recipes", "recipes.share", 8)).toBe("finished or base?");
  });

  test("the lowest of the limits counts, and is named when a load is over it", async () => {
    const set = await wholeSet();
    await set.type("Recipes", "recipes.load", 6, 0.05);
    // Its oil is a strong one; without that lower load the certificate is next.
    await set.type("Recipes", "kinds.strong", 2, null);
    expect(await set.at("Recipes", "recipes.highest", 6)).toBe(0.04);
    expect(await set.at("Recipes", "recipes.said", 6)).toContain("over the certificate limit");
    await set.type("Recipes", "recipes.load", 1, 0.075);
    expect(await set.at("Recipes", "recipes.said", 1)).toContain("over your highest load");
  });

  test("a candle sold by weight takes no density, a spray does", async () => {
    const set = await wholeSet();
    const names = (
      await set.workbook.read(await set.spot("Materials", "materials.name"), 40, 1)
    ).flat();
    await set.type("Materials", "materials.density", names.indexOf("Field Wax"), null);
    await set.type("Materials", "materials.density", names.indexOf("Alder Clear"), null);
    const lines = (
      await set.workbook.read(await set.spot("Recipes", "recipes.material"), 12, 1)
    ).flat();
    const said = (material: string) => set.at("Recipes", "recipes.said", lines.indexOf(material));
    expect(await said("Field Wax")).not.toContain("no density");
    expect(await said("Alder Clear")).toContain("no density");
    const run = await set.on("Bottle cost");
    await run.put("recipe", "Rain candle");
    expect(await run.at("costs.cost")).toBeGreaterThan(0);
  });

  test("a material that is not there is said, and costs nothing to nobody", async () => {
    const set = await wholeSet();
    await set.type("Recipes", "recipes.material", 1, "Rain on Slat");
    expect(await set.at("Recipes", "recipes.said", 1)).toContain("not in Materials");
    expect(await set.at("Price list", "prices.cost")).toBe("");
  });
});

test("sheets may be renamed, and columns moved: they are found by their headings", async () => {
  const set = await wholeSet();
  const { model, workbook } = set;
  const id = model.getters.getSheetIdByName("Materials") as string;
  model.dispatch("RENAME_SHEET", { sheetId: id, oldName: "Materials", newName: "Shop list" });
  model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId: id,
    sheetName: "Shop list",
    dimension: "COL",
    position: "before",
    base: 2,
    quantity: 1,
  });
  const found = (await findSheets(workbook, templates)).get("Materials");
  expect(found?.sheet).toBe("Shop list");
  const price = found?.places.get("materials.price");
  expect(cellName(price?.head ?? 0, price?.column ?? 0)).toBe("F12");
  expect(readCellName("F12").column).toBe(5);
  const [head] = await workbook.read({ sheet: "Shop list", row: 11, column: 5 }, 1, 1);
  expect(head?.[0]).toBe("Price of a pack ($)");
});

test("a line put in above the first one is not passed over in silence", async () => {
  const set = await wholeSet();
  const { sheet, row } = await set.spot("Materials", "materials.name");
  const sheetId = set.model.getters.getSheetIdByName(sheet) as string;
  set.model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId,
    sheetName: sheet,
    dimension: "ROW",
    position: "before",
    base: row,
    quantity: 1,
  });
  await set.type("Materials", "materials.name", 0, "Salt Orchard");
  expect(await set.at("Materials", "filled")).toBe(24);
  expect(await set.at("Materials", "counted")).toBe(23);
});

describe("sheets of before, drawn from the one workbook", () => {
  test("one price on Materials goes to the comparison, the bottle, the plan and the scorecard", async () => {
    const set = await wholeSet();
    const before = {
      base: await set.at("Base comparison", "packs.floz"),
      bottle: await set.at("Bottle cost", "costs.cost"),
      plan: await set.at("Buying plan", "lines.goods"),
      card: await set.at("Spray trial log", "card.cost"),
    };
    // By hand: (46 + 14.5) / (128 x 0.98).
    expect(before.base).toBeCloseTo(60.5 / (128 * 0.98), 12);
    expect(before.card).toBe(before.base);
    await set.type("Materials", "materials.price", 0, 50);
    // By hand: (50 + 14.5) / (128 x 0.98); 4 dollars more a gallon.
    expect(await set.at("Base comparison", "packs.floz")).toBeCloseTo(64.5 / (128 * 0.98), 12);
    expect(await set.at("Spray trial log", "card.cost")).toBeCloseTo(64.5 / (128 * 0.98), 12);
    expect(await set.at("Buying plan", "lines.price")).toBe(50);
    expect(await set.at("Buying plan", "lines.goods")).not.toBe(before.plan);
    const grams = Number(await set.at("Bottle cost", "sizes.fill"));
    const dearer = (4 / (3785.411784 * 0.85) / 0.98) * 0.95 * (grams / 0.97);
    expect(Number(await set.at("Bottle cost", "costs.cost")) - Number(before.bottle)).toBeCloseTo(
      dearer,
      10,
    );
  });

  test("another recipe in Size run, Bottle cost and Trial batch changes all that is drawn", async () => {
    const set = await wholeSet();
    await set.type("Size run", "recipe", 0, "Rain linen");
    expect(await set.at("Size run", "liquids.material")).toBe("Bluepost Soft");
    expect(await set.at("Size run", "liquids.load", 1)).toBe(0.03);
    expect(await set.at("Size run", "liquids.material", 2)).toBe("");
    // By hand: 0.97 of 2 fl oz x 12 at 0.93 and 0.95 g/mL, 2 % overfill, volumes additive.
    const density = 1 / (0.97 / 0.93 + 0.03 / 0.95);
    expect(await set.at("Size run", "liquids.grams")).toBeCloseTo(
      12 * 2 * 29.5735295625 * density * 1.02 * 0.97,
      8,
    );
    await set.type("Trial batch", "recipe", 0, "Rain room");
    expect(await set.at("Trial batch", "oil")).toBe("Rain on Slate");
    expect(await set.at("Trial batch", "density")).toBe(0.95);
    await set.type("Bottle cost", "recipe", 0, "Rain candle");
    expect(await set.at("Bottle cost", "sizes.size")).toBe("Jar");
    expect(await set.at("Bottle cost", "liquids.material")).toBe("Field Wax");
    // By hand: 200 g, no overfill.
    expect(await set.at("Bottle cost", "sizes.fill")).toBeCloseTo(200, 8);
  });

  test("what Trial batch draws says when it is typed over, and what is drawn", async () => {
    const set = await wholeSet();
    const { sheet, row, column } = await set.spot("Trial batch", "density");
    const note = async () => (await set.workbook.read({ sheet, row, column: column + 1 }, 1, 1))[0];
    expect(await note()).toEqual([""]);
    await set.type("Trial batch", "density", 0, 0.9);
    expect(await note()).toEqual(["typed over: 0.960 is drawn"]);
    // By hand: 50 drops of 1.62 g at 0.9 g/mL.
    expect(await set.at("Trial batch", "rate")).toBeCloseTo((50 * 0.9) / 1.62, 10);
  });

  test("no number of Materials is typed on another sheet again", async () => {
    const set = await wholeSet();
    const typed = new Map<string, string[]>();
    for (const sheet of await set.workbook.sheetNames()) {
      const id = set.model.getters.getSheetIdByName(sheet) as string;
      for (const cell of set.model.getters.getCells(id)) {
        // Weighed holds weights as they were read.
        // Numbers that are nobody's by chance: prices and densities.
        if (cell.isFormula || !/^\d+\.\d+$/.test(cell.content)) continue;
        const { col, row } = set.model.getters.getCellPosition(cell.id);
        const cells = typed.get(cell.content) ?? [];
        typed.set(cell.content, [...cells, `${sheet}!${cellName(row, col)}`]);
      }
    }
    const names = ["price", "freight", "density", "sampleprice"];
    const spots = await Promise.all(
      names.map((name) => set.spot("Materials", `materials.${name}`)),
    );
    const letters = spots.map(({ column }) => cellName(0, column).replace("1", ""));
    const isOfMaterials = (cell: string) =>
      letters.some((letter) => new RegExp(`^Materials!${letter}\\d`).test(cell));
    const again = [...typed].flatMap(([value, cells]) =>
      cells.some(isOfMaterials)
        ? cells
            .filter((cell) => !/^(Materials|Weighed)!/.test(cell))
            .map((cell) => `${value} in ${cell}`)
        : [],
    );
    console.log(
      `prices, freights and densities of Materials that stand typed elsewhere: ${again.length}`,
    );
    expect(again).toEqual([]);
  });
});
