import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { readable } from "../../functions/files/reading";
import { HEAD, inline, partsOf, prefixed, sheet, strict, zipped } from "../files/foreign-book";
import { fromXlsx, newModel, openModel, read, write } from "./load-engine";

const ROWS = `<row r="1">${inline("A1", "Rain", ' s="1"')}<c r="B1" s="2"><v>0.05</v></c><c r="C1"><f>B1*2</f></c></row>`;
const parts = partsOf(sheet(ROWS));
const opened = (changed: Record<string, string>) =>
  openModel(zipped({ ...parts, ...changed })).model;
const cellsOf = (model: ReturnType<typeof opened>, ...names: string[]) =>
  names.map((name) => read(model, name));
const cellAt = (model: ReturnType<typeof opened>, row: number, col: number) => {
  return { sheetId: model.getters.getActiveSheetId(), row, col };
};

describe("a workbook as another program writes it", () => {
  const noTypes = `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`;
  const wrongTypes = parts["[Content_Types].xml"].replaceAll("worksheet+xml", "chartsheet+xml");
  const without = (path: string) =>
    Object.fromEntries(Object.entries(parts).filter(([each]) => each !== path));
  test.each<[string, Record<string, string>]>([
    ["targets from the root, inline texts", parts],
    ["strict names", strict(parts)],
    ["a prefix before every name", prefixed(parts)],
    ["content types that say nothing", { ...parts, "[Content_Types].xml": noTypes }],
    ["content types that are wrong", { ...parts, "[Content_Types].xml": wrongTypes }],
    ["no content types", without("[Content_Types].xml")],
    ["no looks", without("xl/styles.xml")],
    ["a byte order mark", { ...parts, "xl/worksheets/sheet1.xml": `\uFEFF${sheet(ROWS)}` }],
    [
      "rows and cells without names",
      { ...parts, "xl/worksheets/sheet1.xml": sheet(ROWS).replace(/ r="(\d|[A-C]1)"/g, "") },
    ],
    [
      "a path in other letters",
      Object.fromEntries(
        Object.entries(parts).map(([path, text]) => [
          path.replace("sheet1.xml", "Sheet1.xml"),
          text,
        ]),
      ),
    ],
    [
      "paths with backslashes",
      Object.fromEntries(
        Object.entries(parts).map(([path, text]) => [path.replaceAll("/", "\\"), text]),
      ),
    ],
  ])("%s", (_, own) => {
    // By hand: twice 0.05.
    expect(cellsOf(openModel(zipped(own)).model, "A1", "B1", "C1")).toEqual(["Rain", 0.05, 0.1]);
  });

  test("a colour without its alpha is solid, and no look moves to another cell", () => {
    const model = opened({});
    expect(model.getters.getCellStyle(cellAt(model, 0, 0))).toMatchObject({
      bold: true,
      fillColor: "#FFF2CC",
      textColor: "#C00000",
    });
    expect(model.getters.getCellStyle(cellAt(model, 0, 1)).fillColor).toBeUndefined();
  });

  test("texts stay texts, and spaces stay", () => {
    const texts = ["007", "=1+1", "5%", "TRUE", "  two  ", "1/2", "plain", "#N/A", "a &amp; b"];
    const rows = texts
      .map(
        (text, i) =>
          `<row r="${i + 1}"><c r="A${i + 1}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c></row>`,
      )
      .join("");
    const model = opened({ "xl/worksheets/sheet1.xml": sheet(rows) });
    const shown = texts.map((_, i) => read(model, `A${i + 1}`));
    expect(shown).toEqual(texts.map((text) => text.replace("&amp;", "&")));
  });

  test("runs of a text are put together, without reading aids", () => {
    const rows =
      '<row r="1"><c r="A1" t="inlineStr"><is><r><t>Rain</t></r><r><t xml:space="preserve"> 7</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c></row>';
    expect(cellsOf(opened({ "xl/worksheets/sheet1.xml": sheet(rows) }), "A1")).toEqual(["Rain 7"]);
  });

  test("characters that XML has no place for are taken out", () => {
    const rows = `<row r="1">${inline("A1", "Ra\u0001in&#x2;")}</row>`;
    expect(cellsOf(opened({ "xl/worksheets/sheet1.xml": sheet(rows) }), "A1")).toEqual(["Rain"]);
  });

  test("prefixes of newer functions, wherever they stand, and formulas that stand for many cells", () => {
    const rows =
      '<row r="1"><c r="A1"><v>3</v></c><c r="B1"><f>_xlfn.MINIFS(A1:A3,A1:A3,"&gt;1")+_xlfn.MINIFS(A1:A3,A1:A3,"&gt;3")</f></c><c r="C1"><f t="shared" ref="C1:C3" si="7">A1*10</f></c></row>' +
      '<row r="2"><c r="A2"><v>4</v></c><c r="C2"><f t="shared" si="7"/></c></row><row r="3"><c r="A3"><v>5</v></c><c r="C3"><f t="shared" si="7"/></c></row>';
    // By hand: the least above 1 is 3, above 3 is 4.
    expect(
      cellsOf(opened({ "xl/worksheets/sheet1.xml": sheet(rows) }), "B1", "C1", "C2", "C3"),
    ).toEqual([7, 30, 40, 50]);
  });

  test("dates of a strict file are dates", () => {
    const rows =
      '<row r="1"><c r="A1" t="d"><v>2026-11-25</v></c><c r="B1" t="d"><v>1900-03-01T12:00:00</v></c></row>';
    // Day 61 is 1 March 1900 in Excel's count (ECMA-376 part 1, 18.17.4.1); day 46351 counted from there.
    expect(cellsOf(opened({ "xl/worksheets/sheet1.xml": sheet(rows) }), "A1", "B1")).toEqual([
      46351, 61.5,
    ]);
  });

  test("looks alone, far below, do not make the grid as long", () => {
    const rows = `${ROWS}${Array.from({ length: 3000 }, (_, i) => `<row r="${i + 2}"><c r="A${i + 2}" s="1"/></row>`).join("")}`;
    const model = opened({ "xl/worksheets/sheet1.xml": sheet(rows) });
    expect(model.getters.getNumberRows(model.getters.getActiveSheetId())).toBeLessThan(300);
  });

  test("a look alone in the last cell of all makes the grid no larger", () => {
    const rows = `${ROWS}<row r="1048576"><c r="XFD1048576" s="1"/></row>`;
    const { getters } = opened({ "xl/worksheets/sheet1.xml": sheet(rows) });
    const id = getters.getActiveSheetId();
    expect(getters.getNumberRows(id) * getters.getNumberCols(id)).toBeLessThan(10_000);
  });

  test("the engine is given plain rows as one, and rows that say something as they are", () => {
    const plain = (from: number) =>
      Array.from(
        { length: 500 },
        (_, i) => `<row r="${from + i}" ht="15"><c r="A${from + i}"><v>${from + i}</v></c></row>`,
      ).join("");
    const high = '<row r="501" ht="40" customHeight="1"><c r="A501"><v>501</v></c></row>';
    const xml = sheet(`${plain(1)}${high}${plain(502)}<row r="1002" hidden="1"/>`).replace(
      "<sheetData>",
      '<sheetFormatPr defaultRowHeight="15"/><sheetData>',
    );
    const read = fromXlsx(zipped({ ...parts, "xl/worksheets/sheet1.xml": xml }));
    expect(read["xl/worksheets/sheet1.xml"]?.match(/<row\b/g)).toHaveLength(4);
    const model = opened({ "xl/worksheets/sheet1.xml": xml });
    expect(cellsOf(model, "A1", "A500", "A501", "A1001")).toEqual([1, 500, 501, 1001]);
    const id = model.getters.getActiveSheetId();
    const sizes = [1, 500, 501, 502].map((row) => model.getters.getRowSize(id, row - 1));
    // By hand: 4/3 of a pixel to a point.
    expect(sizes).toEqual([20, 20, 53, 20]);
    expect(model.getters.isRowHidden(id, 1001)).toBe(true);
    expect(model.getters.isRowHidden(id, 1000)).toBe(false);
  });

  test("a running sum opens, is kept, and stays one when it is filled down", () => {
    const sums = [1, 2, 3].map(
      (row) =>
        `<row r="${row}"><c r="A${row}"><v>${row}</v></c><c r="B${row}"><f>SUM(A$1:A${row})</f></c></row>`,
    );
    const model = newModel(
      opened({ "xl/worksheets/sheet1.xml": sheet(sums.join("")) }).exportData(),
    );
    // By hand: 1, 1 + 2, 1 + 2 + 3.
    expect(cellsOf(model, "B1", "B2", "B3")).toEqual([1, 3, 6]);
    write(model, "D1", "=SUM($A$1:A1)*1");
    const { sheetId } = cellAt(model, 0, 0);
    const zone = { left: 3, right: 3, top: 0, bottom: 0 };
    model.selection.selectZone({ cell: { col: 3, row: 0 }, zone });
    model.dispatch("COPY");
    model.dispatch("PASTE", { target: [{ ...zone, top: 1, bottom: 2 }] });
    expect(
      [0, 1, 2].map((row) =>
        model.getters.getCellText({ sheetId, row, col: 3 }, { showFormula: true }),
      ),
    ).toEqual(["=SUM($A$1:A1)*1", "=SUM($A$1:A2)*1", "=SUM($A$1:A3)*1"]);
    expect(cellsOf(newModel(model.exportData()), "D1", "D2", "D3")).toEqual([1, 3, 6]);
    // One that moves with both corners, and a range of one cell.
    write(model, "E1", "=SUM(A1:A1)");
    write(model, "E2", "=SUM(A1:A2)");
    const two = { left: 4, right: 4, top: 0, bottom: 1 };
    model.selection.selectZone({ cell: { col: 4, row: 0 }, zone: two });
    model.dispatch("COPY");
    model.dispatch("PASTE", { target: [{ ...two, left: 5, right: 5 }] });
    // By hand: of the column beside the numbers, the sums 1 and 1 + 3.
    expect(cellsOf(newModel(model.exportData()), "E1", "E2", "F1", "F2")).toEqual([1, 3, 1, 4]);
  });

  test("tabs keep their order, whatever their parts are called", () => {
    const own = {
      ...parts,
      "xl/workbook.xml": parts["xl/workbook.xml"].replace(
        "</sheets>",
        '<sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="Two" sheetId="2" r:id="rId9"/></sheets>',
      ),
      "xl/_rels/workbook.xml.rels": parts["xl/_rels/workbook.xml.rels"].replace(
        "</Relationships>",
        '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/another.xml"/></Relationships>',
      ),
      "xl/worksheets/another.xml": sheet('<row r="1"><c r="A1"><v>2</v></c></row>'),
    };
    const { getters } = openModel(zipped(own)).model;
    expect(getters.getSheetIds().map((id) => getters.getSheetName(id))).toEqual(["Oils", "Two"]);
  });
});

describe("what cannot be read is refused in one plain sentence", () => {
  const bomb = () => zipSync({ "xl/workbook.xml": new Uint8Array(16 * 2 ** 20) });
  const sheetOf = (xml: string) => zipped({ ...parts, "xl/worksheets/sheet1.xml": xml });
  const compound = (word = "") =>
    new Uint8Array([
      0xd0,
      0xcf,
      0x11,
      0xe0,
      0xa1,
      0xb1,
      0x1a,
      0xe1,
      ...strToU8([...word].map((letter) => `${letter}\0`).join("")),
    ]);
  const deep = "<b>".repeat(1000) + "</b>".repeat(1000);
  /** Says of its part that it unpacks to so much, and it does not: bytes 24 to 27 of the list at the end. */
  const says = (size: number, part = new Uint8Array(2 ** 20), more = 0) => {
    const others = Array.from({ length: more }, (_, i) => [`${i}`, part]);
    const bytes = zipSync({
      ...(Object.fromEntries(others) as Record<string, Uint8Array>),
      "xl/workbook.xml": part,
    });
    const list = bytes.length - 22 - 46 - "xl/workbook.xml".length;
    new DataView(bytes.buffer).setUint32(list + 24, size, true);
    return bytes;
  };
  const named = (name: string) =>
    zipped({
      ...parts,
      "xl/workbook.xml": (parts["xl/workbook.xml"] ?? "").replace(/Oils/g, name),
    });
  test.each<[string, () => Uint8Array, RegExp]>([
    ["an empty file", () => new Uint8Array(), /^This file is empty/],
    [".csv", () => strToU8("price,46\n"), /\.csv.*save it as \.xlsx first\.$/],
    [".xls", () => compound("Workbook"), /\.xls\).*save it as \.xlsx first\.$/],
    ["a password", () => compound("EncryptedPackage"), /password.*save it as \.xlsx first\.$/],
    [
      ".ods",
      () =>
        zipped({
          mimetype: "application/vnd.oasis.opendocument.spreadsheet",
          "content.xml": "<a/>",
        }),
      /\.ods\).*save it as \.xlsx first\.$/,
    ],
    [".xlsb", () => zipped({ "xl/workbook.bin": "x" }), /\.xlsb\)/],
    ["a Word document", () => zipped({ "word/document.xml": "<a/>" }), /Word document/],
    ["a web page", () => strToU8("<!DOCTYPE html><html></html>"), /web page/],
    ["a broken zip", () => zipped(parts).subarray(0, 300), /damaged/],
    ["a zip of other things", () => zipped({ "a.txt": "a" }), /no sheets/],
    [
      "parts without end",
      () =>
        zipSync(
          Object.fromEntries(Array.from({ length: 20_001 }, (_, i) => [`${i}`, new Uint8Array()])),
        ),
      /far more than a workbook holds/,
    ],
    [
      "a gigabyte that hardly packs",
      () => says(2 ** 30, crypto.getRandomValues(new Uint8Array(65_536)), 50),
      /far more than a workbook holds/,
    ],
    [
      "XML of its own kind",
      () => sheetOf('<!DOCTYPE worksheet SYSTEM "https://rain.example/x.dtd"><worksheet/>'),
      /defines its own XML/,
    ],
    [
      "marks that close each other crosswise",
      () => sheetOf(sheet('<row r="1"><c r="A1"></row></c>')),
      /cannot be read/,
    ],
    [
      "a cell of another row",
      () => sheetOf(sheet('<row r="1"><c r="A2"><v>1</v></c></row>')),
      /names a cell A2 on the sheet "Oils"/,
    ],
    [
      "no sheet part",
      () =>
        zipped(
          Object.fromEntries(Object.entries(parts).filter(([path]) => !path.includes("sheet1"))),
        ),
      /lacks its part xl\/worksheets\/sheet1\.xml/,
    ],
    [
      "broken XML",
      () => sheetOf("<worksheet><sheetData></worksheet>"),
      /xl\/worksheets\/sheet1\.xml cannot be read/,
    ],
    [
      "a bare ampersand",
      () => sheetOf(sheet(`<row r="1">${inline("A1", "a & b")}</row>`)),
      /cannot be read/,
    ],
    ["a web page for a sheet", () => sheetOf("<h3>not found"), /cannot be read/],
    ["a prefix that stands for nothing", () => sheetOf(sheet("<y:row/>")), /cannot be read/],
    ["an attribute twice", () => sheetOf(sheet('<row r="1" r="2"/>')), /cannot be read/],
    [
      "a cell that no sheet has",
      () => sheetOf(sheet('<row r="1"><c r="ZZZZ99999999"><v>1</v></c></row>')),
      /cell ZZZZ99999999 on the sheet "Oils"/,
    ],
    [
      "a row that no sheet has",
      () => sheetOf(sheet('<row r="99999999"><c><v>1</v></c></row>')),
      /row 99999999/,
    ],
    ["a sheet named after what every object has", () => named("__proto__"), /"__proto__"/],
    ["another such name", () => named("constructor"), /"constructor"/],
    ["a thousand nested elements", () => sheetOf(sheet(deep)), /nested deeper/],
    [
      "entities",
      () => sheetOf(`<!DOCTYPE a [<!ENTITY b "c">]>${sheet(ROWS)}`),
      /defines its own XML/,
    ],
    ["a thousand times its size", bomb, /unpacks to far more/],
    ["a part that says that it is small, and is not", () => says(100), /cannot be read/],
    ["a part that says that it is a gigabyte", () => says(2 ** 30), /unpacks to far more/],
  ])("%s", (_, bytes, sentence) => {
    let said = "";
    try {
      openModel(bytes());
    } catch (error) {
      said = (error as Error).message;
      expect((error as Error).name).toBe("Refusal");
    }
    expect(said).toMatch(sentence);
    expect(said).toMatch(/^[A-Z][^<>]*[.)]$/);
    expect(said).not.toMatch(/undefined|parse|Error|xmlns/);
  });
});

test("a formula that says it fills a whole sheet opens at once", () => {
  const cells =
    '<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">B1:B2*2</f><v>8</v></c><c r="B1"><v>4</v></c></row>' +
    '<row r="2"><c r="A2"><v>9</v></c><c r="B2"><v>5</v></c></row>';
  const { parts: read } = readable(zipped(partsOf(sheet(cells))));
  // By hand: the least that is shown is 100 rows of 30 columns.
  expect(read["xl/worksheets/sheet1.xml"]).toContain('ref="A1:AD100"');
});
