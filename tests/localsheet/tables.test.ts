/** Tables of a file that was opened, after their columns, rows and headings have changed. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { prefixed, richParts, zipped } from "../files/foreign-book";
import { readBook } from "../files/read-book";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const SHEET = "xl/worksheets/sheet1.xml";
const TABLE = "xl/tables/table1.xml";
const rich = richParts();

/** The rich workbook with its table written otherwise. */
const tabled = (change: (xml: string) => string) =>
  zipped({ ...rich, [TABLE]: change(rich[TABLE] ?? "") });

async function changed(bytes: Uint8Array, change: (model: Model, sheetId: string) => unknown) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  change(model, model.getters.getActiveSheetId());
  const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  const parts = unzipSync(saved.bytes);
  const text = (path: string) => (parts[path] ? strFromU8(parts[path]) : "");
  const table = text(TABLE);
  const columns = [...table.matchAll(/tableColumn [^>]*?name="([^"]*)"/g)].map(([, name]) => name);
  const cells = readBook(saved.bytes).get("Oils");
  const headings = columns.map((_, i) => cells?.get(`${"ABCDEFGH"[i]}1`)?.value);
  return { ...saved, table, columns, headings, sheet: text(SHEET), text };
}

const where = { sheetName: "Oils" };
const putColumns = (model: Model, sheetId: string, base: number, quantity: number) =>
  model.dispatch("ADD_COLUMNS_ROWS", {
    ...where,
    sheetId,
    dimension: "COL",
    base,
    quantity,
    position: "before",
  });
const take =
  (dimension: "ROW" | "COL", ...elements: number[]) =>
  (model: Model, sheetId: string) =>
    model.dispatch("REMOVE_COLUMNS_ROWS", { ...where, sheetId, dimension, elements });

describe("columns", () => {
  test("put into the middle get headings; the table keeps its name, and formulas call it", async () => {
    const { lost, table, columns, headings, sheet } = await changed(
      tabled((xml) => xml),
      (model, id) => putColumns(model, id, 1, 2),
    );
    expect(lost).toEqual([]);
    expect(table).toMatch(/displayName="Oils" ref="A1:E3"/);
    expect(table).toMatch(/<tableColumns count="5">/);
    expect(columns).toEqual(["Oil", "Column1", "Column2", "Price", "Load"]);
    // A heading's cell and its column's name are one: ECMA-376 part 1, 18.5.1.3.
    expect(headings).toEqual(columns);
    expect(table.match(/tableColumn id="(\d)"/g)).toHaveLength(
      new Set(table.match(/ id="\d"/g)).size,
    );
    expect(sheet).toContain("<f>SUM(Oils[Price])</f>");
  });

  test("put in and given a heading go by it", async () => {
    const { lost, columns, headings } = await changed(
      tabled((xml) => xml),
      (model, id) => {
        putColumns(model, id, 1, 1);
        write(model, "B1", "Maker");
      },
    );
    expect(lost).toEqual([]);
    expect(columns).toEqual(["Oil", "Maker", "Price", "Load"]);
    expect(headings).toEqual(columns);
  });

  test("before the first and after the last are none of its own", async () => {
    const before = await changed(
      tabled((xml) => xml),
      (model, id) => putColumns(model, id, 0, 1),
    );
    expect(before.table).toContain('ref="B1:D3"');
    expect(before.columns).toEqual(["Oil", "Price", "Load"]);
    const after = await changed(
      tabled((xml) => xml),
      (model, id) => putColumns(model, id, 3, 1),
    );
    expect(after.table).toContain('ref="A1:C3"');
  });

  test("taken out go from the table", async () => {
    const { lost, columns, table } = await changed(
      tabled((xml) => xml),
      take("COL", 2),
    );
    expect(lost).toEqual([]);
    expect(table).toMatch(/ref="A1:B3".*count="2"/);
    expect(columns).toEqual(["Oil", "Price"]);
  });

  const FILTER =
    '<autoFilter ref="A1:C3"><filterColumn colId="2"><filters><filter val="0.05"/></filters></filterColumn></autoFilter><sortState ref="A2:C3"><sortCondition ref="C2:C3"/></sortState>';
  const filtered = (xml: string) => xml.replace('<autoFilter ref="A1:C3"/>', FILTER);
  test("filters and orders stay with their column, and go with it", async () => {
    const put = await changed(tabled(filtered), (model, id) => putColumns(model, id, 1, 1));
    expect(put.lost).toEqual([]);
    // By hand: the third column is the fourth, counted from zero.
    expect(put.table).toContain('<filterColumn colId="3"><filters>');
    expect(put.table).toContain('<sortState ref="A2:D3"><sortCondition ref="D2:D3"/>');
    const before = await changed(tabled(filtered), (model, id) => putColumns(model, id, 0, 1));
    expect(before.table).toContain('<filterColumn colId="2">');
    const gone = await changed(tabled(filtered), take("COL", 2));
    expect(gone.table).not.toMatch(/filterColumn|sortState/);
    expect(gone.table).toContain('<autoFilter ref="A1:B3"/>');
  });

  test("so does a filter of a sheet", async () => {
    const sheet = (rich[SHEET] ?? "").replace(
      "<mergeCells",
      '<autoFilter ref="A5:C6"><filterColumn colId="2"/></autoFilter><mergeCells',
    );
    const { sheet: xml } = await changed(zipped({ ...rich, [SHEET]: sheet }), (model, id) =>
      putColumns(model, id, 1, 1),
    );
    expect(xml).toContain('<autoFilter ref="A5:D6"><filterColumn colId="3"/></autoFilter>');
  });

  test("of a query's table cannot be added, which is told", async () => {
    const { lost } = await changed(
      tabled((xml) => xml.replace(' id="1"', ' id="1" tableType="queryTable"')),
      (model, id) => putColumns(model, id, 1, 1),
    );
    expect(lost.join()).toContain(
      'The table Oils of "Oils" loses its name and its look: its columns',
    );
  });
});

describe("rows", () => {
  test("all taken out leave the table one line", async () => {
    const { lost, table } = await changed(
      tabled((xml) => xml),
      take("ROW", 1, 2),
    );
    expect(lost).toEqual([]);
    // By hand: a heading and one line, the least that a table has.
    expect(table).toMatch(/<table [^>]*ref="A1:C2"/);
    expect(table).toContain('<autoFilter ref="A1:C2"/>');
  });

  test("the heading taken out costs the table its name, which is told", async () => {
    const { lost, table, sheet } = await changed(
      tabled((xml) => xml),
      take("ROW", 0),
    );
    expect(lost.join()).toContain("its heading was taken out");
    expect(table).not.toContain('"Oils"');
    expect(sheet).not.toContain("Oils[");
  });

  test("the totals taken out are no part of it any more", async () => {
    const totalled = (xml: string) =>
      xml
        .replace('ref="A1:C3" totalsRowShown="0"', 'ref="A1:C3" totalsRowCount="1"')
        .replace('<autoFilter ref="A1:C3"/>', '<autoFilter ref="A1:C2"/>');
    const { table } = await changed(tabled(totalled), take("ROW", 2));
    expect(table).toMatch(/<table [^>]*ref="A1:C2" totalsRowShown="0">/);
  });

  test("and columns, all of them, take the table with them, without a word", async () => {
    const { lost, table, sheet } = await changed(
      tabled((xml) => xml),
      take("COL", 0, 1, 2),
    );
    expect(lost).toEqual([]);
    expect(table).toBe("");
    expect(sheet).not.toContain("tablePart");
  });
});

describe("brackets in a text", () => {
  // By hand: a text is what stands between its quotation marks, beside a table of that name, too.
  test.each([
    ['"[   ]"', "[   ]"],
    ['"["&amp;"a]"', "[a]"],
    ['IF(SUM(Oils[Price])&gt;0,"Oils[Price]","")', "Oils[Price]"],
    ['"5""[x]"', '5"[x]'],
  ])("%s", (formula, shown) => {
    const row = `<row r="9"><c r="F9"><f>${formula}</f></c></row></sheetData>`;
    const xml = (rich[SHEET] ?? "").replace("</sheetData>", row);
    expect(read(openModel(zipped({ ...rich, [SHEET]: xml })).model, "F9")).toBe(shown);
  });
});

describe("headings", () => {
  test.each<[string, Uint8Array]>([
    ["as usual", zipped(rich)],
    ["with prefixes", zipped(prefixed(rich))],
  ])("typed anew go into the table and the formulas that call it (%s)", async (_, bytes) => {
    const {
      lost,
      columns,
      headings,
      sheet,
      bytes: saved,
    } = await changed(bytes, (model) => write(model, "B1", "Cost [g]"));
    expect(lost).toEqual([]);
    expect(columns).toEqual(["Oil", "Cost [g]", "Load"]);
    if (!sheet.includes("<x:")) expect(headings).toEqual(columns);
    // ECMA-376 part 1, 18.17.6.5: a bracket in a name goes with a quote before it.
    expect(sheet).toContain("SUM(Oils[Cost '[g']])");
    expect(openModel(saved).hidden).toEqual([]);
  });

  test("emptied, or the same as another, are told as they are in the file", async () => {
    const blank = await changed(zipped(rich), (model) => write(model, "B1", ""));
    expect(blank.headings).toEqual(["Oil", "Price", "Load"]);
    expect(blank.lost.join()).toContain('The heading B1 of "Oils" is Price in the file');
    const twice = await changed(zipped(rich), (model) => write(model, "B1", "load"));
    expect(twice.headings).toEqual(["Oil", "load2", "Load"]);
    expect(twice.columns).toEqual(twice.headings);
    expect(twice.lost.join()).toContain('The heading B1 of "Oils" is load2 in the file');
  });

  test("that are numbers are texts in the file", async () => {
    const { sheet, columns } = await changed(zipped(rich), (model) => write(model, "B1", "2026"));
    expect(columns).toEqual(["Oil", "2026", "Load"]);
    expect(sheet).toMatch(/<c r="B1" t="inlineStr"><is><t[^>]*>2026<\/t>/);
  });

  test("with two lines are no other than they were", async () => {
    const lines = zipped({
      ...rich,
      [TABLE]: (rich[TABLE] ?? "").replace('name="Price"', 'name="Price_x000a_per kg"'),
      [SHEET]: (rich[SHEET] ?? "")
        .replace("<t>Price</t>", "<t>Price\nper kg</t>")
        .replace("Oils[Price]", "Oils[Load]"),
    });
    const { table } = await changed(lines, (model) => write(model, "B2", "9"));
    expect(table).toContain('name="Price_x000a_per kg"');
    const other = await changed(lines, (model) => write(model, "B1", "Cost\nper kg"));
    expect(other.table).toContain('name="Cost_x000a_per kg"');
  });

  test("of a new table that are blank, numbers or twice there are as programs want them", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Oils" }] });
    for (const [cell, content] of Object.entries({ A1: "2026", C1: "Load", D1: "load", A2: "1" }))
      write(model, cell, content);
    model.dispatch("CREATE_TABLE", {
      sheetId: "s",
      ranges: [model.getters.getRangeDataFromXc("s", "A1:D2")],
      tableType: "static",
      config: globalThis.o_spreadsheet.constants.PIVOT_STATIC_TABLE_CONFIG,
    } as never);
    const { bytes } = await saveBook(model);
    const parts = unzipSync(bytes);
    const table = strFromU8(parts[TABLE] ?? new Uint8Array());
    const columns = [...table.matchAll(/tableColumn [^>]*?name="([^"]*)"/g)].map(
      ([, name]) => name,
    );
    const cells = readBook(bytes).get("Oils");
    expect(["A1", "B1", "C1", "D1"].map((cell) => cells?.get(cell)?.value)).toEqual(columns);
    expect(columns[0]).toBe("2026");
    expect(new Set(columns.map((name) => name?.toLowerCase())).size).toBe(4);
  });
});
