/** Every file that we write, before the eyes of other programs. Those that are not here are passed over, in words. */
import ExcelJs from "exceljs";
import { describe, expect, test } from "vitest";
import { richParts, zipped } from "../files/foreign-book";
import { findings, openedByPython, python, validator } from "../files/validator";
import { allFiles } from "../localsheet/all-files";

const files = await allFiles();

for (const [name, found] of Object.entries({
  "Microsoft's validator": validator,
  openpyxl: python,
}))
  if (!found) console.warn(`${name} was not found: it has not looked at our files.`);

describe("every template filled and empty, random sheets, their copies, and a file written into", () => {
  test.skipIf(!validator)(
    "0 findings of Microsoft's validator, which finds what is wrong",
    async () => {
      expect(await findings(files)).toEqual([]);
      const wrong = zipped({ ...richParts(), "xl/worksheets/sheet1.xml": "<worksheet/>" });
      expect(await findings({ wrong })).not.toEqual([]);
    },
    300_000,
  );

  test.skipIf(!python)(
    "openpyxl opens them all",
    async () => {
      const lines = (await openedByPython(files)).trim().split("\n");
      expect(lines.length).toBe(Object.keys(files).length);
      for (const line of lines) expect(line).toMatch(/ True$/);
    },
    120_000,
  );

  test("ExcelJS opens them all", async () => {
    for (const [name, bytes] of Object.entries(files)) {
      // It reads no targets from the root, which this one has from the program that it came from.
      if (name === "patched" || name === "opened") continue;
      const book = new ExcelJs.Workbook();
      const read = await book.xlsx.load(bytes.slice().buffer);
      expect(read.worksheets.length, name).toBeGreaterThan(0);
    }
  }, 120_000);
});
