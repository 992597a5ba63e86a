/** Sheets are found where a maker has put them: rows and columns moved, titles lower down, labels that come twice. */
import { expect, test, vi } from "vitest";
import { findSheets } from "../../taskpane/sheets/find";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { partsThere, placesOf } from "../../taskpane/sheets/lay";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";

vi.setConfig({ testTimeout: 60_000 });

async function alone(title: string) {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const template = templates.find((each) => each.title === title);
  if (!template) throw new Error(title);
  await insertTemplate(workbook, template, { where: "new sheet", filled: true });
  const sheetId = model.getters.getSheetIdByName(title) ?? "";
  const putIn = (dimension: "ROW" | "COL", base: number, quantity: number) => {
    const change = {
      dimension,
      base,
      quantity,
      position: "before",
      sheetId,
      sheetName: title,
    } as const;
    const { reasons } = model.dispatch("ADD_COLUMNS_ROWS", change);
    if (reasons.length > 0) throw new Error(reasons.join());
  };
  return { workbook, parts: partsThere(template.parts), putIn };
}

type Places = ReadonlyMap<string, { row: number; column: number }>;

/** Rows and columns of all names that were found, and of these as they are drawn, so far moved. */
function spots(places: Places, drawn: Places, by = { rows: 0, columns: 0 }) {
  const moved = [...places].map(([name, { row, column }]) => [
    name,
    row - by.rows,
    column - by.columns,
  ]);
  const asDrawn = [...places.keys()].map((name) => [
    name,
    drawn.get(name)?.row,
    drawn.get(name)?.column,
  ]);
  return [moved, asDrawn];
}

for (const { title } of templates)
  test(`${title} is found where it is drawn, and ten rows and two columns further on`, async () => {
    const { workbook, parts, putIn } = await alone(title);
    const drawn = placesOf(parts);
    const here = (await findSheets(workbook, templates)).get(title)?.places ?? new Map();
    const [found, wanted] = spots(here, drawn);
    expect(found).toEqual(wanted);
    // Fields, columns and rows that have names.
    const names = [...drawn].filter(([name, { of }]) => of !== undefined || here.has(name));
    expect(names.map(([name]) => name).filter((name) => !here.has(name))).toEqual([]);
    putIn("ROW", 0, 10);
    putIn("COL", 0, 2);
    const there = (await findSheets(workbook, templates)).get(title)?.places ?? new Map();
    const [further, asDrawn] = spots(there, drawn, { rows: 10, columns: 2 });
    expect(further).toEqual(asDrawn);
    expect(there.size).toBe(here.size);
  });

test("a list is found however many rows stand above it", async () => {
  const { workbook, parts, putIn } = await alone("Bottle cost");
  const { row = 0 } = placesOf(parts).get("liquids.material") ?? {};
  putIn("ROW", row - 2, 300);
  const places = (await findSheets(workbook, templates)).get("Bottle cost")?.places;
  expect(places?.get("liquids.material")?.row).toBe(row + 300);
});

test("a sheet that only names another one is not taken for it", async () => {
  const workbook = new LocalWorkbook(newModel());
  const [sheet = ""] = await workbook.sheetNames();
  const list = ["My sheets", "Materials", "Recipes", "Supplier"];
  await workbook.write(list.map((content, row) => ({ spot: { sheet, row, column: 0 }, content })));
  expect((await findSheets(workbook, templates)).size).toBe(0);
});
