/** Workbooks that other programs wrote: opened, one cell changed, saved, compared part by part. */
import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

const books = ["openpyxl", "exceljs", "libreoffice"].map((name): [string, Uint8Array] => [
  name,
  new Uint8Array(readFileSync(new URL(`../files/foreign/${name}.xlsx`, import.meta.url))),
]);
const SHEET = "xl/worksheets/sheet1.xml";

async function saved(bytes: Uint8Array) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  write(model, "H1", "11", "Oils");
  return saveBook(model, { key: "key", name: "mine.xlsx", bytes });
}

/** What stands in every cell of every sheet, as typed. */
function contents(bytes: Uint8Array): Record<string, string> {
  const { model, hidden } = openModel(bytes);
  expect(hidden).toEqual([]);
  const cells = model
    .exportData()
    .sheets.flatMap(({ name, cells }) =>
      Object.entries(cells).map(([cell, content]) => [`${name} ${cell}`, String(content)]),
    );
  return Object.fromEntries(cells) as Record<string, string>;
}

/** A cell's mark and what stands in it. */
const cellIn = (xml: string, name: string) =>
  new RegExp(`<c r="${name}"[^>]*?(?:/>|>.*?</c>)`, "s").exec(xml)?.[0] ?? "";

/** The sheet without what the change is in: the cell itself, and the values of formulas. */
const untouched = (bytes: Uint8Array | undefined) => {
  const xml = strFromU8(bytes ?? new Uint8Array());
  return xml
    .replace(cellIn(xml, "H1"), "")
    .replace(/(<\/f>|<f\b[^>]*\/>)<v\s*(?:\/>|>[^<]*<\/v>)/g, "$1")
    .replace(/(<c r="[A-Z]+\d+"[^>]*?) t="(?:n|str|e|b)"(?=[^>]*><f)/g, "$1")
    .replace(/<row\s[^>]*>/g, (row) => row.replace(/\sspans="[^"]*"/, "").replace(/\s+>/, ">"));
};

describe.each(books)("a workbook of %s", (_, bytes) => {
  test("opens with its values", () => {
    const { model } = openModel(bytes);
    // By hand: twice 10; 10 + 1, on a sheet that is hidden.
    expect([read(model, "H1"), read(model, "I1"), read(model, "A1", "My notes")]).toEqual([
      10, 20, 11,
    ]);
    // 26 November 2026, half past nine: day 46352 of Excel's count (ECMA-376 part 1, 18.17.4.1), and 9.5 hours.
    const dates = ["C3", "D3"].map((name) => read(model, name));
    expect(dates.some((date) => Math.abs(Number(date) - (46_352 + 9.5 / 24)) < 1e-6)).toBe(true);
  });

  test("untouched stays the same bytes", async () => {
    const model = newModel(structuredClone(bound(openModel(bytes), "key")));
    const { bytes: same, lost } = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
    expect([same === bytes, lost]).toEqual([true, []]);
  });

  test("with one cell changed differs in that cell and in what hangs on it", async () => {
    const { bytes: after, lost } = await saved(bytes);
    expect(lost).toEqual([]);
    const [was, is] = [unzipSync(bytes), unzipSync(after)];
    const parts = Object.keys(was).filter((path) => !path.endsWith("/"));
    expect(Object.keys(is).sort()).toEqual(parts.sort());
    const other = parts.filter(
      (path) => strFromU8(was[path] ?? bytes) !== strFromU8(is[path] ?? bytes),
    );
    // The sheet on which a formula reads the cell, too.
    expect(other).toEqual([SHEET, "xl/worksheets/sheet2.xml"]);
    expect(untouched(is[SHEET])).toBe(untouched(was[SHEET]));
    expect(cellIn(strFromU8(is[SHEET] ?? bytes), "H1")).toContain("<v>11</v>");
    const reopened = openModel(after).model;
    // By hand: twice 11; 11 + 1.
    expect([read(reopened, "I1"), read(reopened, "A1", "My notes")]).toEqual([22, 12]);
    expect(contents(after)).toEqual({ ...contents(bytes), "Oils H1": "11" });
  });
});
