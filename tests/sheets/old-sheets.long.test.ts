/**
 * Every column that a sheet draws from another, taken out there or given another heading: what is inserted then
 * shows what it shows beside the whole sheet, or it is said in words which sheet lacks what.
 */
import { expect, test, vi } from "vitest";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet, insertTemplate } from "../../taskpane/sheets/insert";
import { type Template, drawnBy, sourcesOf } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";

vi.setConfig({ testTimeout: 600_000 });

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
  const onNewSheet = { where: "new sheet", filled: true } as const;
  const told = await insertTemplate(new LocalWorkbook(model), template, onNewSheet, templates);
  const cells = shown(model, template.title);
  model.dispatch("REQUEST_UNDO");
  expect(model.getters.getSheetIdByName(template.title)).toBe(undefined);
  return { told, cells };
}

/** Takes the column of a name out, or changes its heading or label; false where it is no column. */
async function spoil(model: Model, title: string, name: string, how: How): Promise<boolean> {
  const workbook = new LocalWorkbook(model);
  const other = (await findSheets(workbook, templates)).get(title);
  const place = other?.places.get(name);
  if (!other || !place) throw new Error(`${name} is not on ${title}`);
  const { sheet } = other;
  const { row, column, head } = place;
  if (how === "renamed") {
    const spot =
      head === undefined ? { sheet, row, column: column - 1 } : { sheet, row: head, column };
    await workbook.write([{ spot, content: "In my own words" }]);
    return true;
  }
  if (head === undefined) return false;
  const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
  const { reasons } = model.dispatch("REMOVE_COLUMNS_ROWS", {
    dimension: "COL",
    elements: [column],
    sheetId,
    sheetName: sheet,
  });
  if (reasons.length > 0) throw new Error(reasons.join());
  return true;
}

for (const template of templates) {
  const sources = new Set(sourcesOf(template));
  for (const source of sources) {
    const names = drawnBy(template).flatMap(({ title, name }) => (title === source ? [name] : []));
    test(`${template.title} beside ${source} without one of its columns`, async () => {
      const model = newModel();
      const there = templates.filter(({ title }) => sources.has(title));
      await insertSet(new LocalWorkbook(model), there, true, templates);
      const { cells: whole } = await inserted(model, template);
      for (const name of new Set(names))
        for (const how of ["deleted", "renamed"] as const) {
          if (!(await spoil(model, source, name, how))) continue;
          const { told, cells } = await inserted(model, template);
          if (!/is not drawn from|Still without it/.test(told))
            expect(cells, `${name} is ${how}: ${told}`).toEqual(whole);
          model.dispatch("REQUEST_UNDO");
        }
    });
  }
}
