import { beforeEach, expect, test } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { FakeExcel } from "./fake-excel";

const baseComparison = templates.find(
  ({ title }) => title === "Base comparison",
) as (typeof templates)[0];
const drawn = drawingOf(baseComparison, true);
let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
});

test("whichever order is refused, a selection is as it was", async () => {
  excel.sheet("Sheet1").cells.set("2,2", { fill: "#ABCDEF", format: "0.0" });
  for (let column = 1; column <= drawn.columns; column++)
    excel.sheet("Sheet1").widths.set(column, 50);
  const before = structuredClone(excel.contents());
  const insert = () =>
    insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
  let refusals = 0;
  for (let at = 0; ; at++) {
    let [drawing, seen] = [-1, 0];
    let isRefused = false;
    excel.refuses = ({ name }) => {
      // The drawing is the request that suspends calculation.
      if (name === "suspendApiCalculationUntilNextSync") drawing = excel.requests.length;
      if (isRefused || excel.requests.length !== drawing || seen++ < at) return undefined;
      isRefused = true;
      return "not allowed";
    };
    const outcome = await insert().catch((error: Error) => error.message);
    if (!isRefused) break;
    refusals++;
    expect(outcome).toBe("Nothing was inserted: Excel refused it (not allowed)");
    expect(excel.contents(), `order ${at}`).toEqual(before);
  }
  expect(refusals).toBeGreaterThan(80);
});
