/** No text of a sheet is cut off by what stands right of it: filled, empty, and where much is not known. */
import { expect, test, vi } from "vitest";
import type { Model } from "../../localsheet/engine";
import { cellName } from "../../functions/formula/addresses";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { wholeSet } from "./whole-set";

vi.setConfig({ testTimeout: 120_000 });

/** Pixels of a letter at the sheet's usual size, as Chromium drew these sheets: 5.6 to 6.1; bold ones are wider. */
const LETTER = 6;
const BOLD = 6.4;

/** A formula takes its room, even where it shows nothing. */
const isFilled = (cell?: { isFormula: boolean; content?: string }) =>
  cell !== undefined && (cell.isFormula || Boolean(cell.content));

/** The cells whose text is longer than its column and the empty cells right of it. */
function cutOff({ getters }: Model, sheet: string, printed: number): string[] {
  const sheetId = getters.getSheetIdByName(sheet) ?? "";
  const columns = getters.getNumberCols(sheetId);
  const widthOf = (col: number) =>
    getters.isColHidden(sheetId, col) ? 0 : getters.getColSize(sheetId, col);
  const roomOf = (col: number, row: number) => {
    let room = widthOf(col);
    for (let next = col + 1; next < columns; next += 1) {
      if (widthOf(next) === 0) continue;
      if (isFilled(getters.getCell({ sheetId, col: next, row }))) return room;
      room += widthOf(next);
    }
    return Infinity;
  };
  return Object.values(getters.getCells(sheetId)).flatMap(({ id }) => {
    const { col, row } = getters.getCellPosition(id);
    const { type, formattedValue } = getters.getEvaluatedCell({ sheetId, col, row });
    const { wrapping, bold } = getters.getCellComputedStyle({ sheetId, col, row });
    if (type !== "text" || wrapping === "wrap" || widthOf(col) === 0 || col > printed) return [];
    // What a column of numbers says in place of one; Working says it whole.
    if (formattedValue.startsWith("type a number: ")) return [];
    const needs = formattedValue.length * (bold ? BOLD : LETTER);
    const room = roomOf(col, row);
    return needs <= room
      ? []
      : [`${sheet} ${cellName(row, col)}: ${needs} of ${room}: ${formattedValue}`];
  });
}

const all = plannedSheets(templates.map((template) => ({ sheet: template.title, template })));

test.each(["filled", "empty", "half known"])("no text is cut off: %s", async (state) => {
  const { model, workbook } = await wholeSet(state !== "empty");
  if (state === "half known") {
    const typed = templates.flatMap((template) =>
      drawingOf(template, true, all)
        .cells.filter(({ look, content }) => look === "input" && typeof content === "number")
        .filter(({ row, column }) => (row + column) % 2 === 0)
        .map(({ row, column }) => ({
          spot: { sheet: template.title, row, column },
          content: null,
        })),
    );
    await workbook.write(typed);
  }
  // What is not printed are workings.
  const lastOf = (template: Template) => drawingOf(template, true, all).page?.only?.columns[1];
  const cut = templates.flatMap((each) => cutOff(model, each.title, lastOf(each) ?? Infinity));
  expect(cut).toEqual([]);
});
