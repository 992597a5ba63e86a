import { beforeEach, describe, expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { insertFormula, insertTemplate } from "../../taskpane/sheets/insert";
import { MARK_PAINT } from "../../taskpane/sheets/looks";
import { type Drawing, areaOf, drawingOf } from "../../taskpane/sheets/template";
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
  return excel.sheets.map(({ name, cells, rules, widths, charts, marks }) => ({
    name,
    rules,
    marks,
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

  test("a list that stands in cells is told by those cells, and moves with them", async () => {
    const limits = templates.find(({ title }) => title === "Limits check") as (typeof templates)[0];
    const { rules } = drawingOf(limits, true);
    const from = rules.find((rule) => rule.from)?.from;
    if (!from) throw new Error("no list stands in cells");
    await insertTemplate(new ExcelWorkbook(), limits, { where: "new sheet", filled: true });
    const list = (down: number) => ({
      list: { inCellDropDown: true, source: areaOf(from, from.row + down, from.column + down) },
    });
    expect(excel.sheet("Limits check").rules).toContain(JSON.stringify(list(0)));
    await insertTemplate(new ExcelWorkbook(), limits, { where: "selection", filled: true });
    expect(excel.sheet("Sheet1").rules).toContain(JSON.stringify(list(1)));
  });

  const marked: Drawing = {
    rows: 3,
    columns: 1,
    cells: [{ row: 0, column: 0, content: "Over the limit" }],
    rules: [],
    marks: [{ row: 0, column: 0, rows: 3, columns: 1, begins: "Over", mark: "over" }],
    charts: [],
    widths: [100],
  };

  test("marks go over their cells, as text that begins with their words", async () => {
    await new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 4, column: 2 }, marked);
    expect(excel.sheet("Sheet1").marks).toEqual([
      {
        id: expect.any(String),
        over: "C5:C7",
        rule: { operator: "BeginsWith", text: "Over" },
        ...MARK_PAINT.over,
      },
    ]);
  });

  test.each([1, 2, 4, 6])(
    "refused after %i steps, marks that were there stay and ours go",
    async (steps) => {
      const theirs = { id: "theirs", over: "C5:D9" };
      excel.sheet("Sheet1").marks.push(theirs);
      excel.failAfter = steps;
      const draw = new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 4, column: 2 }, marked);
      await expect(draw).rejects.toThrow("Excel refused it");
      expect(excel.sheet("Sheet1").marks).toEqual([theirs]);
    },
  );

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
