import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { readBook } from "../files/read-book";
import { fromXlsx, namesIn, newModel, toXlsx, write } from "./load-engine";

/** A saved workbook of one sheet, with contents by cell. */
function saved(contents: Record<string, string>): Promise<Uint8Array> {
  const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
  for (const [cell, content] of Object.entries(contents)) write(model, cell, content);
  return toXlsx(model);
}

const sheetOf = (bytes: Uint8Array) => strFromU8(unzipSync(bytes)["xl/worksheets/sheet0.xml"]);

describe("calls of our functions in a file", () => {
  test.each([
    ["MIST.OILFOR(A1,B1)", "_xldudf_MIST_OILFOR(A1,B1)"],
    ['IF(A1="",MIST.TURN(A1,"g","oz"),1)', 'IF(A1="",_xldudf_MIST_TURN(A1,"g","oz"),1)'],
    ["MIST.BASEFOR(MIST.OILFOR(A1,B1),B1)", "_xldudf_MIST_BASEFOR(_xldudf_MIST_OILFOR(A1,B1),B1)"],
    ["MIST.OILFOR({60;120},{0.05})", "_xldudf_MIST_OILFOR({60;120},{0.05})"],
    [
      '"type MIST.OILFOR(60)"&MIST.OILFOR(1,B1)',
      '"type MIST.OILFOR(60)"&_xldudf_MIST_OILFOR(1,B1)',
    ],
  ])("%s is stored as %s, and read back", async (typed, stored) => {
    const bytes = await saved({ A1: "2", B1: "5%", C1: `=${typed}` });
    expect(readBook(bytes).get("Sheet")?.get("C1")?.formula).toBe(stored);
    const sheet = fromXlsx(bytes)["xl/worksheets/sheet1.xml"];
    expect(sheet.replaceAll("&quot;", '"').replaceAll("&amp;", "&")).toContain(`>${typed}</f>`);
  });

  test("a percent in an array, which Excel does not take, is stored as a number", async () => {
    const bytes = await saved({ A1: '=MIST.TOPLOAD({"5%"},{10%})' });
    const stored = '_xldudf_MIST_TOPLOAD({"5%"},{0.1})';
    expect(readBook(bytes).get("Sheet")?.get("A1")?.formula).toBe(stored);
  });

  test("brackets around a minus stay, which the engine's own writer drops", async () => {
    const formulas = ["=A1*2^(-A1/B1)", '=TEXTJOIN("(-",TRUE,2^(-A1/B1),MINIFS(A1:A2,B1:B2,">0"))'];
    const bytes = await saved({ A1: "2", B1: "3", C1: formulas[0], C2: formulas[1] });
    const stored = readBook(bytes).get("Sheet");
    expect(stored?.get("C1")?.formula).toBe("A1*2^(-A1/B1)");
    expect(stored?.get("C2")?.formula).toBe(
      '_xlfn.TEXTJOIN("(-",TRUE,2^(-A1/B1),_xlfn.MINIFS(A1:A2,B1:B2,">0"))',
    );
  });

  test("several newer functions in one formula are all known again", async () => {
    const formula = '=TEXTJOIN(" ",TRUE,TEXTJOIN("_xlfn.",TRUE,A1,B1),MINIFS(A1:A2,B1:B2,">0"))';
    const bytes = await saved({ A1: "2", B1: "3", C1: formula });
    const stored = readBook(bytes).get("Sheet")?.get("C1")?.formula;
    expect(stored?.match(/_xlfn\.(?=[A-Z])/g)).toHaveLength(3);
    const sheet = fromXlsx(bytes)["xl/worksheets/sheet1.xml"].replaceAll("&quot;", '"');
    expect(sheet.replaceAll("&gt;", ">")).toContain(`>${formula.slice(1)}</f>`);
  });

  test("text outside formulas is left alone", async () => {
    const bytes = await saved({ A1: "type MIST.OILFOR(60)" });
    expect(readBook(bytes).get("Sheet")?.get("A1")?.value).toBe("type MIST.OILFOR(60)");
  });
});

test("names of ranges are saved with the formulas that use them, and found again", async () => {
  const model = newModel({
    sheets: [{ id: "s", name: "My sheet", cells: { A1: "60", A2: "=MIST.OILFOR(batch,5%)" } }],
    namedRanges: { batch: "'My sheet'!A1", list: "'My sheet'!A1:A2" },
  });
  const bytes = await toXlsx(model);
  const workbook = strFromU8(unzipSync(bytes)["xl/workbook.xml"]);
  expect(workbook).toContain(
    `</sheets><definedNames><definedName name="batch">'My sheet'!$A$1</definedName>`,
  );
  expect(namesIn(fromXlsx(bytes))).toEqual({ batch: "'My sheet'!A1", list: "'My sheet'!A1:A2" });
  expect(handOver(bytes).replaced).toMatchObject([{ cell: "A2", became: "formula" }]);
});

test.each([
  ['<definedName name="_xlnm.Print_Area" localSheetId="0">S!$A$1:$B$2</definedName>'],
  ['<definedName name="rate" localSheetId="0">S!$A$1</definedName>'],
  ['<definedName name="sum">SUM(S!$A$1:$A$2)</definedName>'],
])("%s is no name for the local sheet", (name) => {
  expect(
    namesIn({ "xl/workbook.xml": `<workbook><definedNames>${name}</definedNames></workbook>` }),
  ).toEqual({});
});

describe("values in a file", () => {
  test("an answer of several cells brings them all", async () => {
    const bytes = await saved({
      A1: "60",
      A2: "120",
      B1: "=MIST.OILFOR(A1:A2,5%)",
      C1: '=MIST.TOPLOAD({"skin"},{10%})',
    });
    const cells = readBook(bytes).get("Sheet");
    expect(["B1", "B2", "C1", "D1"].map((cell) => cells?.get(cell)?.value)).toEqual([
      3,
      6,
      0.1,
      "skin",
    ]);
  });

  test("an error is one, by the name that other programs know", async () => {
    const bytes = await saved({
      A1: "=MIST.OILFOR(60,5)",
      A2: '=2*"a"',
      A3: "=1/0",
      A4: "=FOO(1)",
    });
    const cells = readBook(bytes).get("Sheet");
    const shown = ["A1", "A2", "A3"].map((cell) => cells?.get(cell));
    expect(shown.map((cell) => cell?.isError)).toEqual([true, true, true]);
    expect(shown.map((cell) => cell?.value)).toEqual(["#VALUE!", "#VALUE!", "#DIV/0!"]);
    expect(sheetOf(bytes)).not.toMatch(/#ERROR|#BAD_EXPR/);
  });
});

test("characters that XML has no place for are left out, in texts, formulas and values", async () => {
  const bytes = await saved({
    A1: "Ra\u0001in",
    A2: "'5\u0002-3",
    A3: '="mo\u0003ss"',
    A4: "tab\there",
  });
  const parts = Object.values(unzipSync(bytes)).map((part) => strFromU8(part));
  // XML 1.0, 2.2: of the characters below a space, tab, line feed and carriage return alone.
  // eslint-disable-next-line no-control-regex -- these are what must not be there
  for (const part of parts) expect(part).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/);
  const cells = readBook(bytes).get("Sheet");
  expect(["A1", "A2", "A3", "A4"].map((name) => cells?.get(name)?.value)).toEqual([
    "Rain",
    "5-3",
    "moss",
    "tab\there",
  ]);
});

test("an answer without room is an error that files know", async () => {
  const bytes = await saved({ A1: "=MIST.OILFOR({60;120},5%)", A2: "in the way" });
  const cell = readBook(bytes).get("Sheet")?.get("A1");
  // ECMA-376 part 1, 18.17.3 lists the errors of a file; one for a spill is not among them.
  expect([cell?.isError, cell?.value]).toEqual([true, "#VALUE!"]);
  expect(sheetOf(bytes)).not.toContain("#SPILL!");
});

test("what is no workbook is refused", () => {
  expect(() => fromXlsx(strToU8("price,46"))).toThrow("save it as .xlsx first");
  expect(() => fromXlsx(zipSync({ "a.xml": strToU8("<a/>") }))).toThrow("it has no sheets");
});
