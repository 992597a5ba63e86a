/** Lists that grow, pages and panes in a saved file. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import type { Model } from "../../localsheet/engine";
import type { DrawnPage } from "../../taskpane/sheets/drawing";
import { findings, validator } from "../files/validator";
import { growing } from "../taskpane/growing-list";
import { LocalWorkbook, newModel, openModel, saveBook, toXlsx, write } from "./load-engine";

async function drawn() {
  const model = newModel();
  await new LocalWorkbook(model).drawOnNewSheet("Offers & more", growing);
  return model;
}

async function parts(model: Model) {
  const files = unzipSync(await toXlsx(model));
  return (path: string) => strFromU8(files[path] ?? new Uint8Array());
}

describe("in a saved file", () => {
  test("a list is a table with its name, its headings, a filter and the formula of its column", async () => {
    const model = await drawn();
    write(model, "A8", "Alder Soft");
    const table = (await parts(model))("xl/tables/table1.xml");
    expect(table).toMatch(/<table [^>]*name="Offers" displayName="Offers" ref="A4:E8"/);
    expect(table).toContain('<autoFilter ref="A4:E8"');
    const names = [...table.matchAll(/<tableColumn [^>]*name="([^"]*)"/g)].map(([, name]) => name);
    expect(names).toEqual(["Offer", "Price, $", "Load", "Oil, $", "Kind"]);
    expect(table.match(/<calculatedColumnFormula>[^<]*/g)).toEqual([
      '<calculatedColumnFormula>IF(B5="","",B5*C5)',
    ]);
    expect(table).toMatch(/<tableStyleInfo showFirstColumn="0"/);
  });

  test("two lists of one name have names of their own", async () => {
    const model = await drawn();
    await new LocalWorkbook(model).drawOnNewSheet("Offers", growing);
    const part = await parts(model);
    expect(part("xl/tables/table2.xml")).toContain('displayName="Offers_2"');
  });

  test("the pages are one section after another, with title columns and rows, its caution and its number", async () => {
    const part = await parts(await drawn());
    const sheet = part("xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>');
    expect(sheet).toContain('<pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"/>');
    expect(sheet).toContain("<oddHeader>&amp;LWear gloves &amp;&amp; goggles.</oddHeader>");
    expect(sheet).toContain("<oddFooter>&amp;C&amp;A, page &amp;P of &amp;N</oddFooter>");
    expect(part("xl/workbook.xml")).toContain(
      `<definedName name="_xlnm.Print_Area" localSheetId="1">'Offers &amp; more'!$A:$C,'Offers &amp; more'!$D:$E</definedName>`,
    );
    expect(part("xl/workbook.xml")).toContain(
      `<definedName name="_xlnm.Print_Titles" localSheetId="1">'Offers &amp; more'!$A:$B,'Offers &amp; more'!$4:$4</definedName>`,
    );
    expect(sheet).toMatch(
      /<pane [^>]*xSplit="1"[^>]*ySplit="4"|<pane [^>]*ySplit="4"[^>]*xSplit="1"/,
    );
  });

  test.each<[string, NonNullable<DrawnPage["only"]>, string]>([
    ["now", { columns: [0, 1] }, "$A:$B"],
    // By hand: the row that was put in is the seventh.
    ["when workings stood below", { columns: [0, 1], rows: [0, 5] }, "$A$1:$B$7"],
  ])(
    "what is printed and where pages begin is in the file, after a row that was put in too: drawn %s",
    async (_, only, printed) => {
      const model = newModel();
      const page: DrawnPage = { breaks: [2], only };
      await new LocalWorkbook(model).drawOnNewSheet("Offers", { ...growing, page });
      const sheetId = model.getters.getSheetIdByName("Offers");
      const add = { type: "ADD_COLUMNS_ROWS", sheetId, sheetName: "Offers", dimension: "ROW" };
      model.dispatch("ADD_COLUMNS_ROWS", {
        ...add,
        base: 1,
        position: "before",
        quantity: 1,
      } as never);
      const part = await parts(model);
      // ECMA-376 part 1, 18.3.1.3: a break stands after the row of its id, counted from one. By hand: it was below row 2.
      expect(part("xl/worksheets/sheet1.xml")).toContain(
        '<rowBreaks count="1" manualBreakCount="1"><brk id="3" max="16383" man="1"/></rowBreaks>',
      );
      expect(part("xl/workbook.xml")).toContain(`'Offers'!${printed}</definedName>`);
    },
  );

  test("a row of sentences over lines is as tall as they are, though no page has drawn them", async () => {
    const model = newModel();
    const content = "Consumer chemicals have a classification, a label and a pack of their own.";
    const cells = [{ row: 2, column: 1, content, look: "heading" as const }];
    const drawing = { ...growing, cells, widths: [100, 236], lists: [], page: {} };
    await new LocalWorkbook(model).drawOnNewSheet("Duties", drawing);
    const sheet = (await parts(model))("xl/worksheets/sheet1.xml");
    // By hand: some 74 letters of 8 pixels and fewer, three lines of 226; 3 x 18 + 8 pixels are 46.5 points.
    expect(sheet).toMatch(/<row r="3"[^>]* ht="46.5"/);
  });

  test("columns put in, taken out and written beside stay on paper, in the section around them", async () => {
    const model = await drawn();
    const sheetId = model.getters.getActiveSheetId();
    const where = { sheetId, sheetName: "Offers & more", dimension: "COL" };
    const printed = async () =>
      /Print_Area" localSheetId="1">([^<]*)</
        .exec((await parts(model))("xl/workbook.xml"))?.[1]
        ?.replaceAll("'Offers &amp; more'!", "");
    // By hand: sections A to C and D to E; a column before D is the last of the first.
    const before = { ...where, base: 3, position: "before", quantity: 1 };
    model.dispatch("ADD_COLUMNS_ROWS", { type: "ADD_COLUMNS_ROWS", ...before } as never);
    expect(await printed()).toBe("$A:$D,$E:$F");
    const first = { ...where, base: 0, position: "before", quantity: 1 };
    model.dispatch("ADD_COLUMNS_ROWS", { type: "ADD_COLUMNS_ROWS", ...first } as never);
    expect(await printed()).toBe("$A:$E,$F:$G");
    model.dispatch("REMOVE_COLUMNS_ROWS", { ...where, elements: [0, 5] } as never);
    expect(await printed()).toBe("$A:$D,$E:$E");
    model.dispatch("UPDATE_CELL", { sheetId, col: 8, row: 0, content: "mine" });
    expect(await printed()).toBe("$A:$D,$E:$I");
  });

  test("title rows follow rows that are put in above, and come back by undo", async () => {
    const model = await drawn();
    const sheetId = model.getters.getActiveSheetId();
    const where = { sheetId, sheetName: "Offers & more", dimension: "ROW" };
    const add = { ...where, base: 0, position: "before", quantity: 2 };
    model.dispatch("ADD_COLUMNS_ROWS", add as never);
    expect((await parts(model))("xl/workbook.xml")).toContain("$6:$6");
    model.dispatch("REQUEST_UNDO");
    expect((await parts(model))("xl/workbook.xml")).toContain("$4:$4");
    model.dispatch("REMOVE_COLUMNS_ROWS", { ...where, elements: [0, 1] } as never);
    expect((await parts(model))("xl/workbook.xml")).toContain("$2:$2");
  });

  test("a sheet that was there has no page of ours", async () => {
    const sheet = (await parts(await drawn()))("xl/worksheets/sheet0.xml");
    expect(sheet).not.toMatch(/pageSetup|headerFooter|pageSetUpPr/);
  });

  test("a page is kept with the workbook, and goes with its sheet when the drawing is taken back", async () => {
    const model = await drawn();
    const again = newModel(model.exportData());
    expect((await parts(again))("xl/worksheets/sheet1.xml")).toContain("landscape");
    model.dispatch("REQUEST_UNDO");
    expect(JSON.stringify(model.exportData())).not.toContain("landscape");
  });

  test("opened again, the list is a table that grows, and saved again it is as it was", async () => {
    const bytes = await toXlsx(await drawn());
    const { model } = openModel(bytes);
    const [, sheetId = ""] = model.getters.getSheetIds();
    const [table] = model.getters.getCoreTables(sheetId);
    expect([table?.range.zone, table?.config.styleId]).toEqual([
      { top: 3, bottom: 6, left: 0, right: 4 },
      "None",
    ]);
    write(model, "B8", "10", "Offers & more");
    const cell = { sheetId, col: 3, row: 7 };
    expect(model.getters.getCellText(cell, { showFormula: true })).toBe('=IF(B8="","",B8*C8)');
    expect((await saveBook(openModel(bytes).model)).bytes.length).toBeGreaterThan(0);
  });

  test.skipIf(!validator)(
    "Microsoft's validator finds nothing, grown and twice over",
    async () => {
      const model = await drawn();
      write(model, "A8", "Alder Soft");
      await new LocalWorkbook(model).drawOnNewSheet("Offers", growing);
      expect(await findings({ growing: await toXlsx(model) })).toEqual([]);
    },
    120_000,
  );
});
