import { beforeEach, describe, expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/excel-workbook";
import { insertFormula, insertTemplate } from "../../taskpane/insert";
import { type Drawing, drawingOf } from "../../taskpane/template";
import { templates } from "../../taskpane/templates/index";
import { FakeExcel } from "./fake-excel";

const baseComparison = templates.find(
  ({ title }) => title === "Base comparison",
) as (typeof templates)[0];
let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  vi.stubGlobal("Excel", { run: (_: unknown, batch: unknown) => excel.run((batch ?? _) as never) });
  vi.stubGlobal("Office", { context: { requirements: { isSetSupported: () => true } } });
});

/** What the workbook holds, without cells that were touched and emptied again. */
function contents() {
  return excel.sheets.map(({ name, cells, rules, widths, charts }) => ({
    name,
    rules,
    widths: [...widths],
    charts: [...charts],
    cells: [...cells].filter(
      ([, { formula, fill }]) => formula !== undefined || fill !== undefined,
    ),
  }));
}

describe("on Excel", () => {
  test("the selection is read only after it was loaded and synced", async () => {
    expect(await new ExcelWorkbook().selection()).toEqual({ sheet: "Sheet1", row: 1, column: 1 });
  });

  test("a template goes on a new sheet, with its rules, widths and paint, and the sheet is shown", async () => {
    const told = await insertTemplate(new ExcelWorkbook(), baseComparison, {
      where: "new sheet",
      filled: true,
    });
    expect(told).toBe('Base comparison is on the new sheet "Base comparison".');
    const sheet = excel.sheet("Base comparison");
    expect(sheet.cells.get("7,11")).toMatchObject({
      formula: "=MIST.FLOZCOST(K8,D8,E8,F8,0,J8)",
      format: "0.000",
    });
    expect(sheet.cells.get("7,2")).toMatchObject({ formula: 46, fill: "#FFF4D6" });
    expect(sheet.rules).toHaveLength(drawingOf(baseComparison, true).rules.length);
    expect(sheet.widths.get(0)).toBeCloseTo(132 * 0.75);
    expect(excel.activated).toBe("Base comparison");
    expect(sheet.charts.size).toBe(1);
  });

  test("a list of words keeps to the 255 characters that Excel takes", () => {
    for (const { rules } of templates.map((template) => drawingOf(template, true))) {
      for (const { words } of rules)
        expect((words ?? []).join(",").length).toBeLessThanOrEqual(255);
    }
  });

  test("at the selection the formulas move along", async () => {
    await insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
    expect(excel.sheet("Sheet1").cells.get("8,12")?.formula).toBe(
      "=MIST.FLOZCOST(L9,E9,F9,G9,0,K9)",
    );
  });

  test("a filled cell is named, and nothing is sent", async () => {
    excel.sheet("Sheet1").cells.set("4,3", { formula: "mine" });
    const before = contents();
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
      where: "selection",
      filled: true,
    });
    await expect(insert).rejects.toThrow(
      "Nothing was inserted: Base comparison needs B2:V32 empty, and D5 is filled.",
    );
    expect(contents()).toEqual(before);
  });

  test("a rule on what may be typed is in the way too", async () => {
    excel.sheet("Sheet1").rules.push("theirs");
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
      where: "selection",
      filled: true,
    });
    await expect(insert).rejects.toThrow("already have a rule");
    expect(excel.sheet("Sheet1").rules).toEqual(["theirs"]);
  });

  test.each([0, 1, 40, 150])(
    "refused after %i steps, a new sheet is removed again",
    async (steps) => {
      const before = contents();
      excel.failAfter = steps;
      const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
        where: "new sheet",
        filled: true,
      });
      await expect(insert).rejects.toThrow(
        "Nothing was inserted: Excel refused it (the range is locked)",
      );
      expect(contents()).toEqual(before);
    },
  );

  test.each([0, 1, 40, 150, 200])(
    "refused after %i steps at a selection, text, rules, fills and widths are put back",
    async (steps) => {
      const { cells, widths } = excel.sheet("Sheet1");
      cells.set("2,2", { fill: "#ABCDEF", format: "0.0" });
      cells.set("40,2", { formula: "mine" });
      for (let column = 1; column < 24; column++) widths.set(column, 50);
      const before = structuredClone(contents());
      excel.failAfter = steps;
      const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
        where: "selection",
        filled: true,
      });
      await expect(insert).rejects.toThrow("Excel refused it");
      expect(contents()).toEqual(before);
    },
  );

  test("a formula goes into the selected cell", async () => {
    await insertFormula(new ExcelWorkbook(), "=MIST.OILFOR(60, 5%)", { rows: 1, columns: 1 });
    expect(excel.sheet("Sheet1").cells.get("1,1")?.formula).toBe("=MIST.OILFOR(60, 5%)");
  });

  test("columns that are wider already stay so", async () => {
    excel.sheet("Sheet1").widths.set(1, 400);
    const drawing: Drawing = {
      rows: 1,
      columns: 1,
      cells: [],
      rules: [],
      marks: [],
      charts: [],
      widths: [100],
    };
    await new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 0, column: 1 }, drawing);
    expect(excel.sheet("Sheet1").widths.get(1)).toBe(400);
  });
});
