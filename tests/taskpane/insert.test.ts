import { describe, expect, test } from "vitest";
import { Refused, insertFormula, insertTemplate } from "../../taskpane/insert";
import { drawingOf } from "../../taskpane/template";
import { templates } from "../../taskpane/templates/index";
import { freeName } from "../../taskpane/workbook";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";

const [baseComparison, sizeRun] = templates;
const onNewSheet = { where: "new sheet", filled: true } as const;
const atSelection = { where: "selection", filled: true } as const;

function select(model: ReturnType<typeof newModel>, name: string) {
  const { col, row } = globalThis.o_spreadsheet.helpers.toCartesian(name);
  model.selection.selectCell(col, row);
}

/** Everything of the workbook that a person could miss. */
function contents(model: ReturnType<typeof newModel>) {
  return JSON.stringify(model.exportData().sheets);
}

describe("Base comparison on a new sheet", () => {
  test("three unlike packs come to one landed cost", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    expect(await insertTemplate(workbook, baseComparison, onNewSheet)).toBe(
      'Base comparison is on the new sheet "Base comparison".',
    );
    // By hand: (46 + 14.5) / (128 x 0.98); (39 + 12.75) over 8 lb at 0.93 g/mL; (61 + 22) over 5 L.
    const floz = 29.5735295625;
    expect(read(model, "I8")).toBeCloseTo(60.5 / (128 * 0.98), 12);
    expect(read(model, "I9")).toBeCloseTo(51.75 / (((8 * 453.59237) / 0.93 / floz) * 0.98), 12);
    expect(read(model, "I10")).toBeCloseTo(83 / ((5000 / floz) * 0.98), 12);
    expect(["I11", "J11", "I13"].map((name) => read(model, name))).toEqual(["", "", ""]);
    expect(read(model, "B15")).toBe("Bluepost Soft");
    expect(read(model, "C15")).toBe("from Bluepost Chandlery, among 3 priced lines");
    expect(read(model, "J9")).toBe(1);
  });

  test("a changed price changes the answer; a missing density is loud and left out", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), baseComparison, onNewSheet);
    write(model, "C8", "20");
    expect(read(model, "B15")).toBe("Alder Clear");
    write(model, "F9", "");
    expect(read(model, "I9")).toBe(
      "#VALUE! density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
    );
    expect(read(model, "B16")).toBe(1);
    expect(read(model, "C16")).toMatch(/^Left out of the comparison/);
    expect(read(model, "C15")).toBe("from Alder Row, among 2 priced lines");
    write(model, "C10", "");
    expect(read(model, "I10")).toBe("#VALUE! price is blank or zero");
  });

  test("inserted empty it waits, and shows no error", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), baseComparison, {
      ...onNewSheet,
      filled: false,
    });
    expect(["I8", "J8", "B15", "C15", "B16"].map((name) => read(model, name))).toEqual([
      "",
      "",
      "",
      "No line is filled yet.",
      0,
    ]);
  });

  test("a second one gets a name of its own", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    await insertTemplate(workbook, baseComparison, onNewSheet);
    await insertTemplate(workbook, baseComparison, onNewSheet);
    const { getters } = model;
    expect(getters.getSheetIds().map((id) => getters.getSheetName(id))).toEqual([
      "Sheet1",
      "Base comparison",
      "Base comparison 2",
    ]);
    expect(freeName("x".repeat(31), ["x".repeat(31)])).toHaveLength(31);
  });

  test("is one step to undo", async () => {
    const model = newModel();
    write(model, "A1", "mine");
    const before = contents(model);
    await insertTemplate(new LocalWorkbook(model), baseComparison, onNewSheet);
    model.dispatch("REQUEST_UNDO");
    expect(contents(model)).toBe(before);
  });
});

describe("Size run", () => {
  test("every column is weighed out to its bottles", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), sizeRun, onNewSheet);
    // By hand: 2 fl oz x 29.5735295625 mL x 0.87 g/mL x 1.02, 12 bottles, 95 % base.
    const fill = 2 * 29.5735295625 * 0.87 * 1.02;
    expect(read(model, "D15")).toBeCloseTo(fill, 10);
    expect(read(model, "D19")).toBeCloseTo(0.95 * 12 * fill, 9);
    expect(read(model, "D20")).toBeCloseTo(0.04 * 12 * fill, 9);
    expect(read(model, "D23")).toBeCloseTo(12 * fill, 9);
    expect(read(model, "G19")).toBeCloseTo(0.95 * 6 * 8 * fill, 9);
    expect(read(model, "D30")).toBeCloseTo(0.01 * fill, 10);
    expect(read(model, "I19")).toBeCloseTo((read(model, "H19") as number) / 28.349523125, 9);
    expect(["D24", "E24", "F24", "G24"].map((name) => read(model, name))).toEqual([
      "yes",
      "yes",
      "yes",
      "yes",
    ]);
  });

  test("loads of the base are told apart from loads of the finished batch", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), sizeRun, onNewSheet);
    write(model, "B7", "base");
    // By hand: 4 g and 1 g of oil on 100 g of base are 4/105 and 1/105 of the batch.
    expect(read(model, "C20")).toBeCloseTo(4 / 105, 12);
    expect(read(model, "C21")).toBeCloseTo(1 / 105, 12);
    expect(read(model, "C19")).toBeCloseTo(100 / 105, 12);
    expect(read(model, "C7")).toBe("the base alone");
  });

  test("fewer sizes and one oil leave no error; a coarse scale says no", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), sizeRun, onNewSheet);
    for (const name of ["F13", "F14", "G13", "G14", "B21"]) write(model, name, "");
    expect(["F15", "F18", "F23", "F24", "G28", "C21"].map((name) => read(model, name))).toEqual([
      "",
      "",
      0,
      "",
      "",
      0,
    ]);
    expect(read(model, "D19")).toBeGreaterThan(0);
    write(model, "B10", "5");
    expect(read(model, "D24")).toBe("no: too little");
  });

  test("inserted empty it waits, and shows no error", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), sizeRun, { ...onNewSheet, filled: false });
    const { rows, columns } = drawingOf(sizeRun, false);
    const sheetId = model.getters.getActiveSheetId();
    for (let row = 0; row < rows; row++) {
      for (let col = 0; col < columns; col++) {
        const cell = model.getters.getEvaluatedCell({ sheetId, row, col });
        expect(cell.type, `row ${row + 1}, column ${col + 1}`).not.toBe("error");
      }
    }
  });
});

describe("at the selection", () => {
  test.each(templates)("$title works wherever it stands", async (template) => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    select(model, "D7");
    expect(await insertTemplate(workbook, template, atSelection)).toMatch(
      / is at D7:\w+ of "Sheet1"\.$/,
    );
    const there = newModel();
    await insertTemplate(new LocalWorkbook(there), template, onNewSheet);
    for (const { row, column } of drawingOf(template, true).cells) {
      const here = model.getters.getEvaluatedCell({
        sheetId: "Sheet1",
        row: row + 6,
        col: column + 3,
      });
      const sheetId = there.getters.getActiveSheetId();
      expect(here.value).toEqual(
        there.getters.getEvaluatedCell({ sheetId, row, col: column }).value,
      );
    }
  });

  test("refuses and names the first filled cell, row by row; nothing is changed", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    write(model, "C12", "mine");
    write(model, "E9", "mine too");
    select(model, "B2");
    const before = contents(model);
    await expect(insertTemplate(workbook, baseComparison, atSelection)).rejects.toThrow(
      new Refused("Nothing was inserted: Base comparison needs B2:O17 empty, and E9 is filled."),
    );
    expect(contents(model)).toBe(before);
  });

  test("a formula that shows nothing, and a cell that is spilled into, are filled", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    write(model, "C3", '=""');
    await expect(insertTemplate(workbook, sizeRun, atSelection)).rejects.toThrow(
      "and C3 is filled",
    );
    write(model, "C3", "");
    write(model, "K1", "=MIST.OILFOR({60;120},5%)");
    select(model, "K2");
    await expect(insertFormula(workbook, "=1+1", { rows: 1, columns: 1 })).rejects.toThrow(
      "and K2 is filled",
    );
  });

  test("goes again where one was emptied, over the paint that it left", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    await insertTemplate(workbook, baseComparison, atSelection);
    const sheetId = model.getters.getActiveSheetId();
    const target = [{ top: 0, left: 0, bottom: 20, right: 15 }];
    model.dispatch("DELETE_CONTENT", { sheetId, target });
    await insertTemplate(workbook, baseComparison, atSelection);
    expect(read(model, "B15")).toBe("Bluepost Soft");
  });

  test("only cells in the way are in the way", async () => {
    const model = newModel();
    write(model, "A1", "mine");
    select(model, "A2");
    await insertTemplate(new LocalWorkbook(model), baseComparison, atSelection);
    expect(read(model, "A1")).toBe("mine");
    expect(read(model, "A2")).toBe("Base comparison");
  });

  test("near the edge the sheet grows", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Small", colNumber: 5, rowNumber: 5 }] });
    select(model, "C3");
    await insertTemplate(new LocalWorkbook(model), baseComparison, atSelection);
    expect(read(model, "K10")).toBeCloseTo(60.5 / (128 * 0.98), 12);
  });
});

describe("an insert that the sheet refuses", () => {
  test("leaves the workbook as it was", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    write(model, "A30", "mine");
    const drawing = drawingOf(baseComparison, true);
    const before = contents(model);
    // A cell above the sheet, which the engine refuses after it has taken all the others.
    drawing.cells.push({ row: -1, column: 0, content: "nowhere" });
    await expect(workbook.drawOnNewSheet("Base comparison", drawing)).rejects.toThrow(
      "Nothing was inserted",
    );
    expect(contents(model)).toBe(before);
    await expect(workbook.drawAt({ sheet: "Sheet1", row: 0, column: 0 }, drawing)).rejects.toThrow(
      "Nothing was inserted",
    );
    expect(contents(model)).toBe(before);
  });
});

describe("a function's example in a cell", () => {
  test("is put where there is room for its answer", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    select(model, "B2");
    expect(
      await insertFormula(workbook, "=MIST.SETRIGHT(4, 57, 5%)", { rows: 1, columns: 2 }),
    ).toBe('=MIST.SETRIGHT(4, 57, 5%) is in B2 of "Sheet1".');
    expect([read(model, "B2"), read(model, "C2")]).toEqual([0, 19]);
    select(model, "A2");
    await expect(
      insertFormula(workbook, "=MIST.SETRIGHT(4, 57, 5%)", { rows: 1, columns: 2 }),
    ).rejects.toThrow("Nothing was inserted: the answer fills A2:B2, and B2 is filled.");
  });
});
