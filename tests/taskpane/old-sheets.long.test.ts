/**
 * Every column that other sheets draw from, taken out of its sheet or given another heading: what is inserted then
 * shows what it shows beside the whole sheet, or it is said in words which sheet lacks what.
 */
import { expect, test, vi } from "vitest";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { findSheets } from "../../taskpane/sheets/find";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { type Template, drawnBy } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { wholeSet } from "./whole-set";

vi.setConfig({ testTimeout: 600_000 });

type Model = ReturnType<typeof newModel>;

const onNewSheet = { where: "new sheet", filled: true } as const;

/** The lists and names that others draw from, with the templates that do. */
const DRAWN = (() => {
  const found = new Map<string, { title: string; name: string; by: Template[] }>();
  for (const template of templates)
    for (const { title = "", name } of drawnBy(template)) {
      const key = `${title}: ${name}`;
      const { by } = found.get(key) ?? { by: [] };
      if (!by.includes(template)) by.push(template);
      found.set(key, { title, name, by });
    }
  return [...found.values()];
})();

/** What a sheet shows, cell by cell. */
function shown({ getters }: Model, sheet: string) {
  const sheetId = getters.getSheetIdByName(sheet) ?? "";
  const cells = getters.getCells(sheetId).map((cell) => {
    const { col, row } = getters.getCellPosition(cell.id);
    const { value } = getters.getEvaluatedCell({ sheetId, col, row });
    return [`${col},${row}`, value ?? ""] as const;
  });
  return Object.fromEntries(cells.filter(([, value]) => value !== ""));
}

async function inserted(model: Model, { title }: Template, by: Template) {
  void title;
  const told = await insertTemplate(new LocalWorkbook(model), by, onNewSheet, templates);
  const sheet = /new sheet "(.*?)"/.exec(told)?.[1] ?? "";
  return { told, cells: shown(model, sheet) };
}

const data = wholeSet().then(({ model }) => model.exportData());
const copy = async () => newModel(structuredClone(await data) as object);

const whole = new Map<string, Promise<Record<string, unknown>>>();
function besideWhole(template: Template) {
  const cells =
    whole.get(template.title) ??
    copy().then(async (model) => (await inserted(model, template, template)).cells);
  whole.set(template.title, cells);
  return cells;
}

/** Takes the column of a name out, or changes its heading or label. */
async function spoil(model: Model, title: string, name: string, how: "deleted" | "renamed") {
  const workbook = new LocalWorkbook(model);
  const other = (await findSheets(workbook, templates)).get(title);
  const place = other?.places.get(name);
  if (!other || !place) throw new Error(`${name} is not on ${title}`);
  const { sheet } = other;
  if (how === "deleted") {
    const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
    const elements = [place.column];
    const change = { dimension: "COL", elements, sheetId, sheetName: sheet } as const;
    const { reasons } = model.dispatch("REMOVE_COLUMNS_ROWS", change);
    if (reasons.length > 0) throw new Error(reasons.join());
  } else {
    const spot =
      place.head === undefined
        ? { sheet, row: place.row, column: place.column - 1 }
        : { sheet, row: place.head, column: place.column };
    await workbook.write([{ spot, content: "In my own words" }]);
  }
}

for (const { title, name, by } of DRAWN)
  for (const how of ["deleted", "renamed"] as const) {
    if (how === "deleted" && !name.includes(".")) continue;
    test(`${title}: ${name} is ${how}`, async () => {
      const model = await copy();
      await spoil(model, title, name, how);
      for (const template of by) {
        const { told, cells } = await inserted(model, template, template);
        if (told.includes("is not drawn from")) continue;
        expect(cells, template.title).toEqual(await besideWhole(template));
      }
    });
  }
