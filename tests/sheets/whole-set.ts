/** The whole set in a workbook of the local sheet's engine, its cells by their names. */
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import type { CellValue } from "../../functions/bind/cell";
import type { Workbook } from "../../taskpane/host/workbook";
import { insertSet } from "../../taskpane/sheets/insert";
import { findSheets } from "../../taskpane/sheets/find";
import type { Other } from "../../taskpane/sheets/names";
import { templates } from "../../taskpane/templates/index";

/** What was drawn once; each test gets a workbook of its own with it. */
const drawn = new Map<string, Promise<object>>();

async function draw(filled: boolean, titles?: readonly string[]): Promise<object> {
  const model = newModel();
  const chosen = templates.filter(({ title }) => titles?.includes(title) ?? true);
  await insertSet(new LocalWorkbook(model), chosen, filled, templates);
  return model.exportData();
}

/** A workbook with the whole set, or some sheets of it, and its cells by their names. */
export async function wholeSet(filled = true, titles?: readonly string[]) {
  const key = JSON.stringify([filled, titles]);
  const data = drawn.get(key) ?? draw(filled, titles);
  drawn.set(key, data);
  const model = newModel(structuredClone(await data));
  const workbook = new LocalWorkbook(model);
  const places = async (title: string) => {
    const found = (await findSheets(workbook, templates)).get(title);
    if (!found) throw new Error(`${title} is not there`);
    return found;
  };
  const spot = async (title: string, name: string, line = 0) => {
    const { sheet, places: all } = await places(title);
    const place = all.get(name);
    if (!place) throw new Error(`${name} is not on ${title}`);
    return { sheet, row: place.row + line, column: place.column };
  };
  return {
    model,
    workbook,
    spot,
    on: async (title: string) => cellsOn(workbook, await places(title)),
    at: async (title: string, name: string, line = 0): Promise<CellValue> => {
      const [cells] = await workbook.read(await spot(title, name, line), 1, 1);
      return cells?.[0] ?? null;
    },
    type: async (title: string, name: string, line: number, content: string | number | null) =>
      workbook.write([{ spot: await spot(title, name, line), content }]),
    /** Sorts the first lines of a list by one of its columns, downwards, as a person does. */
    sort: async (title: string, name: string, lines: number) => {
      const { sheet, row, column } = await spot(title, name);
      const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
      const right = model.getters.getNumberCols(sheetId) - 1;
      const zone = { top: row, bottom: row + lines - 1, left: 0, right };
      const order = { sheetId, row, col: column, zone, sortDirection: "desc" as const };
      const { reasons } = model.dispatch("SORT_CELLS", order);
      if (reasons.length > 0) throw new Error(`not sorted: ${reasons.join(", ")}`);
    },
  };
}

/** One sheet, found once: its cells by their names, lines down and columns across. */
function cellsOn(workbook: Workbook, { sheet, places }: Other) {
  const spotOf = (name: string, line: number, across: number) => {
    const place = places.get(name);
    if (!place) throw new Error(`${name} is not on ${sheet}`);
    return { sheet, row: place.row + line, column: place.column + across };
  };
  return {
    spotOf,
    at: async (name: string, line = 0, across = 0): Promise<CellValue> => {
      const [cells] = await workbook.read(spotOf(name, line, across), 1, 1);
      return cells?.[0] ?? null;
    },
    row: async (name: string, columns: number, across = 0): Promise<readonly CellValue[]> => {
      const [cells] = await workbook.read(spotOf(name, 0, across), 1, columns);
      return cells ?? [];
    },
    put: async (name: string, content: string | number | null, line = 0, across = 0) =>
      workbook.write([{ spot: spotOf(name, line, across), content }]),
  };
}
