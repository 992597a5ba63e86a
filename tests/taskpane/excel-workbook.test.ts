import { beforeEach, describe, expect, test } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { insertExample, insertTemplate } from "../../taskpane/sheets/insert";
import { MARK_PAINT, PAINT } from "../../taskpane/sheets/looks";
import { type Drawing, areaOf, drawingOf } from "../../taskpane/sheets/drawing";
import { placesOf } from "../../taskpane/sheets/lay";
import { templates } from "../../taskpane/templates/index";
import { cellName } from "../../functions/formula/addresses";
import { FakeExcel, isChange } from "./fake-excel";

const baseComparison = templates.find(
  ({ title }) => title === "Base comparison",
) as (typeof templates)[0];
const drawn = drawingOf(baseComparison, true);
/** The cell of a column in the first line of the packs, as the small Excel names it. */
const packsAt = (name: string, moved = 0) => {
  const { row, column } = placesOf(baseComparison.parts).get(`packs.${name}`) ?? {
    row: -1,
    column: -1,
  };
  return `${row + moved},${column + moved}`;
};
const formulaAt = (key: string) => {
  const [row, column] = key.split(",").map(Number);
  return drawn.cells.find((cell) => cell.row === row && cell.column === column)?.content;
};
let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
});

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
    expect(sheet.cells.get(packsAt("floz"))).toMatchObject({
      formula: formulaAt(packsAt("floz")),
      format: "0.000",
    });
    expect(sheet.cells.get(packsAt("price"))).toMatchObject({ formula: 46, fill: "#FFF4D6" });
    const ruled = sheet.rules.flatMap(({ over }) => over.split(","));
    expect(ruled).toHaveLength(drawn.rules.length);
    expect(sheet.widths.get(0)).toBeCloseTo((drawn.widths[0] ?? 0) * 0.75);
    expect(excel.activated).toBe("Base comparison");
    expect(sheet.charts.size).toBe(1);
    // A zero, as which the blank text of a formula is drawn, has no number: the third part of a format is empty.
    expect(sheet.labels).toEqual(["0.000;-0.000;"]);
  });

  test("a list that stands in cells is told by those cells, and moves with them", async () => {
    const from = { row: 4, column: 0, rows: 2, columns: 1 };
    const rules = [{ row: 0, column: 0, rows: 2, columns: 1, from }];
    const drawing: Drawing = { ...marked, rows: 6, marks: [], rules };
    await new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 1, column: 1 }, drawing);
    const [{ over, rule }] = excel.sheet("Sheet1").rules;
    expect([over, JSON.parse(rule)]).toEqual([
      "B2:B3",
      { list: { inCellDropDown: true, source: "B6:B7" } },
    ]);
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
        fill: MARK_PAINT.over.fill,
        ink: MARK_PAINT.over.ink,
        bold: true,
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
    const { row, column } = placesOf(baseComparison.parts).get("packs.landed") ?? {
      row: 0,
      column: 0,
    };
    // Its own line, a row down and a column to the right.
    const landed = cellName(row + 1, column + 1);
    expect(excel.sheet("Sheet1").cells.get(packsAt("floz", 1))?.formula).toContain(
      `MIST.FLOZCOST($${landed},`,
    );
  });

  test("a filled cell is named, and nothing is sent", async () => {
    excel.sheet("Sheet1").cells.set("4,3", { formula: "mine" });
    const before = excel.contents();
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
      where: "selection",
      filled: true,
    });
    await expect(insert).rejects.toThrow(
      `Nothing was inserted: Base comparison needs ${areaOf(drawn, 1, 1)} empty, and D5 is filled.`,
    );
    expect(excel.contents()).toEqual(before);
  });

  test("a rule on what may be typed is in the way too", async () => {
    const theirs = { over: "B2:B2", rule: "theirs" };
    excel.sheet("Sheet1").rules.push(theirs);
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
      where: "selection",
      filled: true,
    });
    await expect(insert).rejects.toThrow("already have a rule");
    expect(excel.sheet("Sheet1").rules).toEqual([theirs]);
  });

  test.each([0, 1, 2, 10, 20])(
    "refused after %i steps, a new sheet is removed again",
    async (steps) => {
      const before = excel.contents();
      excel.failAfter = steps;
      const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
        where: "new sheet",
        filled: true,
      });
      await expect(insert).rejects.toThrow(
        "Nothing was inserted: Excel refused it (the range is locked)",
      );
      expect(excel.contents()).toEqual(before);
    },
  );

  test.each([0, 1, 2, 10, 20])(
    "refused after %i steps at a selection, text, rules, fills and widths are put back",
    async (steps) => {
      const { cells, widths } = excel.sheet("Sheet1");
      cells.set("2,2", { fill: "#ABCDEF", format: "0.0" });
      cells.set("40,2", { formula: "mine" });
      for (let column = 1; column <= drawn.columns; column++) widths.set(column, 50);
      const before = structuredClone(excel.contents());
      excel.failAfter = steps;
      const insert = insertTemplate(new ExcelWorkbook(), baseComparison, {
        where: "selection",
        filled: true,
      });
      await expect(insert).rejects.toThrow("Excel refused it");
      expect(excel.contents()).toEqual(before);
    },
  );

  test("a formula goes into the selected cell", async () => {
    await insertExample(new ExcelWorkbook(), "=MIST.OILFOR(60, 5%)", { rows: 1, columns: 1 });
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

  test.each(templates)("$title takes few orders, sent at once", async (template) => {
    await insertTemplate(new ExcelWorkbook(), template, { where: "new sheet", filled: true });
    const changing = excel.requests.filter((orders) => orders.some(isChange));
    expect(changing).toHaveLength(1);
    const [drawn] = changing;
    expect(drawn.length).toBeLessThan(400);
    const changes = drawn.filter(isChange);
    expect(changes.length).toBeLessThan(120);
    expect(drawn.map(({ name }) => name)).toContain("suspendApiCalculationUntilNextSync");
    // The client itself parts what has more than 1,500 cells.
    const { rows, columns, lists = [] } = drawingOf(template, true);
    const blocks = Math.ceil((rows * columns) / 1000);
    // A list that grows has the formulas of its columns entered once more, as the columns' own.
    const own = lists.reduce((sum, list) => sum + list.columns, 0);
    expect(changes.filter(({ name }) => name === "formulas").length - own).toBeLessThanOrEqual(
      blocks,
    );
    const sheet = excel.sheet(template.title);
    for (const { row, column, content, format } of drawingOf(template, true).cells) {
      const cell = sheet.cells.get(`${row},${column}`);
      expect(cell?.formula).toBe(content ?? undefined);
      expect(cell?.format).toBe(format);
    }
    // Excel takes an address of 8,192 characters.
    for (const { name, args } of drawn)
      if (name === "getRanges") expect(String(args[0]).length).toBeLessThan(8192);
  });

  test.each(templates)("$title is painted cell by cell as its looks say", async (template) => {
    await insertTemplate(new ExcelWorkbook(), template, { where: "new sheet", filled: true });
    const { cells } = excel.sheet(template.title);
    const drawing = drawingOf(template, true);
    for (const { row, column, look } of drawing.cells)
      expect(cells.get(`${row},${column}`)?.fill).toBe(PAINT[look ?? "note"].fill);
    const filled = [...cells.values()].filter(({ fill }) => fill !== undefined).length;
    expect(filled).toBe(drawing.cells.filter(({ look }) => PAINT[look ?? "note"].fill).length);
  });

  test("what can neither be drawn nor put back is told so", async () => {
    excel.refuses = ({ name }) => (name === "autofitRows" || name === "delete" ? "no" : undefined);
    const options = { where: "new sheet", filled: true } as const;
    await expect(insertTemplate(new ExcelWorkbook(), baseComparison, options)).rejects.toThrow(
      'Excel refused it halfway (no), and the sheet "Base comparison" could not be taken away again: delete it.',
    );
  });
});

describe("steps of undo", () => {
  const insert = () =>
    insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });

  test("changes are one step, and looking is none", async () => {
    excel.install("1.20");
    await new ExcelWorkbook().selection();
    await new ExcelWorkbook().content({ sheet: "Sheet1", row: 0, column: 0 });
    await new ExcelWorkbook().formulas();
    expect(excel.runs.map(({ mergeUndoGroup }) => mergeUndoGroup)).not.toContain(true);
    excel.runs.length = 0;
    await insert();
    expect(excel.runs.at(-1)).toEqual({ mergeUndoGroup: true });
  });

  test("an Excel that cannot do it is not asked for it", async () => {
    await insert();
    expect(excel.runs.map(({ mergeUndoGroup }) => mergeUndoGroup)).not.toContain(true);
  });

  test("where Excel refuses it, the insert is made without, and once", async () => {
    excel.install("1.20");
    excel.refusesUndo = true;
    await insert();
    // The whole sheet is asked for twice, and its first cell has the title.
    const whole = excel.changesAsked.filter(
      ({ name, args }) => name === "formulas" && JSON.stringify(args).includes('"Base comparison"'),
    );
    expect(whole).toHaveLength(2);
    expect(excel.runs.at(-1)).toEqual({});
    expect(excel.sheet("Sheet1").charts.size).toBe(1);
    expect(excel.sheet("Sheet1").cells.get(packsAt("floz", 1))?.formula).toContain("MIST.FLOZCOST");
  });
});
