/** The whole set in a workbook of the local sheet's engine, its cells by their names. */
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import type { CellValue } from "../../functions/bind/cell";
import { insertSet } from "../../taskpane/sheets/insert";
import { findSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";

/** A workbook with the whole set, or with some of its sheets, and its cells by their names. */
export async function wholeSet(filled = true, titles?: readonly string[]) {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const wanted = templates.filter(({ title }) => titles?.includes(title) ?? true);
  await insertSet(workbook, wanted, filled);
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
