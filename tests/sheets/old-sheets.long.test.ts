/**
 * Every column that a sheet draws from another, taken out there or given another heading: what is inserted then
 * shows what it shows beside the whole sheet, or it is said in words which sheet lacks what.
 */
import { expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet, insertTemplate } from "../../taskpane/sheets/insert";
import type { Other } from "../../taskpane/sheets/names";
import { type Template, drawnBy, sourcesOf } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { FakeExcel } from "../taskpane/fake-excel";

vi.setConfig({ testTimeout: 600_000 });

const onNewSheet = { where: "new sheet", filled: true } as const;

type Model = ReturnType<typeof newModel>;
type How = "deleted" | "renamed";

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

async function inserted(model: Model, template: Template) {
  const told = await insertTemplate(new LocalWorkbook(model), template, onNewSheet, templates);
  const cells = shown(model, template.title);
  model.dispatch("REQUEST_UNDO");
  expect(model.getters.getSheetIdByName(template.title)).toBe(undefined);
  return { told, cells };
}

/** The cell of a heading or a label. */
function headOf({ sheet, places }: Other, name: string) {
  const place = places.get(name);
  if (!place) throw new Error(`${name} is not on ${sheet}`);
  const fields = templates
    .flatMap(({ parts }) => parts)
    .find((part) => "fields" in part && part.fields.some((field) => field.name === name));
  const apart = (fields && "fields" in fields && fields.apart) || 1;
  const { row, column, head = column - apart, lies } = place;
  return lies === "down" ? { sheet, row: head, column } : { sheet, row, column: head };
}

/** Takes the column or row of a name out, or changes its heading or label; false where it is but a field. */
async function spoil(model: Model, title: string, name: string, how: How): Promise<boolean> {
  const workbook = new LocalWorkbook(model);
  const other = (await findSheets(workbook, templates)).get(title) as Other;
  const { sheet } = other;
  if (how === "renamed") {
    await workbook.write([{ spot: headOf(other, name), content: "In my own words" }]);
    return true;
  }
  const place = other.places.get(name);
  if (place?.head === undefined) return false;
  const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
  const part =
    place.lies === "down"
      ? { dimension: "COL" as const, elements: [place.column] }
      : { dimension: "ROW" as const, elements: [place.row] };
  const change = { ...part, sheetId, sheetName: sheet };
  const { reasons } = model.dispatch("REMOVE_COLUMNS_ROWS", change);
  if (reasons.length > 0) throw new Error(reasons.join());
  return true;
}

/** What a template draws from a source, of columns that are alike the first. */
function namesOf(template: Template, source: string): string[] {
  const names = drawnBy(template).flatMap(({ title, name }) =>
    title === source && !/[2-9]$/.test(name) ? [name] : [],
  );
  return [...new Set(names)];
}

const PAIRS = templates.flatMap((template) =>
  sourcesOf(template).map((source) => ({ template, source })),
);
const besideOf = (template: Template) =>
  templates.filter(({ title }) => sourcesOf(template).includes(title));

for (const { template, source } of PAIRS)
  test(`${template.title} beside ${source} without one of its columns`, async () => {
    const model = newModel();
    await insertSet(new LocalWorkbook(model), besideOf(template), true, templates);
    const { cells: whole } = await inserted(model, template);
    for (const [i, name] of namesOf(template, source).entries())
      for (const how of ["deleted", "renamed"] as const) {
        // Another heading is as one that is gone, to what looks for it.
        if (how === "renamed" && i > 0) continue;
        if (!(await spoil(model, source, name, how))) continue;
        const { told, cells } = await inserted(model, template);
        if (!/is not drawn from|Still without it/.test(told))
          expect(cells, `${name} is ${how}: ${told}`).toEqual(whole);
        model.dispatch("REQUEST_UNDO");
      }
  });

for (const { template, source } of PAIRS)
  test(`in Excel ${template.title} beside ${source} with one of its headings changed`, async () => {
    const excel = new FakeExcel();
    excel.install();
    const workbook = new ExcelWorkbook();
    await insertSet(workbook, besideOf(template), true, templates);
    const before = structuredClone(excel.sheets);
    const other = (await findSheets(workbook, templates)).get(source) as Other;
    const names = namesOf(template, source);
    for (const name of new Set([names[0], names.at(-1)].flatMap((each) => each ?? []))) {
      excel.sheets = structuredClone(before);
      const { sheet, row, column } = headOf(other, name);
      excel.sheet(sheet).cells.set(`${row},${column}`, { formula: "In my own words" });
      const told = await insertTemplate(workbook, template, onNewSheet, templates);
      expect(told, name).toMatch(/is not drawn from|Columns for look-ups were added|Still without/);
      // Nothing that stood there is lost; what the demo fills may be drawn from the sheet that came.
      const { cells } = excel.sheet(sheet);
      const there = before.find((each) => each.name === sheet)?.cells ?? [];
      for (const [at, { formula }] of there) {
        const now = cells.get(at)?.formula;
        const isDrawn = [formula, now].some((each) => String(each).startsWith("="));
        if (at !== `${row},${column}` && !isDrawn) expect(now, `${name}: ${at}`).toBe(formula);
      }
    }
  });
