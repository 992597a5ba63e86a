/** Sheets as programs write them: a copy changes our cells alone, whatever stands around them. */
import { strFromU8, unzipSync, zipSync } from "fflate";
import { expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { HEAD, MAIN, partsOf, prefixed, zipped } from "./foreign-book";
import { readBook } from "./read-book";

const SHEET = "xl/worksheets/sheet1.xml";
const CALL = "_xldudf_MIST_OILFOR(B1,0.05)";
const ODD = `<c r='A1' s="1" t="str" ><v>less &lt; more &amp; &#8364;</v></c><c r="B1"><v>200</v></c>`;
const OURS = `<c r="C1" t="n"><f>${CALL}</f><v>10</v></c>`;
const FIXED = `<c r="D1" t="str"><f>_xldudf_MIST_TRIOCHANCE(B1,20)&amp;" or so"</f><v> 6.76 "&amp;" fl oz</v></c>`;

function copied(rows: string) {
  const parts = unzipSync(zipped(partsOf(sheetOf(rows))));
  return copyOf(parts);
}

const sheetOf = (rows: string) =>
  `${HEAD}<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`;

function copyOf(parts: Record<string, Uint8Array>) {
  const { bytes, replaced } = handOver(zipSync(parts));
  const [cells] = readBook(bytes).values();
  return { sheet: strFromU8(unzipSync(bytes)[SHEET]), replaced, cells };
}

test("cells that are not ours stay byte for byte", () => {
  const { sheet, cells } = copied(`<row r="1" ht="20">${ODD}${OURS}</row><row r="3"/>`);
  expect(sheet).toContain(`<row r="1" ht="20">${ODD}<c r="C1" t="n"><f>IF(`);
  expect(sheet).toContain('<v>10</v></c></row><row r="3"/></sheetData>');
  expect(cells?.get("A1")?.value).toBe("less < more & €");
});

test("a value that is fixed keeps its text, spaces and signs included", () => {
  const { sheet, cells } = copied(`<row r="1">${ODD}${FIXED}</row>`);
  expect(sheet).toMatch(/<c r="D1" t="inlineStr" s="\d+"><is><t xml:space="preserve"> 6.76/);
  expect(cells?.get("D1")?.value).toBe(' 6.76 "&" fl oz');
});

test("comments, instructions and CDATA hide no cell, and show none that is not there", () => {
  const hidden = `<!-- <c r="E1"><f>${CALL}</f></c> --><?note <c r="F1"/>?>`;
  const open = `<c r="C1"><f><![CDATA[${CALL}]]></f><v>10</v></c>`;
  const { replaced, cells } = copied(`<row r="1">${ODD}${hidden}${open}</row>`);
  expect(replaced.map(({ cell }) => cell)).toEqual(["C1"]);
  expect(cells?.get("C1")?.formula).toMatch(/^IF\(/);
  expect([cells?.has("E1"), cells?.has("F1")]).toEqual([false, false]);
});

test("elements with a prefix", () => {
  const parts = prefixed(partsOf(sheetOf(`<row r="1">${ODD}${OURS}${FIXED}</row>`)));
  const { sheet, cells } = copyOf(unzipSync(zipped(parts)));
  expect(sheet).toMatch(/<x:c r="C1" t="n"><x:f>IF\(/);
  expect(sheet).toMatch(/<x:c r="D1" t="inlineStr" s="\d+"><x:is><x:t /);
  expect(cells?.get("D1")?.value).toBe(' 6.76 "&" fl oz');
});

test("formulas that are written once for many are written out where they change", () => {
  const first = `<c r="C1"><f t="shared" ref="C1:C3" si="0">${CALL}</f><v>10</v></c>`;
  const next = (row: number) =>
    `<row r="${row}"><c r="B${row}"><v>100</v></c><c r="C${row}"><f t="shared" si="0"/><v>5</v></c></row>`;
  const { sheet, cells } = copied(`<row r="1">${ODD}${first}</row>${next(2)}${next(3)}`);
  expect(sheet).not.toContain("shared");
  for (const row of [1, 2, 3]) expect(cells?.get(`C${row}`)?.formula).toContain(`B${row}`);
});
