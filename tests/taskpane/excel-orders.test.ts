/** Rules, charts and several sheets as orders to Excel: behind Microsoft's own client, a small Excel of ours. */
import { beforeEach, expect, test } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { write } from "../../taskpane/host/run";
import type { Drawing, DrawnRule } from "../../taskpane/sheets/drawing";
import { FakeExcel } from "./fake-excel";

let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
});

const at = { sheet: "Sheet1", row: 0, column: 0 };
const cells = { row: 0, column: 0, rows: 3, columns: 1 };
const nothing: Drawing = {
  ...{ rows: 3, columns: 2, cells: [], rules: [], marks: [], charts: [], widths: [] },
};
const argumentsOf = (name: string) =>
  excel.orders.filter((order) => order.name === name).map(({ args }) => args);

test.each<[Partial<DrawnRule>, string]>([
  [{ limits: [0, 1] }, "Type a percent from 0 % to 100 %, such as 5 %."],
  [{ limits: [1, 5] }, "Type a number from 1 to 5."],
  [{ words: ["up", "down"] }, "Pick one of: up, down."],
])("of a rule %j is said: %s", async (rule, message) => {
  await new ExcelWorkbook().drawAt(at, { ...nothing, rules: [{ ...cells, ...rule }] });
  expect(argumentsOf("errorAlert")).toEqual([[expect.objectContaining({ message })]]);
});

test.each([
  [1, false],
  [2, true],
])("a chart of %i series has a legend: %s; it covers its cells and no more", async (count, has) => {
  const series = Array.from({ length: count }, () => ({ name: "Oil", values: cells }));
  const over = { row: 4, column: 1, rows: 10, columns: 3 };
  const chart = { kind: "bars" as const, title: "Oil", unit: "g", labels: cells, over, series };
  await new ExcelWorkbook().drawAt(at, { ...nothing, charts: [chart] });
  expect(argumentsOf("visible")).toEqual([[has]]);
  expect(JSON.stringify(argumentsOf("setPosition"))).toBe('[["B5:B5","D14:D14"]]');
});

test("of a set that is refused, no sheet stays", async () => {
  let activated = 0;
  excel.refuses = ({ name }) => (name === "activate" && activated++ === 0 ? "no" : undefined);
  const sheets = ["Materials", "Recipes", "Sizes"].map((name) => ({ name, drawing: nothing }));
  await expect(new ExcelWorkbook().drawOnNewSheets(sheets)).rejects.toThrow("Nothing was inserted");
  expect(activated).toBe(1);
  expect(excel.sheets.map(({ name }) => name)).toEqual(["Sheet1"]);
});

test("a cell that another formula spills into is filled", async () => {
  excel.sheet("Sheet1").cells.set("2,1", {
    ...{ value: 6, formula: "", spilledFrom: { row: 0, column: 1 } },
  });
  expect(await new ExcelWorkbook().firstFilled(at, 3, 2)).toBe("B3");
});

test("what fails by itself, and not in Excel, is not tried a second time", async () => {
  excel.install("1.20");
  let tries = 0;
  const failing = write(async () => {
    tries++;
    throw new Error("ours");
  });
  await expect(failing).rejects.toThrow("ours");
  expect(tries).toBe(1);
});
