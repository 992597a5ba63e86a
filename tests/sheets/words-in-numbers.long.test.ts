/**
 * Words where a number is asked for. Into the numbers that the sheets ask for go "about 5", nothing, and an error,
 * and every formula of the sheet, or of the workbook, is looked at: no error without its reason in words, and no
 * answer that took the words for nothing.
 */
import { describe, expect, test } from "vitest";
import type { CellValue } from "../../functions/bind/cell";
import { cellName } from "../../functions/formula/addresses";
import type { Placed, Spot, Workbook } from "../../taskpane/host/workbook";
import { type DrawnCell, drawingOf } from "../../taskpane/sheets/drawing";
import { insertTemplate } from "../../taskpane/sheets/insert";
import type { Others } from "../../taskpane/sheets/names";
import { findSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { wholeSet } from "./whole-set";
await import("../../localsheet/words");

/** Cells that ask for a number or a date; of a list's column the first, and one on a spare line. */
function asked(template: (typeof templates)[0], others?: Others): DrawnCell[] {
  const { cells, lists = [] } = drawingOf(template, true, others);
  const isNumber = ({ content, format = "" }: DrawnCell) =>
    typeof content === "number" || /[0#y]/.test(format);
  const typed = cells.filter(
    (cell) => (cell.look === "input" || cell.look === "drawn") && isNumber(cell),
  );
  const isLong = ({ row }: DrawnCell) => lists.some((list) => row > list.row + 1);
  const isSpare = ({ row }: DrawnCell) => lists.some((list) => row === list.row + list.rows - 1);
  return typed.filter((cell) => !isLong(cell) || isSpare(cell));
}

const nameOf = ({ sheet, row, column }: Spot) => `${sheet}!${cellName(row, column)}`;

/** What every formula shows, by the name of its cell. */
async function shown(workbook: Workbook): Promise<Map<string, Placed>> {
  return new Map((await workbook.formulas()).map((each) => [nameOf(each.spot), each]));
}

const isError = (value: CellValue) => typeof value === "object" && value !== null;

/**
 * Reasons that are ours, or that a formula's own error brings along. A gap in the chart of the Spray trial log is
 * an #N/A on purpose: Excel draws no point for it.
 */
const OURS = /^(an input is the error |[\w, ]+ (must |is blank|is needed))|^This divides by zero/;
const isGap = ({ spot, value }: Placed) =>
  spot.sheet === "Spray trial log" &&
  isError(value) &&
  (value as { fault: string }).fault === "#N/A";

/** Errors without a reason of ours. */
const bare = (cells: Map<string, Placed>) =>
  [...cells].flatMap(([name, cell]) => {
    if (!isError(cell.value) || isGap(cell)) return [];
    const { fault, text = "" } = cell.value as { fault: string; text?: string };
    return OURS.test(text) ? [] : [`${name}: ${fault} ${text}`];
  });

/** Puts each of the cells to the test, and puts back what was there. */
async function tried(workbook: Workbook, sheet: string, cells: readonly DrawnCell[]) {
  const faults: string[] = [];
  for (const { row, column } of cells) {
    const spot = { sheet, row, column };
    const { formula, value } = await workbook.content(spot);
    const was = formula ?? (value as string | number | null);
    for (const typed of ["about 5", null, "=1/0"]) {
      await workbook.write([{ spot, content: typed }]);
      const found = bare(await shown(workbook));
      faults.push(...found.slice(0, 3).map((each) => `${nameOf(spot)} = ${typed}: ${each}`));
    }
    await workbook.write([{ spot, content: was }]);
  }
  return faults;
}

describe.each(templates)("$title", (template) => {
  test("alone: no error without a reason, whatever stands in a number's cell", async () => {
    const workbook = new LocalWorkbook(newModel());
    await insertTemplate(workbook, template, { where: "new sheet", filled: true });
    expect(await tried(workbook, template.title, asked(template))).toEqual([]);
  });
});

test("linked: the same in the whole workbook, for what the other sheets draw from", async () => {
  const { workbook } = await wholeSet();
  const sheets = await findSheets(workbook, templates);
  const faults: string[] = [];
  for (const title of ["Materials", "Recipes", "Sizes", "Price list"]) {
    const template = templates.find((each) => each.title === title) as (typeof templates)[0];
    const typed = asked(template, sheets).filter(({ look }) => look === "input");
    faults.push(...(await tried(workbook, title, typed)));
  }
  expect(faults).toEqual([]);
}, 200_000);
