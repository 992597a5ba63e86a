/** The whole set in a workbook of the local sheet's engine, its cells by their names. */
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import type { CellValue } from "../../functions/bind/cell";
import { insertSet } from "../../taskpane/sheets/insert";
import { findSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";

/** A workbook with the whole set, and its cells by their names. */
export async function wholeSet(filled = true) {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  await insertSet(workbook, templates, filled);
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
  };
}
