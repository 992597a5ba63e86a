/** Formulas, names and tabs as other programs write them, and the local sheet's engine alone would not read them. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import {
  HEAD,
  inline,
  OFFICE,
  partsOf,
  relations,
  richParts,
  sheet,
  zipped,
} from "../files/foreign-book";
import { bound, newModel, openModel, read, saveBook, toXlsx, write } from "./load-engine";

type Tab = [name: string, rows: string];

/** A workbook of several tabs, the names of ranges in it, and a tab of one chart before the tab of that number. */
function book(tabs: Tab[], names = "", chartBefore?: number) {
  const parts = partsOf(sheet(""));
  const marks = tabs.map(
    ([name], i) =>
      `<sheet xmlns:r="${OFFICE}" name="${name}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`,
  );
  const targets = tabs.map((_, i): [string, string, string] => {
    return [`rId${i + 1}`, "worksheet", `/xl/worksheets/sheet${i + 1}.xml`];
  });
  if (chartBefore !== undefined) {
    marks.splice(
      chartBefore,
      0,
      `<sheet xmlns:r="${OFFICE}" name="A chart" sheetId="90" r:id="rId90"/>`,
    );
    targets.push(["rId90", "chartsheet", "/xl/chartsheets/sheet1.xml"]);
    parts["xl/chartsheets/sheet1.xml"] = `${HEAD}<chartsheet/>`;
  }
  parts["xl/workbook.xml"] = parts["xl/workbook.xml"].replace(
    /<sheets>.*<\/sheets>/,
    `<bookViews><workbookView firstSheet="1" activeTab="1"/></bookViews><sheets>${marks.join("")}</sheets><definedNames>${names}</definedNames>`,
  );
  parts["xl/_rels/workbook.xml.rels"] = relations(...targets, [
    "rId99",
    "styles",
    "/xl/styles.xml",
  ]);
  tabs.forEach(([, rows], i) => {
    parts[`xl/worksheets/sheet${i + 1}.xml`] = sheet(rows);
  });
  return zipped(parts);
}

const formula = (text: string) => `<row r="1"><c r="A1"><f>${text}</f></c></row>`;
const SHEET = "xl/worksheets/sheet1.xml";
const B1 = '<row r="1"><c r="B1"><v>10</v></c></row>';
const answer = (text: string) => read(openModel(book([["Oils", formula(text)]])).model, "A1");

async function saved(bytes: Uint8Array, change: (model: ReturnType<typeof newModel>) => void) {
  const model = newModel(JSON.parse(JSON.stringify(bound(openModel(bytes), "key"))) as object);
  change(model);
  return saveBook(model, { key: "key", name: "mine.xlsx", bytes });
}

describe("quotation marks within a text", () => {
  // By hand: "" within a text is one mark (ECMA-376 part 1, 18.17.2.3).
  test.each([
    ['"5"" jar"', '5" jar'],
    ['""""', '"'],
    ['"""a"""', '"a"'],
    ['"a"&amp;""&amp;"b"', "ab"],
    ['IF(1&lt;2,"a""b","")', 'a"b'],
    ['"C:\\"&amp;"x"', "C:\\x"],
    ['"a\\""b"', 'a\\"b'],
  ])("%s", (text, shown) => {
    expect(answer(text)).toBe(shown);
  });

  test("one that was not touched stays as it was written", async () => {
    const bytes = book([
      ["Oils", `${formula('"5"" jar"')}<row r="2"><c r="B2"><v>1</v></c></row>`],
    ]);
    const { bytes: after } = await saved(bytes, (model) => write(model, "B2", "2"));
    expect(strFromU8(unzipSync(after)[SHEET])).toContain('<f>"5"" jar"</f>');
  });
});

test("a minus before what is raised goes with it", () => {
  // By hand: (-2)^2; 1 - 4.
  expect([answer("-2^2"), answer("1-2^2")]).toEqual([4, -3]);
});

test("the error that says that something is lacking may stand in a formula", () => {
  expect(answer("IF(1&gt;2,1,#N/A)")).toBe("#N/A");
  expect(answer("IFERROR(#N/A,7)")).toBe(7);
});

test("CONCAT takes one range, and more than two texts", () => {
  const rows = `<row r="1">${inline("B1", "rain")}${inline("C1", "moss")}<c r="A1"><f>_xlfn.CONCAT(B1:C1)</f></c><c r="D1"><f>_xlfn.CONCAT(B1,"-",C1,1)</f></c></row>`;
  const { model } = openModel(book([["Oils", rows]]));
  expect([read(model, "A1"), read(model, "D1")]).toEqual(["rainmoss", "rain-moss1"]);
});

describe("a sheet with an apostrophe in its name", () => {
  const tabs: Tab[] = [
    ["Mum&apos;s oils", B1],
    ["Two", formula("'Mum''s oils'!B1+1")],
  ];

  test("is found by formulas, kept and taken up again", () => {
    const { model } = openModel(book(tabs));
    const again = newModel(JSON.parse(JSON.stringify(model.exportData())) as object);
    // By hand: 10 + 1.
    expect([read(model, "A1", "Two"), read(again, "A1", "Two")]).toEqual([11, 11]);
    expect(
      again.getters.getCellText(
        { sheetId: again.getters.getSheetIdByName("Two") ?? "", row: 0, col: 0 },
        { showFormula: true },
      ),
    ).toBe("='Mum''s oils'!B1+1");
  });

  test("is written as other programs read it", async () => {
    const { bytes } = await saved(book(tabs), (model) => {
      write(model, "A2", "='Mum''s oils'!B1*3", "Two");
      write(model, "A3", "=SUM('Mum''s oils'!B1:B2)", "Two");
    });
    const xml = strFromU8(unzipSync(bytes)["xl/worksheets/sheet2.xml"]);
    expect(xml).toContain("'Mum''s oils'!B1*3</f><v>30</v>");
    expect(xml).toContain("SUM('Mum''s oils'!B1:B2)</f><v>10</v>");
    const fresh = unzipSync(await toXlsx(openModel(book(tabs)).model));
    expect(strFromU8(fresh[SHEET])).toContain("'Mum''s oils'!B1+1");
  });

  test("is followed when rows are put in above", () => {
    const { model } = openModel(book(tabs));
    model.dispatch("ADD_COLUMNS_ROWS", {
      sheetId: model.getters.getSheetIds()[0],
      sheetName: "Mum's oils",
      dimension: "ROW",
      base: 0,
      quantity: 2,
      position: "before",
    });
    expect(read(model, "A1", "Two")).toBe(11);
    expect(model.exportData().sheets[1].cells.A1).toBe("='Mum''s oils'!B3+1");
  });
});

describe("names", () => {
  const names =
    '<definedName name="rate">0.05</definedName><definedName name="twice">Oils!$B$1*2</definedName><definedName name="four">twice*2</definedName>' +
    '<definedName name="here" localSheetId="0">Oils!$B$1</definedName><definedName name="here" localSheetId="2">Two!$B$1</definedName>' +
    '<definedName name="above">Oils!B1</definedName>';
  const two = B1.replace("10", "30").replace("</row>", '<c r="C1"><f>here</f></c></row>');
  const bytes = (text: string) =>
    book(
      [
        ["Oils", B1.replace("</row>", `<c r="C1"><f>${text}</f></c></row>`)],
        ["Two", two],
      ],
      names,
      1,
    );

  // By hand: B1 is 10.
  test.each([
    ["of a number", "rate*B1", 0.5],
    ["of a formula", "twice+1", 21],
    ["of another name", "100/four", 2.5],
    ["of one sheet", "here+RATE", 10.05],
  ])("%s", (_, text, value) => {
    expect(read(openModel(bytes(text)).model, "C1")).toBe(value);
  });

  test("of one sheet mean another thing on another, tabs of charts counted", () => {
    expect(read(openModel(bytes("1")).model, "C1", "Two")).toBe(30);
  });

  test("stay in the formulas of the file", async () => {
    const { bytes: after, lost } = await saved(bytes("rate*B1"), (model) =>
      write(model, "B1", "20"),
    );
    expect(lost).toEqual([]);
    // By hand: 5 % of 20.
    expect(strFromU8(unzipSync(after)[SHEET])).toContain("<f>rate*B1</f><v>1</v>");
  });
});

test.each([0, 1, 2])("a tab of one chart stays where it is, as tab %i", async (place) => {
  const tabs: Tab[] = [
    ["Oils", B1],
    ["Two", B1],
  ];
  const bytes = book(tabs, "", place);
  const { bytes: after, lost } = await saved(bytes, (model) => write(model, "B1", "11"));
  expect(lost).toEqual([]);
  const workbook = (from: Uint8Array) => strFromU8(unzipSync(from)["xl/workbook.xml"]);
  expect(workbook(after)).toBe(workbook(bytes));
});

test("what a sheet says that it uses stays where one value alone follows", async () => {
  const parts = partsOf(sheet(formula("Two!B1"), "", '<dimension ref="A1"/>'));
  const two = unzipSync(
    book([
      ["Oils", ""],
      ["Two", B1],
    ]),
  );
  const texts = Object.entries(two).map(([path, bytes]) => [path, strFromU8(bytes)] as const);
  const own = { ...Object.fromEntries(texts), [SHEET]: parts[SHEET] ?? "" };
  const { bytes } = await saved(zipped(own), (model) => write(model, "B1", "11", "Two"));
  const after = strFromU8(unzipSync(bytes)[SHEET]);
  expect(after).toContain('<dimension ref="A1"/>');
  expect(after).toContain("<v>11</v>");
});

test("a chart whose line is named by words in a formula, as LibreOffice writes them, is seen", () => {
  const parts = richParts();
  const chart = "xl/charts/chart1.xml";
  const named =
    '<c:tx><c:strRef><c:f>&quot;Price of oil&quot;</c:f><c:strCache><c:ptCount val="1"/><c:pt idx="0"><c:v>Price of oil</c:v></c:pt></c:strCache></c:strRef></c:tx><c:cat>';
  const bytes = zipped({ ...parts, [chart]: (parts[chart] ?? "").replace("<c:cat>", named) });
  const { model, hidden } = openModel(bytes);
  expect(hidden).toEqual([]);
  expect(JSON.stringify(model.exportData().sheets[0].figures)).toContain("Price of oil");
});

describe("a sheet that is laid out as no program should", () => {
  const opened = (after: string) => openModel(zipped(partsOf(sheet(B1, after))));
  const merges = (...ranges: string[]) =>
    `<mergeCells>${ranges.map((range) => `<mergeCell ref="${range}"/>`).join("")}</mergeCells>`;

  test("merged from end to end opens at once", () => {
    const { model } = opened(merges("A2:XFD1048576"));
    const merged = model.getters.getMerges(model.getters.getActiveSheetId());
    // By hand: as much of it as is shown, 100 rows and 30 columns, the first row apart.
    expect(merged.map(({ top, left, bottom, right }) => [top, left, bottom, right])).toEqual([
      [1, 0, 99, 29],
    ]);
  });

  test("merged cells that are nowhere are passed over", () => {
    const { model } = opened(merges("oil", "", "A3:B3"));
    expect(model.getters.getMerges(model.getters.getActiveSheetId())).toHaveLength(1);
  });

  test("one without a place for cells is refused in words", () => {
    const xml = sheet("").replace("<sheetData></sheetData>", "");
    expect(() => openModel(zipped(partsOf(xml)))).toThrow(
      'its sheet "Oils" has no place for cells',
    );
  });
});

test("days counted from 1904 are told, since their dates would be read wrong", () => {
  const parts = partsOf(sheet(B1));
  const workbook = parts["xl/workbook.xml"].replace(
    "<sheets>",
    '<workbookPr date1904="1"/><sheets>',
  );
  const { hidden } = openModel(zipped({ ...parts, "xl/workbook.xml": workbook }));
  expect(hidden.join()).toContain("four years and a day too early");
});

test("an array formula that comes to fill more cells says so in the file", async () => {
  const rows =
    '<row r="1"><c r="A1"><v>10</v></c><c r="B1"><v>1</v></c><c r="C1"><f t="array" ref="C1:C2">_xlfn._xlws.FILTER(A1:A3,B1:B3&gt;0)</f><v>10</v></c></row>' +
    '<row r="2"><c r="A2"><v>20</v></c><c r="B2"><v>1</v></c><c r="C2"><v>20</v></c></row>' +
    '<row r="3"><c r="A3"><v>30</v></c><c r="B3"><v>0</v></c></row>';
  const { bytes } = await saved(book([["Oils", rows]]), (model) => write(model, "B3", "1"));
  const xml = strFromU8(unzipSync(bytes)[SHEET]);
  expect(xml).toContain(
    '<f t="array" ref="C1:C3">_xlfn._xlws.FILTER(A1:A3,B1:B3&gt;0)</f><v>10</v>',
  );
  const { model } = openModel(bytes);
  // By hand: all three are above nothing now.
  expect(["C1", "C2", "C3"].map((name) => read(model, name))).toEqual([10, 20, 30]);
});

describe("a range that a formula for one cell reckons with", () => {
  // By hand: of A1:A3, which hold 1, 2 and 3, the one in the row of the formula; of B1:C1 the one above it.
  test.each([
    ["A1:A3*2", 4],
    ["A:A+1", 3],
    ["$A$1:$A$3", 2],
    ["Oils!A1:A3^2", 4],
    ["B1:C1/4", 5],
    ["1:1+1", 21],
    ["SUM(A1:A3)*2", 12],
    ["(A1:A3+SUM(A1:A3))*10", 80],
  ])("%s", async (text, value) => {
    const rows =
      '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>10</v></c><c r="C1"><v>20</v></c></row>' +
      `<row r="2"><c r="A2"><v>2</v></c><c r="C2"><f>${text}</f></c></row><row r="3"><c r="A3"><v>3</v></c></row>`;
    const bytes = book([["Oils", rows]]);
    expect(read(openModel(bytes).model, "C2")).toBe(value);
    const { bytes: after } = await saved(bytes, (model) => write(model, "A3", "7"));
    const xml = strFromU8(unzipSync(after)[SHEET]);
    // Nothing is written beside it.
    expect(xml).toContain(`<f>${text}</f>`);
    expect(xml).not.toMatch(/r="[CD]3"/);
  });
});
