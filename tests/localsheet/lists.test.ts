/** Drop-downs whose words stand in cells, and marks by words: in the engine, and in a saved file. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { MARK_PAINT } from "../../taskpane/sheets/looks";
import type { Drawing } from "../../taskpane/sheets/drawing";
import { LocalWorkbook, newModel, read, toXlsx, write } from "./load-engine";

/** A cell to pick in at B3, its words in B8:B10, and a marked cell at C3. */
const drawing: Drawing = {
  rows: 8,
  columns: 2,
  cells: [
    { row: 0, column: 0, content: null, look: "input" },
    { row: 0, column: 1, content: '=IF(A1="","",IF(A1="here","Within it","Over it"))' },
    { row: 5, column: 0, content: "here" },
    { row: 6, column: 0, content: "there, too" },
    { row: 7, column: 0, content: null, look: "input" },
  ],
  rules: [
    { row: 0, column: 0, rows: 1, columns: 1, from: { row: 5, column: 0, rows: 3, columns: 1 } },
  ],
  marks: (["over", "within"] as const).map((mark) => {
    const begins = { over: "Over", within: "Within" }[mark];
    return { row: 0, column: 1, rows: 1, columns: 1, begins, mark };
  }),
  charts: [],
  widths: [],
};

async function drawn() {
  const model = newModel();
  await new LocalWorkbook(model).drawAt({ sheet: "Sheet1", row: 2, column: 1 }, drawing);
  const sheetId = model.getters.getActiveSheetId();
  const at = (cell: string) => ({ sheetId, ...globalThis.o_spreadsheet.helpers.toCartesian(cell) });
  const picked = (word: string, cell = "B3") => {
    write(model, cell, word);
    return !model.getters.isDataValidationInvalid(at(cell));
  };
  return { model, sheetId, at, picked };
}

describe("a drop-down whose words stand in cells", () => {
  test("takes those words only, one with a comma and one that is added among them", async () => {
    const { model, picked } = await drawn();
    expect(["here", "there, too", "elsewhere"].map((word) => picked(word))).toEqual([
      true,
      true,
      false,
    ]);
    write(model, "B10", "elsewhere");
    expect(picked("elsewhere")).toBe(true);
  });

  test.each([
    ["ROW", 0, "B5"],
    ["ROW", 4, "B3"],
    ["COL", 0, "C3"],
  ])("follows its words when a %s is added after %i", async (dimension, base, cell) => {
    const { model, sheetId, picked } = await drawn();
    const add = { type: "ADD_COLUMNS_ROWS", sheetId, sheetName: "Sheet1", dimension, base };
    model.dispatch(add.type as never, { ...add, quantity: 2, position: "after" } as never);
    const moved = dimension === "COL" ? "D3" : cell;
    expect(picked("here", moved)).toBe(true);
    expect(picked("elsewhere", moved)).toBe(false);
    model.dispatch("REQUEST_UNDO");
    model.dispatch("REQUEST_UNDO");
    model.dispatch("REQUEST_UNDO");
    expect(picked("here")).toBe(true);
  });

  test("whose words are taken out leaves its cell to be typed into", async () => {
    const { model, sheetId, picked } = await drawn();
    const elements = [7, 8, 9];
    model.dispatch("REMOVE_COLUMNS_ROWS", {
      ...{ sheetId, sheetName: "Sheet1", dimension: "ROW", elements },
    });
    expect(() => picked("anything")).not.toThrow();
    expect(read(model, "B3")).toBe("anything");
  });

  test("stands in a saved file with the address of its words", async () => {
    const { model } = await drawn();
    const sheet = strFromU8(unzipSync(await toXlsx(model))["xl/worksheets/sheet0.xml"]);
    const [, attributes, source] =
      /<dataValidation ([^>]*)>\s*<formula1>([^<]*)</.exec(sheet) ?? [];
    expect(attributes).toMatch(/sqref="B3".*type="list"|type="list".*sqref="B3"/);
    expect(source).toBe("$B$8:$B$10");
  });
});

describe("marks by words", () => {
  test("follow what the cell says", async () => {
    const { model, at, picked } = await drawn();
    const fill = () => model.getters.getCellConditionalFormatStyle(at("C3"))?.fillColor;
    expect(fill()).toBeUndefined();
    picked("here");
    expect(fill()).toBe(MARK_PAINT.within.fill);
    picked("there, too");
    expect(fill()).toBe(MARK_PAINT.over.fill);
  });

  test("stand in a saved file as rules on the text's beginning, with fill, ink and weight", async () => {
    const { model } = await drawn();
    const parts = unzipSync(await toXlsx(model));
    const sheet = strFromU8(parts["xl/worksheets/sheet0.xml"]);
    const [styles] =
      /<dxfs[\s\S]*<\/dxfs>/.exec(strFromU8(parts["xl/styles.xml"])) ?? ([""] as string[]);
    const dxfs = styles.split("<dxf>").slice(1);
    const rules = [
      ...sheet.matchAll(
        /<conditionalFormatting sqref="C3">\s*<cfRule ([^>]*)>\s*<formula>([^<]*)</g,
      ),
    ];
    const found = rules.map(([, attributes, formula]) => {
      const of = (name: string) => new RegExp(`${name}="([^"]*)"`).exec(attributes)?.[1];
      return { type: of("type"), text: of("text"), formula, paint: dxfs[Number(of("dxfId"))] };
    });
    const { over, within } = MARK_PAINT;
    expect(found).toEqual([
      {
        type: "beginsWith",
        text: "Over",
        formula: expect.stringContaining("LEFT(C3,"),
        paint: expect.any(String),
      },
      {
        type: "beginsWith",
        text: "Within",
        formula: expect.stringContaining("LEFT(C3,"),
        paint: expect.any(String),
      },
    ]);
    for (const [i, { fill, ink, bold }] of [over, within].entries()) {
      expect(found[i].paint).toMatch(new RegExp(`<bgColor rgb="(FF)?${fill.slice(1)}"`));
      expect(found[i].paint).toMatch(new RegExp(`<color rgb="(FF)?${ink.slice(1)}"`));
      expect(/<b\s*\/>/.test(found[i].paint)).toBe(bold);
    }
  });
});
