/** Lists that grow, in the engine: every line is counted, whatever a person does to the list. */
import { describe, expect, test } from "vitest";
import type { Model } from "../../localsheet/engine";
import { MARK_PAINT, PAINT } from "../../taskpane/sheets/looks";
import { growing } from "../taskpane/growing-list";
import { LocalWorkbook, newModel, read, write } from "./load-engine";

async function drawn() {
  const model = newModel();
  await new LocalWorkbook(model).drawOnNewSheet("Offers", growing);
  return model;
}

const sheetOf = (model: Model) => model.getters.getActiveSheetId();

function order(model: Model, type: string, rest: object) {
  const { getters } = model;
  const sheetName = getters.getSheetName(sheetOf(model));
  const command = { type, sheetId: sheetOf(model), sheetName, ...rest };
  return model.dispatch(type as never, command as never);
}

/** How many lines are counted, and the sum of what is worked out in them. */
const counted = (model: Model) => [read(model, "B2"), Number(Number(read(model, "C2")).toFixed(4))];

/** All that undo must bring back. */
const state = (model: Model) =>
  JSON.stringify(model.exportData()).replace(/"revisionId":"[^"]*"/, "");

const at = (model: Model, name: string) => {
  return { sheetId: sheetOf(model), ...globalThis.o_spreadsheet.helpers.toCartesian(name) };
};

const formula = (model: Model, name: string) =>
  model.getters.getCellText(at(model, name), { showFormula: true });

const insertRows = (model: Model, row: number, position: string, quantity = 1) =>
  order(model, "ADD_COLUMNS_ROWS", { dimension: "ROW", base: row - 1, position, quantity });

/** By hand: 46 x 0.05 + 39 x 0.06 + 52 x 0.04 = 2.3 + 2.34 + 2.08. */
const BEFORE = [3, 6.72];

/** Does it, looks at the count, takes it back, does it again. */
async function stepAndBack(step: (model: Model) => void, then: readonly unknown[], steps = 1) {
  const model = await drawn();
  expect(counted(model)).toEqual(BEFORE);
  const before = state(model);
  step(model);
  const after = state(model);
  expect(counted(model)).toEqual(then);
  for (let i = 0; i < steps; i++) model.dispatch("REQUEST_UNDO");
  expect(state(model)).toBe(before);
  for (let i = 0; i < steps; i++) model.dispatch("REQUEST_REDO");
  expect(state(model)).toBe(after);
  return model;
}

describe("a line typed under the last", () => {
  test("has formulas, looks, formats, rules and marks", async () => {
    const model = await stepAndBack(
      (model) => {
        write(model, "A8", "Alder Soft");
        write(model, "B8", "60");
        write(model, "C8", "10%");
      },
      // By hand: 6 more.
      [4, 12.72],
      3,
    );
    expect(formula(model, "D8")).toBe('=IF(B8="","",B8*C8)');
    const cell = (name: string) => model.getters.getCell(at(model, name));
    expect(cell("D8")?.style?.fillColor).toBe(PAINT.result.fill);
    expect(cell("E8")?.style?.fillColor).toBe(PAINT.input.fill);
    expect(cell("C8")?.format).toBe("0.0%");
    write(model, "C8", "5");
    expect(model.getters.isDataValidationInvalid(at(model, "C8"))).toBe(true);
    write(model, "A8", "Over it");
    const mark = model.getters.getCellConditionalFormatStyle(at(model, "A8"));
    expect(mark?.fillColor).toBe(MARK_PAINT.over.fill);
  });

  test("is read as in the list: its formats and rules stand there before it is typed", async () => {
    const model = await drawn();
    expect(model.getters.getCell(at(model, "C8"))?.format).toBe("0.0%");
    expect(model.getters.getValidationRuleForCell(at(model, "E8"))?.criterion.type).toBe(
      "isValueInList",
    );
    write(model, "A8", "Alder Soft");
    expect(model.getters.getCell(at(model, "C9"))?.format).toBe("0.0%");
  });

  test("is a line of a formula's column too where a formula nearby was typed over", async () => {
    const model = await drawn();
    write(model, "D7", "2");
    write(model, "A8", "Alder Soft");
    expect(formula(model, "D8")).toBe('=IF(B8="","",B8*C8)');
  });

  test("has no formula where a person typed one into a cell of their own", async () => {
    const model = await drawn();
    write(model, "B7", "=2*26");
    write(model, "A8", "Alder Soft");
    expect(formula(model, "B8")).toBe("");
  });

  test("two rows further down is no line of the list", async () => {
    const model = await drawn();
    write(model, "A9", "a remark");
    expect(formula(model, "D9")).toBe("");
  });

  test("finds rows below, however long the list is", async () => {
    const model = await drawn();
    const lines = Array.from({ length: 300 }, (_, i) => i);
    for (const i of lines) write(model, `B${8 + i}`, "10");
    expect(model.getters.getNumberRows(sheetOf(model))).toBeGreaterThan(8 + 300);
    expect(counted(model)[0]).toBe(303);
  });
});

const paste = (model: Model, text: string, name: string) => {
  const { col, row } = at(model, name);
  const target = [{ left: col, right: col, top: row, bottom: row }];
  return order(model, "PASTE_FROM_OS_CLIPBOARD", { target, clipboardContent: { text } });
};

describe("lines that are pasted", () => {
  const lines = (count: number) =>
    Array.from({ length: count }, (_, i) => `Offer ${i}\t100\t0.01`).join("\n");

  test("below the last, 200 at once, are all counted", async () => {
    // By hand: 200 lines of 1.
    const model = await stepAndBack((model) => paste(model, lines(200), "A8"), [203, 206.72]);
    expect(formula(model, "D207")).toBe('=IF(B207="","",B207*C207)');
    expect(model.getters.getCell(at(model, "C207"))?.format).toBe("0.0%");
    expect(model.getters.getValidationRuleForCell(at(model, "C207"))).toBeDefined();
  });

  test("over the last and below it keep the lines that were there in the count", async () => {
    // By hand: 2.3 + 2.34 and 3 of 1.
    await stepAndBack((model) => paste(model, lines(3), "A7"), [5, 7.64]);
  });

  test("with what they have for a formula's column keep it", async () => {
    const model = await drawn();
    paste(model, "Offer\t100\t0.01\t7", "A8");
    expect(read(model, "D8")).toBe(7);
  });
});

describe("rows", () => {
  test.each([
    ["within the list", 6, "before", "D6", [3, 6.72]],
    ["below its last line", 7, "after", "D8", [3, 6.72]],
  ] as const)("inserted %s have the line's formulas", async (_, row, position, cell, then) => {
    const model = await stepAndBack((model) => insertRows(model, row, position), then);
    const name = cell.slice(1);
    expect(formula(model, cell)).toBe(`=IF(B${name}="","",B${name}*C${name})`);
    write(model, `B${name}`, "100");
    write(model, `C${name}`, "1%");
    expect(counted(model)).toEqual([4, 7.72]);
    expect(model.getters.getCell(at(model, `E${name}`))?.style?.fillColor).toBe(PAINT.input.fill);
  });

  test("three inserted at once are three lines", async () => {
    const model = await stepAndBack((model) => insertRows(model, 6, "before", 3), BEFORE);
    expect([6, 7, 8, 9].map((row) => formula(model, `D${row}`))).toEqual(
      [6, 7, 8, 9].map((row) => `=IF(B${row}="","",B${row}*C${row})`),
    );
  });

  test("inserted above the list leave it as it is", async () => {
    const model = await stepAndBack((model) => insertRows(model, 3, "before"), BEFORE);
    expect(formula(model, "D6")).toBe('=IF(B6="","",B6*C6)');
    expect(formula(model, "D5")).toBe("Oil, $");
  });

  test.each([
    ["the first", [4], [2, 4.42]],
    ["one within", [5], [2, 4.38]],
    ["the last", [6], [2, 4.64]],
  ])("deleted, %s, are counted no more", async (_, elements, then) => {
    await stepAndBack(
      (model) => order(model, "REMOVE_COLUMNS_ROWS", { dimension: "ROW", elements }),
      then,
    );
  });

  test("deleted and typed again are counted", async () => {
    const model = await drawn();
    order(model, "REMOVE_COLUMNS_ROWS", { dimension: "ROW", elements: [6] });
    write(model, "B7", "100");
    write(model, "C7", "1%");
    // By hand: 2.3 + 2.34 + 1.
    expect(counted(model)).toEqual([3, 5.64]);
  });
});

describe("sorting and filtering", () => {
  const zone = { top: 4, bottom: 6, left: 0, right: 4 };

  test("lines that are sorted keep their formulas and their count", async () => {
    const model = await stepAndBack(
      (model) => order(model, "SORT_CELLS", { col: 1, row: 4, zone, sortDirection: "asc" }),
      BEFORE,
    );
    expect([5, 6, 7].map((row) => read(model, `B${row}`))).toEqual([39, 46, 52]);
    expect([5, 6, 7].map((row) => formula(model, `D${row}`))).toEqual(
      [5, 6, 7].map((row) => `=IF(B${row}="","",B${row}*C${row})`),
    );
  });

  test("lines that a filter hides are counted", async () => {
    const model = await drawn();
    const value = { filterType: "values", hiddenValues: ["Drovers Dry"] };
    expect(order(model, "UPDATE_FILTER", { col: 0, row: 4, value }).isSuccessful).toBe(true);
    expect(model.getters.isRowHidden(sheetOf(model), 6)).toBe(true);
    expect(counted(model)).toEqual(BEFORE);
    write(model, "B8", "100");
    write(model, "C8", "1%");
    expect(counted(model)).toEqual([4, 7.72]);
  });
});
