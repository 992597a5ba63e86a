import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { partsOf, prefixed, richParts, sheet, strict, zipped } from "../files/foreign-book";
import { readBook } from "../files/read-book";
import { LocalWorkbook, bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

/** A workbook that was opened, kept and taken up again, as the page does it; then changed and saved. */
async function changed(bytes: Uint8Array, change: (model: Model, sheetId: string) => unknown) {
  const model = newModel(JSON.parse(JSON.stringify(bound(openModel(bytes), "key"))) as object);
  await change(model, model.getters.getSheetIds()[0]);
  const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  return { ...saved, model, parts: unzipSync(saved.bytes) };
}

/** The parts that are other than they were: + for new, - for gone. */
function different(before: Uint8Array, after: Uint8Array): string[] {
  const [was, is] = [unzipSync(before), unzipSync(after)];
  return [...new Set([...Object.keys(was), ...Object.keys(is)])]
    .flatMap((path) => {
      if (!is[path]) return [`-${path}`];
      if (!was[path]) return [`+${path}`];
      return strFromU8(was[path]) === strFromU8(is[path]) ? [] : [path];
    })
    .sort();
}

/** What stands in a cell as it was typed. */
function contentOf(model: Model, name: string): unknown {
  return model.exportData().sheets[0].cells[name];
}

function viewOf(model: Model) {
  const [{ panes, areGridLinesVisible: gridLines, color }] = model.exportData().sheets;
  return { panes, gridLines, color };
}

const rich = zipped(richParts());
const SHEET = "xl/worksheets/sheet1.xml";
const insertRows = (model: Model, sheetId: string, base = 2, quantity = 2) =>
  model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId,
    sheetName: "Oils",
    dimension: "ROW",
    base,
    quantity,
    position: "before",
  });
describe("a workbook that was opened, saved", () => {
  test.each<[string, Uint8Array]>([
    ["as usual", rich],
    ["strict", zipped(strict(richParts()))],
    ["with prefixes", zipped(prefixed(richParts()))],
  ])("and not touched, is the same bytes (%s)", async (_, bytes) => {
    const { bytes: saved, lost } = await changed(bytes, () => undefined);
    expect(saved).toBe(bytes);
    expect(lost).toEqual([]);
  });

  test.each<[string, Uint8Array]>([
    ["as usual", rich],
    ["strict", zipped(strict(richParts()))],
    ["with prefixes", zipped(prefixed(richParts()))],
  ])("with one cell changed, differs in that sheet alone (%s)", async (_, bytes) => {
    const { bytes: saved, lost } = await changed(bytes, (model) => write(model, "B3", "20"));
    expect(lost).toEqual([]);
    expect(different(bytes, saved)).toEqual([SHEET]);
    // By hand: 10 and 20; the formula that stood for two cells still does.
    expect(
      readBook(saved).get("Oils")?.get("B6")?.value ?? read(openModel(saved).model, "B6"),
    ).toBe(30);
    expect(read(openModel(saved).model, "C6")).toBe(40);
  });

  test("the rest of the sheet stays as it was written", async () => {
    const { parts } = await changed(rich, (model) => write(model, "B3", "20"));
    const [was, is] = [strFromU8(unzipSync(rich)[SHEET]), strFromU8(parts[SHEET])];
    const tail = (xml: string) => xml.slice(xml.indexOf("</sheetData>"));
    expect(tail(is)).toBe(tail(was));
    expect(is).toContain("<f>SUM(Oils[Price])</f><v>30</v>");
    expect(is).toContain('<f t="shared" si="3"/><v>40</v>');
  });

  test("a changed look keeps the font that the local sheet does not show", async () => {
    const { parts, bytes } = await changed(rich, (model, sheetId) =>
      model.dispatch("SET_FORMATTING", {
        sheetId,
        target: [{ top: 0, bottom: 0, left: 0, right: 0 }],
        style: { italic: true },
      } as never),
    );
    expect(different(rich, bytes)).toEqual(["xl/styles.xml", SHEET]);
    const font = /<font><b\/><i\/>.*?<\/font>/.exec(strFromU8(parts["xl/styles.xml"]))?.[0];
    expect(font).toContain('<name val="Georgia"/>');
    expect(
      openModel(bytes).model.getters.getCellStyle({ sheetId: "Oils", row: 0, col: 0 }),
    ).toMatchObject({ bold: true, italic: true, fontSize: 14 });
  });

  test("rows put in: notes, table, chart, rules, names and print area follow", async () => {
    const { parts, bytes, lost } = await changed(rich, insertRows);
    expect(lost).toEqual([]);
    const text = (path: string) => strFromU8(parts[path]);
    expect(text("xl/comments1.xml")).toContain('ref="B5"');
    expect(text("xl/drawings/vmlDrawing1.vml")).toContain("<x:Row>4</x:Row>");
    expect(text("xl/tables/table1.xml")).toContain('ref="A1:C5" totalsRowShown');
    expect(text("xl/charts/chart1.xml")).toContain("<c:f>Oils!$B$2:$B$5</c:f>");
    expect(text("xl/drawings/drawing1.xml")).toContain("<xdr:row>9</xdr:row>");
    expect(text("xl/workbook.xml")).toContain("Oils!$A$1:$C$8");
    expect(text("xl/workbook.xml")).toContain("Oils!$B$2:$B$5");
    expect(text(SHEET)).toContain('sqref="B2:B5"');
    expect(text(SHEET)).toContain('promptTitle="Price"');
    expect(text(SHEET)).toContain("<oddFooter>");
    // By hand: 10 and 12, two rows further down.
    expect(read(openModel(bytes).model, "B8")).toBe(22);
  });

  test("rows put in where rows and cells go without names", async () => {
    const parts = richParts();
    const bytes = zipped({
      ...parts,
      [SHEET]: (parts[SHEET] ?? "").replace(/ r="(?:[1-3]|[A-C][1-3])"/g, ""),
    });
    const { bytes: saved, lost } = await changed(bytes, (model, id) => insertRows(model, id));
    expect(lost).toEqual([]);
    const again = openModel(saved).model;
    // By hand: moss stood in the third row, and two were put in above it.
    expect([read(again, "A2"), read(again, "A3"), read(again, "A5")]).toEqual([
      "rain",
      null,
      "moss",
    ]);
    expect(read(again, "B8")).toBe(22);
  });

  test("rows put in and taken back by undo leave the same bytes", async () => {
    const { bytes } = await changed(rich, (model, sheetId) => {
      insertRows(model, sheetId);
      model.dispatch("REQUEST_UNDO");
    });
    expect(bytes).toBe(rich);
  });

  const FROZEN =
    '<sheetPr codeName="Oils"><tabColor theme="4"/><outlinePr summaryBelow="0"/></sheetPr><sheetViews><sheetView showGridLines="0" zoomScale="80" workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft"/></sheetView></sheetViews>';
  const viewed = (xml: string) => ({
    ...partsOf(xml),
    "xl/styles.xml": richParts()["xl/styles.xml"] ?? "",
  });
  const ROW = '<row r="1"><c r="A1"><v>1</v></c></row>';
  test.each<[string, Uint8Array]>([
    ["without views of its own", zipped(viewed(sheet(ROW, "", '<dimension ref="A1"/>')))],
    ["with some", zipped(viewed(sheet(ROW, "", FROZEN)))],
    ["with prefixes", zipped(prefixed(viewed(sheet(ROW, "", FROZEN))))],
    ["strict", zipped(strict(viewed(sheet(ROW))))],
  ])(
    "frozen rows, grid lines and the tab's colour are written into a sheet %s",
    async (_, bytes) => {
      const { gridLines } = viewOf(openModel(bytes).model);
      const {
        bytes: saved,
        lost,
        parts,
      } = await changed(bytes, (model, sheetId) => {
        model.dispatch("FREEZE_ROWS", { sheetId, quantity: 2 });
        model.dispatch("FREEZE_COLUMNS", { sheetId, quantity: 1 });
        model.dispatch("SET_GRID_LINES_VISIBILITY", { sheetId, areGridLinesVisible: !gridLines });
        model.dispatch("COLOR_SHEET", { sheetId, color: "#AA00CC" });
      });
      expect(lost).toEqual([]);
      expect(viewOf(openModel(saved).model)).toEqual({
        panes: { xSplit: 1, ySplit: 2 },
        gridLines: !gridLines,
        color: "#AA00CC",
      });
      const text = strFromU8(parts[SHEET]);
      expect(text.match(/<(?:\w+:)?pane\s/g)).toHaveLength(1);
      expect(text.match(/tabColor/g)).toHaveLength(1);
      if (bytes.length > 0 && text.includes("zoomScale")) expect(text).toContain("summaryBelow");
    },
  );

  test("what was frozen and is so no more leaves nothing behind", async () => {
    const bytes = zipped(viewed(sheet(ROW, "", FROZEN)));
    const { parts } = await changed(bytes, (model, sheetId) => {
      model.dispatch("UNFREEZE_COLUMNS_ROWS", { sheetId });
      model.dispatch("COLOR_SHEET", { sheetId });
    });
    expect(strFromU8(parts[SHEET])).toContain(
      '<sheetPr codeName="Oils"><outlinePr summaryBelow="0"/></sheetPr><sheetViews><sheetView showGridLines="0" zoomScale="80" workbookViewId="0"></sheetView>',
    );
  });

  test("rows taken out: sums of what is left are written, in other sheets, too", async () => {
    const two = richParts();
    const bytes = zipped({
      ...two,
      "xl/workbook.xml": two["xl/workbook.xml"].replace(
        "</sheets>",
        '<sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="Sums" sheetId="2" r:id="rId9"/></sheets>',
      ),
      "xl/_rels/workbook.xml.rels": two["xl/_rels/workbook.xml.rels"].replace(
        "</Relationships>",
        '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sums.xml"/></Relationships>',
      ),
      "xl/worksheets/sums.xml": sheet(
        '<row r="1"><c r="A1"><f>SUM(Oils!B1:B3)</f><v>22</v></c><c r="B1"><f>CUBEVALUE("a")</f><v>7</v></c></row>',
      ),
    });
    const { parts } = await changed(bytes, (model, sheetId) =>
      model.dispatch("REMOVE_COLUMNS_ROWS", {
        sheetId,
        sheetName: "Oils",
        dimension: "ROW",
        elements: [1],
      }),
    );
    // By hand: 10 and 12, of which 10 was taken out.
    expect(strFromU8(parts[SHEET])).toContain("<f>SUM(Oils[Price])</f><v>12</v>");
    const sums = strFromU8(parts["xl/worksheets/sums.xml"]);
    expect(sums).toContain("<f>SUM(Oils!B1:B2)</f><v>12</v>");
    expect(sums).toContain('<f>CUBEVALUE("a")</f><v>7</v>');
    expect(strFromU8(parts["xl/workbook.xml"])).toContain('fullCalcOnLoad="1"');
  });

  test("another name for a sheet goes through charts and names", async () => {
    const { parts } = await changed(rich, (model, sheetId) =>
      model.dispatch("RENAME_SHEET", { sheetId, oldName: "Oils", newName: "My oils" }),
    );
    expect(strFromU8(parts["xl/charts/chart1.xml"])).toContain(
      "&apos;My oils&apos;!$B$2:$B$3".replaceAll("&apos;", "'"),
    );
    expect(strFromU8(parts["xl/workbook.xml"])).toContain("'My oils'!$B$2:$B$3");
  });

  test("a template on a sheet of its own is a new part; the others stay", async () => {
    const [template] = templates;
    const { bytes, lost, model } = await changed(rich, (own) =>
      new LocalWorkbook(own).drawOnNewSheet(template.title, drawingOf(template, true)),
    );
    expect(lost).toEqual([]);
    const other = different(rich, bytes).filter((path) => !path.startsWith("+"));
    expect(other).toEqual([
      "[Content_Types].xml",
      "xl/_rels/workbook.xml.rels",
      "xl/styles.xml",
      "xl/workbook.xml",
    ]);
    const again = openModel(bytes).model;
    const drawn = drawingOf(template, true).cells;
    for (const { row, column } of drawn) {
      const name = globalThis.o_spreadsheet.helpers.toXC(column, row);
      expect(read(again, name, template.title), name).toEqual(read(model, name, template.title));
    }
  });

  test("a sheet taken out is told with what hangs on it", async () => {
    const { bytes, lost } = await changed(rich, async (model, sheetId) => {
      await new LocalWorkbook(model).drawOnNewSheet("Plain", drawingOf(templates[0], false));
      model.dispatch("DELETE_SHEET", { sheetId, sheetName: "Oils" });
    });
    expect(lost.join()).toContain('The sheet "Oils" is taken out');
    const parts = Object.keys(unzipSync(bytes));
    expect(parts.filter((path) => /comments|vml|table1/.test(path))).toEqual([]);
    expect([...readBook(bytes).keys()]).toEqual(["Plain"]);
  });

  test("what was read in it may be kept beside it, and comes to the same", async () => {
    const data = bound(openModel(rich), "key");
    const save = (change: (model: Model) => unknown) => {
      const model = newModel(structuredClone(data));
      change(model);
      return saveBook(model, {
        key: "key",
        name: "mine.xlsx",
        bytes: rich,
        data: structuredClone(data),
      });
    };
    expect((await save(() => undefined)).bytes).toBe(rich);
    const { bytes } = await changed(rich, (model) => write(model, "B3", "20"));
    expect((await save((model) => write(model, "B3", "20"))).bytes).toEqual(bytes);
  });

  test("after the browser has lost the file, the person is told so", async () => {
    const model = newModel(bound(openModel(rich), "key"));
    const { lost } = await saveBook(model, null);
    expect(lost.join()).toMatch(/has not kept the file/);
  });
});

describe("formulas in a file", () => {
  const fresh = async (contents: Record<string, string>) => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    for (const [cell, content] of Object.entries(contents)) write(model, cell, content);
    const { bytes, lost } = await saveBook(model);
    return { lost, xml: strFromU8(unzipSync(bytes)["xl/worksheets/sheet0.xml"]), bytes };
  };

  test.each([
    ["=SUM(A1:A2)*2", "<f>SUM(A1:A2)*2</f>"],
    ["=IF(A1>1,A1,A2)", "<f>IF(A1&gt;1,A1,A2)</f>"],
    ["=SUM(A1:A2*2)", '<f t="array" ref="B1">SUM(A1:A2*2)</f>'],
    ["=SORT(A1:A2)", '<f t="array" ref="B1:B2">_xlfn._xlws.SORT(A1:A2)</f>'],
    ["=FILTER(A1:A2,A1:A2>1)", "_xlfn._xlws.FILTER(A1:A2,A1:A2&gt;1)</f>"],
    ["=OFFSET(A1,1,0)", "OFFSET(A1,1,0)</f>"],
    ["=FOO(A1)", "<f>FOO(A1)</f><v>#NAME?</v>"],
  ])("%s", async (typed, written) => {
    const { xml, lost } = await fresh({ A1: "3", A2: "1", B1: typed });
    expect(xml).toContain(written);
    expect(lost).toEqual([]);
  });

  test("what no other program has becomes its value, and is named", async () => {
    const { lost, bytes } = await fresh({ A1: "a b", B1: '=SPLIT(A1," ")' });
    expect(lost).toEqual([
      'B1 of "Sheet" is written as its value: SPLIT is known to the local sheet only (=SPLIT(A1," ")).',
    ]);
    expect(readBook(bytes).get("Sheet")?.get("C1")?.value).toBe("b");
  });

  // Excel keeps the apostrophe in the cell's look, quotePrefix: ECMA-376 part 1, 18.8.45.
  const typed = { A1: "'5-3", A2: "'Rain", A3: "''s", A4: "Rain 5", A5: "12" };
  const values = ["5-3", "Rain", "'s", "Rain 5", 12];
  const typedIn = ({ model }: { model: Model }) =>
    Object.keys(typed).map((name) => contentOf(model, name));
  const quotedOnes = (bytes: Uint8Array, path: string) => {
    const parts = unzipSync(bytes);
    const list = /<cellXfs[\s\S]*<\/cellXfs>/.exec(strFromU8(parts["xl/styles.xml"]))?.[0] ?? "";
    const looks = list.match(/<xf\b[^>]*>/g) ?? [];
    return Object.keys(typed).filter((name) => {
      const style = new RegExp(`r="${name}"[^>]*?\\ss="(\\d+)"`).exec(strFromU8(parts[path]))?.[1];
      return looks[Number(style ?? 0)]?.includes('quotePrefix="1"');
    });
  };

  test("a text that was typed with an apostrophe is the text without it, and is typed so again", async () => {
    const { bytes } = await fresh(typed);
    const book = readBook(bytes).get("Sheet");
    expect(Object.keys(typed).map((name) => book?.get(name)?.value)).toEqual(values);
    expect(quotedOnes(bytes, "xl/worksheets/sheet0.xml")).toEqual(["A1", "A2", "A3"]);
    expect(typedIn(openModel(bytes))).toEqual(Object.values(typed));
  });

  test("in a file that was opened, too, and a number typed over it is one", async () => {
    const { bytes } = await fresh(typed);
    const plain = zipped(partsOf(sheet('<row r="1"><c r="A1" s="1"><v>1</v></c></row>')));
    const into = await changed(plain, (model) =>
      Object.entries(typed).forEach(([name, content]) => write(model, name, content)),
    );
    expect(quotedOnes(into.bytes, SHEET)).toEqual(["A1", "A2", "A3"]);
    expect(typedIn(openModel(into.bytes))).toEqual(Object.values(typed));
    const over = await changed(bytes, (model) => {
      write(model, "A1", "7");
      write(model, "A5", "'12");
    });
    expect(quotedOnes(over.bytes, "xl/worksheets/sheet0.xml")).toEqual(["A2", "A3", "A5"]);
    expect(read(openModel(over.bytes).model, "A1")).toBe(7);
  });
});
