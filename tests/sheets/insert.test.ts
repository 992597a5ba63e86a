import { describe, expect, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { Refused, insertExample, insertTemplate } from "../../taskpane/sheets/insert";
import { areaOf, drawingOf } from "../../taskpane/sheets/drawing";
import { placesOf } from "../../taskpane/sheets/lay";
import { templates } from "../../taskpane/templates/index";
import { freeName } from "../../functions/formula/sheet-names";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";

const titled = (title: string) =>
  templates.find((each) => each.title === title) as (typeof templates)[0];
const baseComparison = titled("Base comparison");
/** Where something of Base comparison stands, drawn so many rows down and columns to the right. */
const cellAt = (name: string, moved = 0) => {
  const place = placesOf(baseComparison.parts).get(name);
  return cellName((place?.row ?? -1) + moved, (place?.column ?? -1) + moved);
};
const sizeRun = titled("Size run");
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

describe("on a new sheet", () => {
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

describe("Trial batch", () => {
  test("weights, drops, spans and what the scale can do", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), titled("Trial batch"), onNewSheet);
    const all = (names: string) => names.split(" ").map((name) => read(model, name));
    const close = (values: number[]) => values.map((value) => expect.closeTo(value, 9));
    expect(all("B20 C20 D20 B21 C21 D21")).toEqual(close([0.6, 1, 1.6, 19.4, 19, 18.4]));
    // By hand: 50 drops of 1.62 g at 0.94 g/mL; half a step of 0.1 g either way; 0.1 / 5 % / load.
    expect(read(model, "D22")).toBeCloseTo((1.6 / 0.94) * ((50 * 0.94) / 1.62), 9);
    expect(all("B23 B24 D23 D24")).toEqual(close([0.55 / 20, 0.65 / 20, 1.55 / 20, 1.65 / 20]));
    expect(all("B25 C25 D25")).toEqual(close([2 / 0.03, 40, 25]));
    expect(all("B26 C26 D26")).toEqual(["no: pour more", "no: pour more", "no: pour more"]);
    // By hand: 1.1 g of oil in 20.1 g; 1.9 g of base brings it to 5 %.
    expect(read(model, "C31")).toBeCloseTo(1.1 / 20.1, 12);
    expect(all("C32 C33")).toEqual(close([0, 1.9]));
    write(model, "B11", "0.01");
    expect(all("B26 C26 D26")).toEqual(["yes", "yes", "yes"]);
  });

  test("in ounces, where the scale is too coarse, says so and what to do", async () => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), titled("Trial batch"), onNewSheet);
    for (const [name, content] of Object.entries({ B10: "2", B17: "oz", B19: "5%" }))
      write(model, name, content);
    // By hand: 0.1 oz of oil, half a step of 0.1 oz either way, in 2 oz.
    expect(read(model, "B36")).toBe("2.5% to 7.5%");
    // By hand: 0.1 oz at 5 % of error is 0.005 oz; 0.1 / 5 % / 5 % is 40 oz.
    expect(read(model, "B37")).toBeCloseTo(0.005, 12);
    expect(read(model, "B38")).toBeCloseTo(40, 9);
    // By hand: 28.349523125 g x 0.1 at 1.62 g for 50 drops, 87.4985. As ounces they would be 3.
    expect(Math.round(Number(read(model, "B39")))).toBe(87);
    // By hand: 1 oz of oil in 9 oz of base; 1 oz of that and 1 oz of base; 5 % x 0.95^2 and x 1.05^2.
    const close = [1, 9, 1, 1].map((value) => expect.closeTo(value, 9));
    expect(["B40", "B41", "B42", "B43"].map((name) => read(model, name))).toEqual(close);
    expect(read(model, "B44")).toBe("4.5% to 5.5%");
    write(model, "B11", "0.005");
    expect(["B36", "B40", "B44"].map((name) => read(model, name))).toEqual(["", "", ""]);
  });
});

test.each(templates)(
  "$title inserted empty shows no error, and its charts are there",
  async (template) => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), template, { ...onNewSheet, filled: false });
    const { rows, columns, charts } = drawingOf(template, false);
    const sheetId = model.getters.getActiveSheetId();
    for (let row = 0; row < rows; row++) {
      for (let col = 0; col < columns; col++) {
        const cell = model.getters.getEvaluatedCell({ sheetId, row, col });
        expect(cell.type, cellName(row, col)).not.toBe("error");
      }
    }
    expect(model.getters.getChartIds(sheetId)).toHaveLength(charts.length);
  },
);

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
      new Refused(
        `Nothing was inserted: Base comparison needs ${areaOf(drawingOf(baseComparison, true), 1, 1)} empty, and E9 is filled.`,
      ),
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
    await expect(insertExample(workbook, "=1+1", { rows: 1, columns: 1 })).rejects.toThrow(
      "and K2 is filled",
    );
  });

  test("goes again where one was emptied, over the paint that it left", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    await insertTemplate(workbook, baseComparison, atSelection);
    const sheetId = model.getters.getActiveSheetId();
    const { rows, columns } = drawingOf(baseComparison, true);
    const target = [{ top: 0, left: 0, bottom: rows - 1, right: columns - 1 }];
    model.dispatch("DELETE_CONTENT", { sheetId, target });
    await insertTemplate(workbook, baseComparison, atSelection);
    expect(read(model, cellAt("best"))).toBe("Drovers Dry");
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
    // By hand: (46 + 14.5) / (128 x 0.98).
    expect(read(model, cellAt("packs.floz", 2))).toBeCloseTo(60.5 / (128 * 0.98), 12);
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
      await insertExample(workbook, "=MIST.SETRIGHT(4, 57, 5%)", { rows: 1, columns: 2 }),
    ).toBe('=MIST.SETRIGHT(4, 57, 5%) is in B2 of "Sheet1".');
    expect([read(model, "B2"), read(model, "C2")]).toEqual([0, 19]);
    expect(read(model, "D2")).toBe("an example: its numbers are not yours");
    select(model, "A2");
    await expect(
      insertExample(workbook, "=MIST.SETRIGHT(4, 57, 5%)", { rows: 1, columns: 2 }),
    ).rejects.toThrow(
      "Nothing was inserted: the example and the word beside it fill A2:C2, and B2 is filled.",
    );
  });
});
