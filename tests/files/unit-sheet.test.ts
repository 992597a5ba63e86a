/** The hidden sheet in which a copy's formulas look units up. */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { nativeFormula } from "../../functions/files/native-formula";
import { readFormula } from "../../functions/formula/reader";
import { UNIT_WORDS } from "../../src/units";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { asExcel } from "./as-excel";
import { readBook } from "./read-book";

const bookOf = (cells: Record<string, string>) =>
  toXlsx(newModel({ sheets: [{ id: "s", name: "Units", cells }] }));
const workbook = (bytes: Uint8Array) => strFromU8(unzipSync(bytes)["xl/workbook.xml"]);

test("every word with its size; the sheet is hidden, has a free name, and formulas know it by name", async () => {
  const { bytes } = handOver(await bookOf({ A1: "2", B1: "lbs", C1: '=MIST.TURN(A1,B1,"g")' }));
  expect(workbook(bytes)).toMatch(/<sheet name="Units 2" [^>]*state="hidden"/);
  const cells = readBook(bytes).get("Units 2");
  const words = [...UNIT_WORDS.keys()];
  expect(words.map((_, i) => cells?.get(`A${i + 1}`)?.value)).toEqual(words);
  const size = (word: string) => cells?.get(`B${words.indexOf(word) + 1}`)?.value;
  // Grams and millilitres: NIST SP 811, 2008, app. B; 2.54 cm in an inch, 231 cubic inches in a gallon.
  expect([size("pounds"), size("cc"), size("gallon")]).toEqual([453.59237, 1, 3785.411784]);
  const names = (workbook(bytes).match(/<definedName .*?<\/definedName>/g) ?? []).filter((name) =>
    name.includes("Units 2"),
  );
  // By hand: five weights with their words, in one and many; volumes below them to the end.
  const weights = words.indexOf("ml");
  expect(names.map((name) => name.replace(/<[^>]+>/g, ""))).toEqual([
    `'Units 2'!$A$1:$B$${words.length}`,
    `'Units 2'!$A$1:$B$${weights}`,
    `'Units 2'!$A$${weights + 1}:$B$${words.length}`,
  ]);
});

test("a workbook whose units are typed into its formulas has no such sheet", () => {
  expect(workbook(handOver(asExcel()).bytes)).not.toContain("mist_units");
});

test("a copy that got a call of ours again keeps the one sheet that it has", async () => {
  const copy = handOver(await bookOf({ A1: "2", B1: "lbs", C1: '=MIST.TURN(A1,B1,"g")' })).bytes;
  const parts = unzipSync(copy);
  const path = "xl/worksheets/sheet0.xml";
  const call = '<f>_xldudf_MIST_TURN(A1,B1,"g")</f>';
  parts[path] = strToU8(strFromU8(parts[path]).replace(/<f[ >].*?<\/f>/s, call));
  const again = handOver(zipSync(parts));
  expect(again.replaced).toHaveLength(1);
  expect(workbook(again.bytes).match(/name="mist_units"/g)).toHaveLength(1);
});

test("a pack's text is read by no native formula: without a unit the answer is fixed", async () => {
  const cells = { A1: "38.4", B1: "1 gal", B2: "1", C2: "gal", D2: "1", ...CALLS };
  const copy = handOver(await bookOf(cells));
  expect(copy.replaced.map(({ cell, became }) => `${cell} ${became}`)).toEqual([
    "E1 value",
    "F1 value",
    "E2 formula",
  ]);
  // By hand: 38.4 over 128 fl oz.
  expect(readBook(copy.bytes).get("Units")?.get("E1")?.value).toBeCloseTo(0.3, 12);
});

const CALLS = {
  E1: "=MIST.FLOZCOST(A1,B1)",
  F1: '=MIST.PACKHOLDS(B1,"qt")',
  E2: "=MIST.FLOZCOST(A1,B2,C2)",
};

test("formulas are no longer than they were with names alone", () => {
  const length = (text: string) => nativeFormula(readFormula(text), () => null).text.length;
  // Measured before other words were taken, when each formula listed the 15 names: 2713, 1192, 3209.
  expect(length("MIST.TURN(A1,B1,C1,D1)")).toBeLessThan(1500);
  expect(length("MIST.FLOZCOST(A1,B1,C1,D1,E1,F1)")).toBeLessThan(1000);
  expect(length("MIST.NETLABEL(A1,B1)")).toBeLessThan(1500);
});
