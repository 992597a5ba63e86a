/** Rules and formats of whole columns: they hold in every row that is shown, and no row beyond is looked at. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test, vi } from "vitest";
import { partsOf, richParts, sheet, zipped } from "../files/foreign-book";
import { bound, newModel, openModel, saveBook, write } from "./load-engine";

const SHEET = "xl/worksheets/sheet1.xml";
const FORMAT =
  '<conditionalFormatting sqref="A1:A1048576"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>11</formula></cfRule></conditionalFormatting>';
const SCALE =
  '<conditionalFormatting sqref="A1:A1048576"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFFF0000"/><color rgb="FFFFFFFF"/></colorScale></cfRule></conditionalFormatting>';
const RULE =
  '<dataValidations count="1"><dataValidation type="decimal" operator="greaterThan" sqref="A1:A1048576"><formula1>11</formula1></dataValidation></dataValidations>';
const LIST =
  '<dataValidations count="1"><dataValidation type="list" sqref="A1:A1048576"><formula1>$B$1:$B$1048576</formula1></dataValidation></dataValidations>';

function opened(rules: string) {
  const cells = '<row r="1"><c r="A1"><v>20</v></c><c r="B1"><v>10</v></c></row>';
  const parts = partsOf(sheet(cells, rules));
  const bytes = zipped({ ...parts, "xl/styles.xml": richParts()["xl/styles.xml"] ?? "" });
  const data = bound(openModel(bytes), "key");
  const model = newModel(structuredClone(data));
  const sheetId = model.getters.getActiveSheetId();
  return { model, sheetId, last: model.getters.getNumberRows(sheetId) - 1, bytes, data };
}

describe.each([
  ["a conditional format", FORMAT],
  ["a colour scale", SCALE],
  ["a rule for input", RULE],
  ["a list that is a whole column", LIST],
])("%s over a whole column", (_, rules) => {
  test("is saved as it stands, and no more cells are looked at than the grid has", async () => {
    const { model, bytes, data } = opened(rules);
    const looked = vi.spyOn(model.getters, "getEvaluatedCell");
    write(model, "B1", "12");
    const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes, data });
    expect(saved.lost).toEqual([]);
    const xml = strFromU8(unzipSync(saved.bytes)[SHEET] ?? bytes);
    expect(xml.slice(xml.indexOf("</sheetData>"))).toContain(rules);
    // By hand: a grid of 100 rows and 30 columns, each cell a few times.
    expect(looked.mock.calls.length).toBeLessThan(10_000);
  });
});

test("they hold in the first and the last row that is shown", () => {
  const format = opened(FORMAT);
  const rule = opened(RULE);
  for (const [{ model, sheetId, last }, isMarked] of [
    [format, "getCellConditionalFormatStyle"],
    [rule, "isDataValidationInvalid"],
  ] as const) {
    for (const row of [0, last]) {
      write(model, `A${row + 1}`, isMarked === "isDataValidationInvalid" ? "3" : "12");
      expect(model.getters[isMarked]({ sheetId, col: 0, row }), `row ${row}`).toBeTruthy();
      expect(model.getters[isMarked]({ sheetId, col: 1, row }), `beside row ${row}`).toBeFalsy();
    }
  }
});

test("a colour scale goes by what stands in the column", () => {
  const { model, sheetId, last } = opened(SCALE);
  write(model, `A${last + 1}`, "10");
  const fill = (row: number) =>
    model.getters.getCellConditionalFormatStyle({ sheetId, col: 0, row })?.fillColor;
  // By hand: 20 is the most, white; 10 the least, red.
  expect([fill(0), fill(last)]).toEqual(["#FFFFFF", "#FF0000"]);
});

test("a list that is a whole column offers what stands in it", () => {
  const { model, sheetId, last } = opened(LIST);
  write(model, `B${last + 1}`, "moss");
  const criterion = model.getters.getDataValidationRules(sheetId)[0]?.criterion;
  const offered = model.getters.getDataValidationRangeValues(sheetId, criterion as never);
  expect(offered.map(({ value }) => value)).toEqual(["10", "moss"]);
});

test("a rule that begins below what is shown marks nothing above it", () => {
  const { model, sheetId } = opened(RULE.replace("A1:A1048576", "A500:A1048576"));
  write(model, "A1", "3");
  expect(model.getters.isDataValidationInvalid({ sheetId, col: 0, row: 0 })).toBe(false);
});
