/** Sheets that an earlier version drew, or that a maker changed, beside new ones that draw from them. */
import { expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { addressOf, drawingOf } from "../../taskpane/sheets/drawing";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet, insertTemplate } from "../../taskpane/sheets/insert";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { FakeExcel } from "../taskpane/fake-excel";

vi.setConfig({ testTimeout: 120_000 });

const onNewSheet = { where: "new sheet", filled: true } as const;
const titled = (title: string) => templates.find((each) => each.title === title) as Template;

/** Recipes as it was before its lines were told apart by numbers: its last column was not there. */
const OLD_RECIPES: Template = {
  ...titled("Recipes"),
  parts: titled("Recipes").parts.map((part) => {
    if (!("list" in part) || part.list !== "recipes") return part;
    const columns = part.columns
      .filter(({ name }) => name !== "first")
      .map(({ formula, ...column }) => {
        if (formula === undefined) return column;
        const byName = formula
          .replaceAll("{recipes.first},{first}", "{recipes.recipe},{recipe}")
          .replaceAll("{recipes.first}={first}", "{recipes.recipe}={recipe}");
        return { ...column, formula: byName };
      });
    return { ...part, columns };
  }),
};
const OLD = templates.map((each) => (each.title === "Recipes" ? OLD_RECIPES : each));
const SOURCES = ["Materials", "Recipes", "Sizes"];
const sourcesOf = (all: readonly Template[]) => all.filter(({ title }) => SOURCES.includes(title));

async function local(all: readonly Template[] = templates) {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  await insertSet(workbook, sourcesOf(all), true, all);
  const insert = (title: string) => insertTemplate(workbook, titled(title), onNewSheet, templates);
  const column = async (title: string, name: string, lines = 12) => {
    const { sheet, places } = (await findSheets(workbook, templates)).get(title) ?? {};
    const place = places?.get(name);
    if (!sheet || !place) return undefined;
    const spot = { sheet, row: place.row, column: place.column };
    return (await workbook.read(spot, lines, 1)).flat();
  };
  return { model, workbook, insert, column };
}

test("a column that Recipes lacks is added at its right, hidden, in the same step", async () => {
  const now = await local();
  await now.insert("Price list");
  const old = await local(OLD);
  expect(await old.column("Recipes", "recipes.first")).toBe(undefined);
  const before = old.model.exportData();
  expect(await old.insert("Price list")).toContain(
    ' Columns for look-ups were added right of the list of "Recipes".',
  );
  const costs = await old.column("Price list", "prices.cost");
  expect(costs?.[0]).toBeGreaterThan(0);
  expect(costs).toEqual(await now.column("Price list", "prices.cost"));
  expect(await old.column("Recipes", "recipes.first")).toEqual(
    await now.column("Recipes", "recipes.first"),
  );
  const { getters } = old.model;
  const sheetId = getters.getSheetIdByName("Recipes") ?? "";
  const [first = -1] = [...(await findSheets(old.workbook, templates)).values()].flatMap(
    ({ places }) => places.get("recipes.first")?.column ?? [],
  );
  expect(getters.isColHidden(sheetId, first)).toBe(true);
  old.model.dispatch("REQUEST_UNDO");
  expect(JSON.stringify(old.model.exportData().sheets)).toBe(JSON.stringify(before.sheets));
});

test("a line that is typed later has the added column, too", async () => {
  const { workbook, insert, column } = await local(OLD);
  await insert("Price list");
  const { sheet, places } = (await findSheets(workbook, templates)).get("Recipes") ?? {};
  const filled = (await column("Recipes", "recipes.recipe", 60)) ?? [];
  const lines = (await column("Recipes", "recipes.said", 60)) ?? [];
  // The list ends with spare lines; right below the last of them.
  const next = lines.findLastIndex((value) => value !== null) + 1;
  expect(next).toBeGreaterThan(filled.filter((value) => value !== null).length);
  const place = places?.get("recipes.recipe");
  const spot = { sheet: sheet ?? "", row: (place?.row ?? 0) + next, column: place?.column ?? 0 };
  await workbook.write([{ spot, content: "Rain room" }]);
  // By hand: Rain room stands on the first line.
  expect((await column("Recipes", "recipes.first", 60))?.[next]).toBe(1);
});

test("a heading that the maker changed is told; the sheet is put in without, and nothing is lost", async () => {
  const { workbook, insert, column } = await local();
  const { sheet = "", places } = (await findSheets(workbook, templates)).get("Recipes") ?? {};
  const place = places?.get("recipes.load");
  const spot = { sheet, row: place?.head ?? 0, column: place?.column ?? 0 };
  await workbook.write([{ spot, content: "How strong" }]);
  expect(await insert("Trial batch")).toBe(
    'Trial batch is on the new sheet "Trial batch", and draws from Materials. ' +
      '"Recipes" is not drawn from: it has no "Load (%)". ' +
      "Put the heading back, or type it right of the other headings, then insert Trial batch anew.",
  );
  await workbook.write([{ spot, content: "Load (%)" }]);
  expect(await insert("Trial batch")).toContain("draws from Recipes, Materials.");
  expect((await column("Trial batch", "pours.load", 1))?.[0]).toBe(0.03);
});

test("where the cells right of the list are filled, they stay, and it is said", async () => {
  const { workbook, insert } = await local(OLD);
  const { sheet = "", places } = (await findSheets(workbook, OLD)).get("Recipes") ?? {};
  const list = [...(places?.values() ?? [])].filter(({ of }) => of === "recipes");
  const right = Math.max(...list.map(({ column }) => column)) + 1;
  const spot = { sheet, row: (list[0]?.row ?? 0) + 2, column: right };
  await workbook.write([{ spot, content: "my own note" }]);
  expect(await insert("Price list")).toContain(
    '"Recipes" is not drawn from: it has no "First line of the recipe", and the cells right of its list are filled. Empty these, then insert Price list anew.',
  );
  expect((await workbook.read(spot, 1, 1))[0]).toEqual(["my own note"]);
});

async function inExcel() {
  const excel = new FakeExcel();
  excel.install("1.20");
  const workbook = new ExcelWorkbook();
  await insertSet(workbook, sourcesOf(OLD), true, OLD);
  const recipes = excel.sheet("Recipes");
  const table = recipes.tables.find(({ name }) => name === "recipes");
  return { excel, workbook, recipes, table };
}

test("in Excel, too: the table is made wider, and all is one step", async () => {
  const { excel, workbook, recipes, table } = await inExcel();
  const drawing = drawingOf(titled("Recipes"), true);
  const list = drawing.lists?.[0];
  const head = drawing.cells.find(({ content }) => content === "First line of the recipe");
  excel.runs.length = 0;
  await insertTemplate(workbook, titled("Price list"), onNewSheet, templates);
  // The last column of the table, which is as wide as it is drawn today.
  const column = (list?.column ?? 0) + (list?.columns ?? 0) - 1;
  expect(recipes.cells.get(`${head?.row},${column}`)?.formula).toBe(head?.content);
  const below = recipes.cells.get(`${(head?.row ?? 0) + (list?.rows ?? 0) - 1},${column}`);
  expect(String(below?.formula)).toContain("MATCH(");
  expect(recipes.widths.get(column)).toBe(0);
  expect(table?.over).toBe(list && addressOf(list));
  expect(excel.runs.filter(({ mergeUndoGroup }) => mergeUndoGroup)).toHaveLength(1);
});

test("in Excel, too: of a refused one nothing stays", async () => {
  const { excel, workbook, recipes, table } = await inExcel();
  const texts = () =>
    [...recipes.cells].flatMap(([at, { formula }]) => (formula ? [[at, formula]] : []));
  const [before, over] = [texts(), table?.over];
  let isWider = false;
  excel.refuses = ({ name, args }) => {
    if (name === "resize") isWider = true;
    if (!isWider || name !== "columnHidden" || args[0] !== true) return undefined;
    isWider = false;
    return "the column is locked";
  };
  const refused = insertTemplate(workbook, titled("Price list"), onNewSheet, templates);
  await expect(refused).rejects.toThrow("Nothing was inserted");
  expect(texts()).toEqual(before);
  expect(table?.over).toBe(over);
  expect(excel.sheets.map(({ name }) => name)).not.toContain("Price list");
});
