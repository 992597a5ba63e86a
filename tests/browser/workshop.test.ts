/**
 * A workshop that no demo knows, typed once by the keyboard into the empty sheets. What it shows is read on every sheet;
 * a price is followed, lines are sorted, pasted and deleted, two runs are made, one is taken back, a lot is traced.
 */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test, vi } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { plannedSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";
import { launchBrowser } from "./launch";
import { clickCell, filterButton, keyInto, openSheet, shown, spotOf, valueOf } from "./sheet";

const address = inject("address");
let browser: Browser;
let page: Page;
let trouble: string[];
/** Cells that were typed. */
let typed = 0;

beforeAll(async () => {
  browser = await launchBrowser();
  ({ page, trouble } = await openSheet(browser, address));
  await page.getByLabel("Filled with the invented demo").uncheck();
  await page.getByRole("button", { name: "Insert the whole workbook" }).click();
  await page.getByText(/sheets were added/).waitFor({ timeout: 120_000 });
}, 180_000);

afterAll(() => browser?.close());

vi.setConfig({ testTimeout: 240_000 });

type Lines = Record<string, string>[];

const MATERIALS: Lines = [
  "Fen base|base|Moss & Co|40|1|gal|.9|1|10",
  "Moor base|base|Moss & Co|$30|5|lb|0.95|1|0",
  "Heather oil|fragrance oil|Tarn Oils|20.00|4|oz|0.95|2|5",
  "Birch oil|fragrance oil|Tarn Oils|15|100|mL|0.92|1|0",
  "Gorse oil|fragrance oil|Tarn Oils|9|50|g|1|1|1",
  "Softener|additive|Moss & Co|8|250|g|1.02|1|0",
  "Bottle 60|bottle|Glass Yard|48|24|piece||1|12",
  "Bottle 120|bottle|Glass Yard|60|20|piece||1|0",
  "Fine mister|sprayer|Glass Yard|30|50|piece||1|0",
  "Round label|label|Ink Row|25|100|piece||1|5",
].map((line) => {
  const [name = "", what = "", supplier = "", price = "", size = "", unit = "", ...rest] =
    line.split("|");
  const [density = "", packs = "", freight = ""] = rest;
  return { name, what, supplier, price, size, unit, density, packs, freight };
});

const RECIPES: Lines = [
  { recipe: "Moor mist", kind: "room spray", material: "Fen base", of: "finished" },
  { recipe: "Moor mist", material: "Heather oil", load: "4%" },
  { recipe: "Moor mist", material: "Softener", load: "1" },
  { recipe: "Birch linen", kind: "linen spray", material: "Moor base", of: "base" },
  { recipe: "Birch linen", material: "Birch oil", load: "5 %" },
];

const pieces = { sprayer: "Fine mister", label: "Round label", overfill: "0" };
const SIZES: Lines = [
  { size: "60 mL", holds: "60", unit: "mL", bottle: "Bottle 60", minutes: "3", ...pieces },
  { size: "120 g", holds: "120", unit: "g", bottle: "Bottle 120", minutes: "4", ...pieces },
];

const PRICES: Lines = ["Moor mist", "Birch linen"].flatMap((recipe) =>
  SIZES.map(({ size = "" }) => ({ recipe, size })),
);

const MONEY = { hour: "20", lost: "2%", margin: "50", trade: "25", fee: "6", fixed: "0.30" };

const planned = plannedSheets(templates.map((template) => ({ sheet: template.title, template })));

function placeOf(title: string, name: string, line = 0, across = 0): string {
  const place = planned.get(title)?.places.get(name);
  if (!place) throw new Error(`${name} is not on ${title}`);
  return cellName(place.row + line, place.column + across);
}

async function show(title: string) {
  await page.evaluate((name) => {
    const { model } = globalThis.localSheet;
    const sheetIdTo = model.getters.getSheetIdByName(name) ?? "";
    model.dispatch("ACTIVATE_SHEET", { sheetIdFrom: model.getters.getActiveSheetId(), sheetIdTo });
  }, title);
}

/** Types into one cell of a sheet. */
async function type(title: string, name: string, text: string, line = 0, across = 0) {
  await show(title);
  await keyInto(page, placeOf(title, name, line, across), text);
  typed++;
}

async function typeLines(title: string, list: string, lines: Lines) {
  for (const [i, line] of lines.entries())
    for (const [name, text] of Object.entries(line))
      if (text !== "") await type(title, `${list}.${name}`, text, i);
}

/** What a cell shows. */
async function reads(title: string, name: string, line = 0, across = 0): Promise<string> {
  await show(title);
  return shown(page, placeOf(title, name, line, across));
}

/** The lines of a list, by what its first column shows, and what another column shows there. */
async function column(title: string, list: string, key: string, name: string) {
  const found = new Map<string, string>();
  for (let line = 0; line < 12; line++) {
    const said = await reads(title, `${list}.${key}`, line);
    if (said !== "") found.set(said, await reads(title, `${list}.${name}`, line));
  }
  return found;
}

/** By hand, $ a gram: what a pack lands at, by what it holds (legal factors, as in src/units.ts). */
const [GALLON, POUND, OUNCE] = [3785.411784, 453.59237, 28.349523125];

/** By hand: what all that is priced costs where a gallon of Fen base has this price; each with its cost. */
function byHand(fenPrice: number) {
  const [fen, moor] = [(fenPrice + 10) / (GALLON * 0.9), 30 / (5 * POUND)];
  const [heather, birch, softener] = [(20 + 5 / 2) / (4 * OUNCE), 15 / (100 * 0.92), 8 / 250];
  const mist = 0.95 * fen + 0.04 * heather + 0.01 * softener;
  const linen = (moor + 0.05 * birch) / 1.05;
  // Volumes added up.
  const mistDensity = 1 / (0.95 / 0.9 + 0.04 / 0.95 + 0.01 / 1.02);
  const linenDensity = 1.05 / (1 / 0.95 + 0.05 / 0.92);
  // 60 / 24 a bottle, 30 / 50 a sprayer, 30 / 100 a label; three and four minutes at $20.
  const [small, large] = [2.5 + 0.6 + 0.3 + 1, 3 + 0.6 + 0.3 + 4 / 3];
  const costs = [
    (60 * mistDensity * mist) / 0.98 + small,
    (120 * mist) / 0.98 + large,
    (60 * linenDensity * linen) / 0.98 + small,
    (120 * linen) / 0.98 + large,
  ];
  // Half and 6 % of the price are not there for the cost and the 30 cents.
  const asks = costs.map((cost) => (cost + 0.3) / (1 - 0.5 - 0.06));
  const trade = costs.map((cost) => cost / 0.75);
  return { costs, asks, trade, mistDensity };
}

test("ten materials, two recipes, two sizes: four prices, by hand", async () => {
  await typeLines("Materials", "materials", MATERIALS);
  await typeLines("Recipes", "recipes", RECIPES);
  await typeLines("Sizes", "sizes", SIZES);
  await typeLines("Price list", "prices", PRICES);
  for (const [name, text] of Object.entries(MONEY)) await type("Price list", name, text);
  const { costs, asks, trade } = byHand(40);
  for (const [line, cost] of costs.entries()) {
    const at = (name: string) => placeOf("Price list", `prices.${name}`, line);
    expect(await valueOf(page, at("cost")), `line ${line}`).toBeCloseTo(cost, 10);
    expect(await valueOf(page, at("ask"))).toBeCloseTo(asks[line] ?? 0, 10);
    expect(await valueOf(page, at("askTrade"))).toBeCloseTo(trade[line] ?? 0, 10);
    expect(await shown(page, at("said"))).toBe("");
  }
});

/** What all sheets show of the prices, where a gallon of Fen base has this price. */
async function expectPrices(fenPrice: number) {
  const { costs, asks } = byHand(fenPrice);
  for (const [line, cost] of costs.entries()) {
    expect(await reads("Price list", "prices.cost", line)).toBe(cost.toFixed(2));
    expect(await reads("Price list", "prices.ask", line)).toBe((asks[line] ?? 0).toFixed(2));
  }
  // By hand: with freight, of the 128 fl oz of a gallon; 5 lb of 0.95 g/mL.
  const fen = ((fenPrice + 10) / 128).toFixed(3);
  const moor = (30 / ((5 * POUND) / 0.95 / (GALLON / 128))).toFixed(3);
  expect(await column("Base comparison", "packs", "base", "floz")).toEqual(
    new Map([
      ["Fen base", fen],
      ["Moor base", moor],
    ]),
  );
  expect(await reads("Spray trial log", "card.cost")).toBe(fen);
  const goods = await column("Buying plan", "lines", "material", "goods");
  expect([goods.get("Fen base"), goods.get("Softener")]).toEqual([fenPrice.toFixed(2), "8.00"]);
  // By hand: the gallon and the softener of one supplier, with its freight.
  const landed = await column("Buying plan", "orders", "supplier", "landed");
  expect(landed.get("Moss & Co")).toBe((fenPrice + 8 + 10).toFixed(2));
  for (const across of [0, 1])
    expect(await reads("Bottle cost", "costs.cost", 0, across)).toBe(costs[across]?.toFixed(2));
}

test("a price typed on Materials is followed through every sheet, as it is shown", async () => {
  await type("Spray trial log", "card.candidate", "Fen base");
  await type("Bottle cost", "recipe", "Moor mist");
  await type("Size run", "recipe", "Moor mist");
  for (const [across, { size = "" }] of SIZES.entries()) {
    await type("Size run", "sizes.size", size, 0, across);
    await type("Size run", "sizes.count", across === 0 ? "12" : "5", 0, across);
  }
  await type("Size run", "weighin", "g");
  await type("Size run", "step", "0.1");
  console.log(`cells typed for a workshop of ten materials: ${typed}`);
  await expectPrices(40);
  await type("Materials", "materials.price", "$48.00");
  await expectPrices(48);
});

test("Materials sorted by its menu, a line of it deleted, sixty pasted: every sheet shows the same", async () => {
  await show("Materials");
  const heading = placeOf("Materials", "materials.name", -1);
  const { x, y } = await filterButton(page, heading);
  await page.mouse.click(x, y);
  await page.locator(".o-filter-menu").getByText("Sort descending").click();
  await expect.poll(() => shown(page, placeOf("Materials", "materials.name"))).toBe("Softener");
  await expectPrices(48);

  await show("Materials");
  const names = [...(await column("Materials", "materials", "name", "price")).keys()];
  const gorse = await spotOf(
    page,
    placeOf("Materials", "materials.name", names.indexOf("Gorse oil")),
  );
  await page.mouse.click(gorse.x, gorse.y, { button: "right" });
  await page.locator(".o-menu-item", { hasText: "Delete row" }).first().click();
  await expect.poll(() => reads("Materials", "filled")).toBe("9");
  await expectPrices(48);

  await show("Materials");
  await clickCell(page, placeOf("Materials", "materials.name", 9));
  const pasted = Array.from({ length: 60 }, (_, i) =>
    [`Oil ${i + 1}`, "fragrance oil", "Tarn Oils", "", "12", "4", "oz", "0.95", "1", "5"].join(
      "\t",
    ),
  );
  await page.evaluate((text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", text);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }),
    );
  }, pasted.join("\n"));
  await expect.poll(() => reads("Materials", "filled")).toBe("69");
  expect(await reads("Materials", "counted")).toBe("69");
  // By hand: 12 and the freight of 5, of 4 oz.
  expect(await reads("Materials", "materials.perg", 68)).toBe((17 / (4 * OUNCE)).toFixed(4));
  await expectPrices(48);
});

test("two runs are made, poured and booked; one is taken back, and a lot is traced", async () => {
  const press = (name: string) => page.getByRole("button", { name, exact: true }).click();
  const told = (text: string) => page.locator(".status", { hasText: text }).waitFor();
  const names = [...(await column("Materials", "materials", "name", "price")).keys()];
  const lineOf = (name: string) => names.indexOf(name);
  const counted = [
    ["Fen base", "3000", "F-1"],
    ["Heather oil", "200", "H-9"],
    ["Softener", "90", "S-2"],
  ] as const;
  for (const [name, grams, lot] of counted) {
    await type("Materials", "materials.counted", grams, lineOf(name));
    await type("Materials", "materials.countedon", "2026-11-01", lineOf(name));
    await type("Materials", "materials.lot", lot, lineOf(name));
  }
  const onHand = (name: string) => reads("Materials", "materials.onhand", lineOf(name));
  expect(await onHand("Fen base")).toBe("3000.0");

  for (const [i, sheet] of ["Bench sheet", "Bench sheet 2"].entries()) {
    await press("Make this run");
    await told(`batch B-00${i + 1} is "${sheet}"`);
    const at = (name: string, line = 0, across = 0) => placeOf("Bench sheet", name, line, across);
    const pours = [0, 1, 2].map((line) => at("pours.material", line));
    const order = await Promise.all(pours.map((cell) => shown(page, cell)));
    expect([...order].sort()).toEqual(["Fen base", "Heather oil", "Softener"]);
    // By hand: what is poured, in grams.
    const grams = new Map(
      Object.entries({ "Fen base": "1188.1", "Heather oil": "50", Softener: "12.5" }),
    );
    for (const [line, name] of order.entries())
      await keyInto(page, at("pours.reading", line), grams.get(name) ?? "");
    for (const [across, count] of ["12", "5"].entries())
      await keyInto(page, at("sizes.filled", 0, across), count);
    await press("Book this run");
    await told(`Batch B-00${i + 1} is in the Batch book`);
  }
  // By hand: twice 1,188.1, 50 and 12.5 g less.
  expect(await onHand("Fen base")).toBe("623.8");
  expect(await onHand("Heather oil")).toBe("100.0");
  await type("Batch book", "lot", "H-9");
  expect(await reads("Batch book", "howmany")).toBe("2");
  expect(await reads("Batch book", "bottles")).toBe("34");

  await page.getByLabel("Batch to take back").fill("B-001");
  await press("Take a run back");
  await told("Batch B-001 was taken back");
  expect(await onHand("Fen base")).toBe("1811.9");
  expect(await reads("Batch book", "howmany")).toBe("1");
  expect(await reads("Batch book", "traced.number")).toBe("B-002");
  expect(trouble).toEqual([]);
});
