/** A sheet that is locked against typing: in the file, too, and unlocked again. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { partsOf, prefixed, sheet, strict, zipped } from "../files/foreign-book";
import { LocalWorkbook, bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const ROW = '<row r="1"><c r="A1"><v>1</v></c></row>';
const LOCK = '<sheetProtection sheet="1" objects="1" scenarios="1"/>';
const PASSWORD = '<sheetProtection password="CC1A" sheet="1"/>';
const MERGES = '<mergeCells count="1"><mergeCell ref="C1:D1"/></mergeCells>';
const free = partsOf(sheet(ROW, MERGES));

async function saved(bytes: Uint8Array, change: (model: Model, sheetId: string) => unknown) {
  const model = newModel(bound(openModel(bytes), "key"));
  change(model, model.getters.getActiveSheetId());
  const { bytes: after, lost } = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  return { after, lost, xml: strFromU8(unzipSync(after)["xl/worksheets/sheet1.xml"] ?? after) };
}

const lock = (model: Model, sheetId: string) => model.dispatch("LOCK_SHEET", { sheetId });
const unlock = (model: Model, sheetId: string) => model.dispatch("UNLOCK_SHEET", { sheetId });
const isLocked = ({ getters }: Model) => getters.isSheetLocked(getters.getActiveSheetId());

describe("the lock of a sheet in a file that was opened", () => {
  test.each([
    ["as usual", free],
    ["strict", strict(free)],
    ["with prefixes", prefixed(free)],
  ])("is written, and taken off (%s)", async (_, parts) => {
    const bytes = zipped(parts);
    const locked = await saved(bytes, lock);
    expect(locked.lost).toEqual([]);
    expect(isLocked(openModel(locked.after).model)).toBe(true);
    // Right after the cells, before what is merged: ECMA-376 part 1, 18.3.1.99.
    expect(locked.xml).toMatch(
      /<\/(x:)?sheetData><(x:)?sheetProtection sheet="1"[^>]*\/><(x:)?mergeCells/,
    );
    const again = await saved(locked.after, unlock);
    expect(again.lost).toEqual([]);
    expect(again.xml).toBe(strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"] ?? bytes));
  });

  test("with a password stays, and that is said", async () => {
    const bytes = zipped(partsOf(sheet(ROW, PASSWORD)));
    const { xml, lost } = await saved(bytes, (model, id) => {
      unlock(model, id);
      write(model, "A1", "2");
    });
    expect(lost).toEqual(['"Oils" stays locked by its password in the file.']);
    expect(xml).toContain(PASSWORD);
    expect(xml).toContain("<v>2</v>");
  });

  test("is written into a new file", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    lock(model, "s");
    const { bytes } = await saveBook(model);
    expect(strFromU8(unzipSync(bytes)["xl/worksheets/sheet0.xml"] ?? bytes)).toContain(
      LOCK.replace("/>", ""),
    );
  });
});

describe("while a locked sheet is shown", () => {
  const [template] = templates;

  test("a template on a sheet of its own is drawn", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    lock(model, "s");
    await new LocalWorkbook(model).drawOnNewSheet(template.title, drawingOf(template, true));
    expect(read(model, "A1", template.title)).toBe(template.title);
  });

  test("one on that sheet is refused in words, and what was done before stays", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    write(model, "A40", "7");
    lock(model, "s");
    const place = { sheet: "Sheet", row: 0, column: 0 };
    const drawn = new LocalWorkbook(model).drawAt(place, drawingOf(template, true));
    await expect(drawn).rejects.toThrow("locked against typing");
    expect([read(model, "A40"), isLocked(model)]).toEqual([7, true]);
  });
});
