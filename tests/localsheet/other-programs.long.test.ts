/** Files with what other programs put into them: opened, one cell changed, saved, compared part by part. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { foreignKinds, lockedBook } from "../files/foreign-kinds";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

const SHEET = "xl/worksheets/sheet1.xml";

async function saved(bytes: Uint8Array) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  write(model, "B1", "11");
  return saveBook(model, { key: "key", name: "mine.xlsx", bytes });
}

/** What stands in every cell of every sheet, as typed. */
function contents(bytes: Uint8Array): Record<string, string> {
  const { sheets } = openModel(bytes).model.exportData();
  const cells = sheets.flatMap(({ name, cells }) =>
    Object.entries(cells).map(([cell, content]) => [`${name} ${cell}`, String(content)]),
  );
  return Object.fromEntries(cells) as Record<string, string>;
}

function text(bytes: Uint8Array = new Uint8Array()): string {
  if (bytes[0] === 0xff) return new TextDecoder("utf-16le").decode(bytes);
  const latin = strFromU8(bytes, true);
  return latin.includes('encoding="ISO-8859-1"') ? latin : strFromU8(bytes);
}

/**
 * The sheet's text without the changed number, the values of formulas, which follow it, the names of rows
 * and cells, which may be left out of a file, and the encoding: a changed part is written in UTF-8.
 */
const untouched = (bytes: Uint8Array | undefined) =>
  text(bytes)
    .replace(/^\uFEFF/, "")
    .replace(/ encoding="(UTF-8|UTF-16|ISO-8859-1)"/, "")
    .replace(/(<(?:x:)?(?:row|c))\sr=["'][A-Z]*\d+["']/g, "$1")
    .replace(/(<(?:x:)?v>)1[01](<\/(?:x:)?v>)/, "$1$2")
    .replace(/(<\/(?:x:)?f>|<(?:x:)?f\b[^>]*\/>)<(?:x:)?v>[^<]*<\/(?:x:)?v>/g, "$1");

/** Values that the local sheet cannot work out may hang on the change: Excel is asked to. */
const asksForValues = '<calcPr calcId="0" fullCalcOnLoad="1"/>';

const LACKING = ["functions that the local sheet lacks"];

test("there are at least 40 kinds", () => {
  expect(foreignKinds.length).toBeGreaterThanOrEqual(40);
});

describe("with one cell changed, all else stays", () => {
  test.each(foreignKinds)("%s", async (kind, bytes) => {
    const { bytes: after, lost } = await saved(bytes);
    expect(lost).toEqual([]);
    const [was, is] = [unzipSync(bytes), unzipSync(after)];
    const other = (part: Uint8Array | undefined) =>
      LACKING.includes(kind) ? text(part).replace(asksForValues, "") : text(part);
    expect(Object.keys(is).sort()).toEqual(Object.keys(was).sort());
    for (const path of Object.keys(was))
      if (path !== SHEET) expect([path, other(is[path])]).toEqual([path, text(was[path])]);
    expect(untouched(is[SHEET])).toBe(untouched(was[SHEET]));
    const reopened = openModel(after).model;
    // By hand: 11 was typed.
    expect(read(reopened, "B1", "Oils")).toBe(11);
    expect(contents(after)).toEqual({ ...contents(bytes), "Oils B1": "11" });
  });
});

test("a sheet that is locked takes no typing, and stays the same byte for byte", async () => {
  expect((await saved(lockedBook)).bytes).toBe(lockedBook);
});
