/** Cells that are filled far from all else: out of sight in the local sheet, and safe in the file. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { withinSheet } from "../../functions/files/shift";
import { inline, partsOf, richParts, sheet, zipped } from "../files/foreign-book";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const SHEET = "xl/worksheets/sheet1.xml";
const NEAR =
  `<row r="1">${inline("A1", "Rain")}<c r="B1"><v>10</v></c><c r="C1"><f>SUM(B:B)</f><v>17</v></c></row>` +
  '<row r="2"><c r="C2"><f>B1*2</f><v>20</v></c></row>';
const book = (far: string, after = "", near = NEAR) => zipped(partsOf(sheet(near + far, after)));
const filled = (row: number) => `<row r="${row}"><c r="B${row}"><v>7</v></c></row>`;
const atFoot = book(filled(1_048_576));

/** The workbook opened, kept, taken up again and changed, then saved. */
async function saved(bytes: Uint8Array, change: (model: Model, sheetId: string) => unknown) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  change(model, model.getters.getActiveSheetId());
  const { bytes: after, lost } = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  const parts = unzipSync(after);
  const text = (path: string) => strFromU8(parts[path] ?? new Uint8Array());
  return { bytes: after, lost, sheet: text(SHEET), workbook: text("xl/workbook.xml") };
}

const insert = (model: Model, sheetId: string, dimension: "ROW" | "COL", quantity: number) =>
  model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId,
    sheetName: "Oils",
    dimension,
    base: 1,
    quantity,
    position: "before",
  });

describe("a filled cell far from all else", () => {
  test.each<[string, Uint8Array, string]>([
    ["at the foot", atFoot, "B1048576"],
    ["in the last column", book('<row r="3"><c r="XFD3"><v>7</v></c></row>'), "XFD3"],
    ["where old sheets ended", book(filled(65_536)), "B65536"],
  ])("%s costs no grid, and is named", (_, bytes, name) => {
    const { model, hidden } = openModel(bytes);
    const id = model.getters.getActiveSheetId();
    // By hand: the least that the local sheet shows is 100 rows of 30 columns.
    expect(model.getters.getNumberRows(id)).toBeLessThan(120);
    expect(model.getters.getNumberCols(id)).toBeLessThan(40);
    expect(hidden.join()).toContain(`"Oils", so not shown here, and kept in the file: ${name}.`);
  });

  test("and the formulas that miss it, no others", () => {
    expect(openModel(atFoot).hidden.join()).toMatch(/take that for blank: C1\.$/);
    const many = [1, 2, 3, 4, 5].map((i) => filled(100_000 + i)).join("");
    expect(openModel(book(many)).hidden.join()).toContain("B100001, B100002, B100003 and 2 more.");
  });

  test("rows in plenty with gaps that people leave are all shown", () => {
    const { model, hidden } = openModel(book(filled(5_000) + filled(20_000)));
    expect(hidden).toEqual([]);
    expect(read(model, "B20000")).toBe(7);
  });

  test("stays byte for byte when another cell is changed, and Excel is asked to work anew", async () => {
    expect((await saved(atFoot, () => undefined)).bytes).toBe(atFoot);
    const { sheet, workbook, lost } = await saved(atFoot, (model) => write(model, "B1", "11"));
    expect(lost).toEqual([]);
    expect(sheet).toContain(filled(1_048_576));
    expect(sheet).toContain('<c r="B1"><v>11</v></c>');
    expect(workbook).toContain('fullCalcOnLoad="1"');
  });

  test("stays at the foot when rows are put in, and so do ranges that reach down to it", async () => {
    const rules =
      '<conditionalFormatting sqref="A1:A1048576"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>11</formula></cfRule></conditionalFormatting>';
    const parts = partsOf(sheet(NEAR + filled(1_048_576), rules));
    const bytes = zipped({ ...parts, "xl/styles.xml": richParts()["xl/styles.xml"] ?? "" });
    const { sheet: xml, lost } = await saved(bytes, (model, id) => insert(model, id, "ROW", 2));
    expect(lost).toEqual([]);
    expect(xml).toContain(filled(1_048_576));
    // By hand: two rows were put in above the second.
    expect(xml).toContain('<c r="C4"><f>B1*2</f>');
    expect(xml).toContain('sqref="A1:A1048576"');
    expect(xml.match(/<cfRule/g)).toHaveLength(1);
  });

  const extend = (model: Model, sheetId: string, dimension: "ROW" | "COL", quantity: number) =>
    model.dispatch("ADD_COLUMNS_ROWS", {
      sheetId,
      sheetName: "Oils",
      dimension,
      base:
        (dimension === "ROW"
          ? model.getters.getNumberRows(sheetId)
          : model.getters.getNumberCols(sheetId)) - 1,
      quantity,
      position: "after",
    });

  test.each<[string, string, "ROW" | "COL"]>([
    ["the last row", filled(1_048_576), "ROW"],
    ["the last but one", filled(1_048_575), "ROW"],
    ["a row far down", filled(500_000), "ROW"],
    ["a column far right", '<row r="3"><c r="XFC3"><v>7</v></c></row>', "COL"],
  ])("in %s it stays when the sheet in sight gets longer", async (_, far, dimension) => {
    const reader =
      '<row r="2"><c r="C2"><f>B500000*2+XFC3</f><v>14</v></c><c r="D2"><f>SUM(B:B)</f><v>14</v></c></row>';
    const bytes = book(far, "", reader);
    const data = structuredClone(bound(openModel(bytes), "key"));
    const model = newModel(data);
    const id = model.getters.getActiveSheetId();
    extend(model, id, dimension, 50);
    write(model, dimension === "ROW" ? "B150" : "AZ1", "1");
    const { bytes: after, lost } = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
    expect(lost).toEqual([]);
    const xml = strFromU8(unzipSync(after)[SHEET] ?? after);
    expect(xml).toContain(far);
    expect(xml).toContain("<f>B500000*2+XFC3</f>");
    // By hand: the one number that is in sight in column B.
    expect(read(model, "D2")).toBe(dimension === "ROW" ? 1 : 0);
    model.dispatch("REQUEST_UNDO");
    model.dispatch("REQUEST_UNDO");
    const undone = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
    expect(undone.bytes).toBe(bytes);
  });

  test("it is pushed on where the sheet in sight would reach it", async () => {
    const near = '<row r="2"><c r="C2"><f>B20100*2</f><v>14</v></c></row>';
    const { sheet: xml } = await saved(book(filled(20_100), "", near), (model, id) =>
      extend(model, id, "ROW", 20_200),
    );
    expect(xml).toContain(filled(40_300));
    expect(xml).toContain("<f>B40300*2</f>");
  });

  test("anywhere else it moves with its rows, and with the formulas that read it", async () => {
    const near = '<row r="2"><c r="C2"><f>B500000*2</f><v>14</v></c></row>';
    const { sheet: xml } = await saved(book(filled(500_000), "", near), (model, id) =>
      insert(model, id, "ROW", 2),
    );
    expect(xml).toContain(filled(500_002));
    expect(xml).toContain("<f>B500002*2</f>");
  });

  test("what is out of sight is settled when the file is opened", async () => {
    // By hand: 20,001 empty rows between; with one taken out 20,000, which alone would be shown.
    const { sheet: xml } = await saved(book(filled(20_003)), (model, sheetId) =>
      model.dispatch("REMOVE_COLUMNS_ROWS", {
        sheetId,
        sheetName: "Oils",
        dimension: "ROW",
        elements: [49],
      }),
    );
    expect(xml).toContain(filled(20_002));
  });

  test("one that is pushed off the sheet is told of", async () => {
    const { lost } = await saved(book(filled(1_048_575)), (model, id) =>
      insert(model, id, "ROW", 2),
    );
    expect(lost.join()).toContain('B1048575 of "Oils" is pushed off the sheet');
    const wide = book('<row r="3"><c r="XFC3"><v>7</v></c></row>');
    const { lost: gone } = await saved(wide, (model, id) => insert(model, id, "COL", 1));
    expect(gone.join()).toContain('XFC3 of "Oils" is pushed off the sheet');
  });

  test("merged cells beside it are not laid over the sheet, and stay when others are merged", async () => {
    const merges =
      '<mergeCells count="2"><mergeCell ref="A1048576:B1048576"/><mergeCell ref="D1:E1"/></mergeCells>';
    const { sheet: xml } = await saved(book(filled(1_048_576), merges), (model, sheetId) => {
      expect(model.getters.getMerges(sheetId)).toHaveLength(1);
      model.dispatch("ADD_MERGE", { sheetId, target: [{ left: 3, right: 4, top: 1, bottom: 1 }] });
    });
    expect(xml).toContain(
      '<mergeCells count="3"><mergeCell ref="A1048576:B1048576"/><mergeCell ref="D1:E1"/><mergeCell ref="D2:E2"/></mergeCells>',
    );
  });
});

test.each([
  ["SUM(A1:A1048578)", "SUM(A1:A1048576)"],
  ["SUM($A$3:$XFE$3)*2", "SUM($A$3:$XFD$3)*2"],
  ["LOT2026001*YTD2026", "LOT2026001*YTD2026"],
  ['"A1:A1048578"&B1:B2', '"A1:A1048578"&B1:B2'],
])("%s within a sheet is %s", (formula, within) => {
  // By hand: a sheet ends at XFD1048576.
  expect(withinSheet(formula)).toBe(within);
});
