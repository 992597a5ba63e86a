/** Sheets put in one by one, in any order, draw from each other as if they had been put in together. */
import { expect, test, vi } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { insertSet, insertTemplate } from "../../taskpane/sheets/insert";
import { findSheets } from "../../taskpane/sheets/find";
import { partsThere, placesOf } from "../../taskpane/sheets/lay";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { FakeExcel } from "../taskpane/fake-excel";

vi.setConfig({ testTimeout: 120_000 });

const onNewSheet = { where: "new sheet", filled: true } as const;
const titled = (title: string) => templates.find((each) => each.title === title) as Template;

/** What every cell of the workbook holds, by sheet. */
function contents({
  getters,
}: ReturnType<typeof newModel>): Partial<Record<string, Record<string, string>>> {
  const sheets = getters.getSheetIds().map((sheetId) => {
    const cells = getters.getCells(sheetId).flatMap((cell) => {
      const { col, row } = getters.getCellPosition(cell.id);
      const text = getters.getCellText({ sheetId, col, row }, { showFormula: true });
      return text === "" ? [] : [[`${col},${row}`, text] as const];
    });
    return [getters.getSheetName(sheetId), Object.fromEntries(cells)] as const;
  });
  return Object.fromEntries(sheets);
}

test("put in backwards, Materials last: each sheet is as if all had been put in together", async () => {
  const backwards = [...templates].sort((a, b) => b.step - a.step);
  const one = newModel();
  const workbook = new LocalWorkbook(one);
  let told = "";
  let before = {};
  for (const template of backwards) {
    before = contents(one);
    told = await insertTemplate(workbook, template, onNewSheet, templates);
  }
  expect(told).toContain(' draws from it now: "Base comparison", "Batch book", "Bench sheet",');
  expect(told).not.toContain("Still without");
  const all = newModel();
  await insertSet(new LocalWorkbook(all), backwards, true);
  // A formula may look further down where a sheet had fewer rows.
  const ends = (_: string, text: unknown) =>
    typeof text === "string" ? text.replaceAll(/(:\$?[A-Z]+)\$?\d{3,}/g, "$1") : text;
  const [some, whole] = [one, all]
    .map(contents)
    .map((each) => JSON.parse(JSON.stringify(each, ends)) as typeof each);
  for (const { title } of templates) expect(some[title], title).toEqual(whole[title]);
  const after = JSON.stringify(contents(one));
  one.dispatch("REQUEST_UNDO");
  expect(Object.keys(contents(one))).not.toContain("Materials");
  expect(contents(one)).toEqual(before);
  one.dispatch("REQUEST_REDO");
  expect(JSON.stringify(contents(one))).toBe(after);
});

test("what was typed on a sheet that gets rows stays, and moves along; what was not is drawn", async () => {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const empty = { ...onNewSheet, filled: false };
  const insert = (title: string) => insertTemplate(workbook, titled(title), empty, templates);
  await insert("Trial batch");
  await workbook.write([
    { spot: await spotOf(workbook, "Trial batch", "oil"), content: "My own oil" },
    { spot: await spotOf(workbook, "Trial batch", "batch"), content: 20 },
    { spot: await spotOf(workbook, "Trial batch", "pours.load"), content: 0.05 },
  ]);
  await insertSet(workbook, chosen(["Materials", "Recipes"]), true, templates);
  const at = async (name: string) => {
    const [cells] = await workbook.read(await spotOf(workbook, "Trial batch", name), 1, 1);
    return cells?.[0];
  };
  expect(await at("recipe")).toBe(null);
  await workbook.write([
    { spot: await spotOf(workbook, "Trial batch", "recipe"), content: "Rain room" },
  ]);
  // Typed stays; the base comes from the recipe; by hand: 5 % of 20 is 1.
  expect([await at("oil"), await at("base"), await at("pours.oil")]).toEqual([
    "My own oil",
    "Alder Clear",
    1,
  ]);
});

test("a plan whose room is taken is left, and told which cell is in the way", async () => {
  const workbook = new LocalWorkbook(newModel());
  await insertTemplate(workbook, titled("Buying plan"), onNewSheet, templates);
  const { sheet, row } = await spotOf(workbook, "Buying plan", "lines.material");
  const places = placesOf(partsThere(titled("Buying plan").parts));
  const { column = 0, columns = 0 } = places.get("lines") ?? {};
  const spot = { sheet, row: row + 1, column: column + columns };
  await workbook.write([{ spot, content: "mine" }]);
  const told = await insertSet(
    workbook,
    chosen(["Materials", "Recipes", "Sizes"]),
    true,
    templates,
  );
  const cell = cellName(spot.row, spot.column);
  expect(told).toContain(`Still without them: "Buying plan" (${cell} of it is filled).`);
  expect((await workbook.read(spot, 1, 1))[0]).toEqual(["mine"]);
});

test("in Excel, too: what is drawn without Materials is drawn from it", async () => {
  const excel = new FakeExcel();
  excel.install();
  const workbook = new ExcelWorkbook();
  const insert = (title: string) => insertTemplate(workbook, titled(title), onNewSheet, templates);
  await insert("Sizes");
  expect(await insert("Materials")).toContain('draws from it now: "Sizes"');
  const { row = -1, column = -1 } = placesOf(titled("Sizes").parts).get("sizes.bottlecost") ?? {};
  const cell = excel.sheet("Sizes").cells.get(`${row},${column}`);
  expect(String(cell?.formula)).toContain("Materials!");
});

/** What every cell of a sheet of the small Excel holds. */
function texts(excel: FakeExcel, sheet: string) {
  const cells = [...excel.sheet(sheet).cells].flatMap(([at, { formula = "" }]) =>
    formula === "" ? [] : [[at, formula]],
  );
  return Object.fromEntries(cells) as Record<string, unknown>;
}

/** Sheets that get rows, or columns, beside those that they draw from. */
const GROWING = ["Trial batch", "Buying plan", "Limits check"];
const SOURCES = ["Materials", "Recipes", "Sizes", "Price list", "What is in it"];
const chosen = (titles: readonly string[]) =>
  templates.filter(({ title }) => titles.includes(title));

test("in Excel, too: rows are put in, and each sheet is as if all had been put in together", async () => {
  const excel = new FakeExcel();
  excel.install("1.20");
  const workbook = new ExcelWorkbook();
  await insertSet(workbook, chosen(GROWING), true, templates);
  excel.runs.length = 0;
  await insertSet(workbook, chosen(SOURCES), true, templates);
  expect(excel.runs.filter(({ mergeUndoGroup }) => mergeUndoGroup)).toHaveLength(1);
  const tables = excel.sheets.map(({ tables: all }) => all.map(({ name, over }) => [name, over]));
  const some = GROWING.map((title) => texts(excel, title));
  const whole = new FakeExcel();
  whole.install("1.20");
  await insertSet(new ExcelWorkbook(), chosen([...GROWING, ...SOURCES]), true, templates);
  GROWING.forEach((title, i) => expect(some[i], title).toEqual(texts(whole, title)));
  const names = excel.sheets.map(({ name }) => name);
  const tablesOf = (title: string) => tables[names.indexOf(title)];
  for (const title of GROWING)
    expect(tablesOf(title), title).toEqual(
      whole.sheet(title).tables.map(({ name, over }) => [name, over]),
    );
});

test("in Excel, too: where a link is refused, the sheets are put in without it", async () => {
  const excel = new FakeExcel();
  excel.install();
  const workbook = new ExcelWorkbook();
  await insertSet(workbook, chosen(GROWING), true, templates);
  const before = texts(excel, "Trial batch");
  excel.sheet("Buying plan").isProtected = true;
  const told = await insertSet(workbook, chosen(SOURCES), true, templates);
  expect(told).toContain('draws from them now: "Limits check", "Trial batch".');
  expect(told).toContain('Still without them: "Buying plan" (the sheet is protected).');
  expect(texts(excel, "Trial batch")).not.toEqual(before);
});

async function spotOf(
  workbook: InstanceType<typeof LocalWorkbook>,
  title: string,
  name: string,
  line = 0,
) {
  const found = (await findSheets(workbook, templates)).get(title);
  const place = found?.places.get(name);
  if (!found || !place) throw new Error(`${name} is not on ${title}`);
  return { sheet: found.sheet, row: place.row + line, column: place.column };
}

test("what was typed stays, lines that were added are drawn too", async () => {
  const workbook = new LocalWorkbook(newModel());
  const insert = (title: string) =>
    insertTemplate(workbook, titled(title), { ...onNewSheet, filled: false }, templates);
  await insert("Weighed");
  await insert("Batch book");
  const lines = 60;
  const typed = Array.from({ length: lines }, (_, line) => line);
  for (const line of typed)
    await workbook.write([
      { spot: await spotOf(workbook, "Weighed", "weighed.batch", line), content: "B-1" },
      { spot: await spotOf(workbook, "Weighed", "weighed.material", line), content: "Oil" },
      { spot: await spotOf(workbook, "Weighed", "weighed.grams", line), content: 10 },
    ]);
  const own = await spotOf(workbook, "Weighed", "weighed.what", 3);
  await workbook.write([{ spot: own, content: "my own words" }]);
  await insert("Materials");
  await workbook.write([
    { spot: await spotOf(workbook, "Materials", "materials.name"), content: "Oil" },
    { spot: await spotOf(workbook, "Materials", "materials.what"), content: "fragrance oil" },
    { spot: await spotOf(workbook, "Materials", "materials.counted"), content: 1000 },
    { spot: await spotOf(workbook, "Batch book", "batches.number"), content: "B-1" },
    { spot: await spotOf(workbook, "Batch book", "batches.date"), content: 46_000 },
  ]);
  const at = async (title: string, name: string, line = 0) => {
    const [cells] = await workbook.read(await spotOf(workbook, title, name, line), 1, 1);
    return cells?.[0];
  };
  expect(await at("Weighed", "weighed.what", 3)).toBe("my own words");
  expect(await at("Weighed", "weighed.what", 4)).toBe("fragrance oil");
  expect(await at("Weighed", "weighed.what", lines - 1)).toBe("fragrance oil");
  // The spare line below them, too, and what grows out of it.
  for (const line of [lines, lines + 1]) {
    await workbook.write([
      { spot: await spotOf(workbook, "Weighed", "weighed.material", line), content: "Oil" },
    ]);
    expect(await at("Weighed", "weighed.what", line)).toBe("fragrance oil");
  }
  // By hand: 60 lines of 10 g.
  expect(await at("Materials", "materials.onhand")).toBe(400);
});

test("a sheet whose columns were moved is left, and told what to do", async () => {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  await insertTemplate(workbook, titled("Sizes"), onNewSheet, templates);
  const sheetId = model.getters.getSheetIdByName("Sizes") ?? "";
  const change = { dimension: "COL", base: 0, quantity: 1, position: "before" } as const;
  model.dispatch("ADD_COLUMNS_ROWS", { ...change, sheetId, sheetName: "Sizes" });
  const title = { sheet: "Sizes", row: 0, column: 0 };
  await workbook.write([{ spot: title, content: "Sizes" }]);
  expect(await insertTemplate(workbook, titled("Materials"), onNewSheet, templates)).toContain(
    'Still without it: "Sizes" (its rows or columns were moved). Insert such a sheet anew, and delete the old one.',
  );
});
