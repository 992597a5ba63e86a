/** Sizes, looks, tabs and rules changed in a workbook that was opened, as they then are in its file. */
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { HEAD, MAIN, inline, partsOf, richParts, sheet, zipped } from "../files/foreign-book";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const SHEET = "xl/worksheets/sheet1.xml";
const ROWS =
  `<row r="1">${inline("A1", "Rain", ' s="1"')}<c r="B1"><v>0.5</v></c></row>` +
  '<row r="3" s="2" customFormat="1"><c r="A3" s="2"><v>1</v></c></row>';
const HEADS =
  '<dimension ref="A1:B3"/><cols><col min="1" max="4" width="20" style="1" customWidth="1"/></cols>';
const plain = partsOf(sheet(ROWS, "", HEADS));

async function changed(
  parts: Record<string, string>,
  change: (model: Model, id: string) => unknown,
) {
  const bytes = zipped(parts);
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  await change(model, model.getters.getActiveSheetId());
  const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  const all = unzipSync(saved.bytes);
  const text = (path: string) => (all[path] ? strFromU8(all[path]) : "");
  const list = /<cellXfs\b.*?<\/cellXfs>/s.exec(text("xl/styles.xml"))?.[0] ?? "";
  const looks = list.match(/<xf\b(?:[^>]*\/>|.*?<\/xf>)/gs) ?? [];
  /** The look of a cell, and one of a list that it calls by number. */
  const lookOf = (name: string) => {
    const style = new RegExp(`r="${name}"[^>]*?\\ss="(\\d+)"`).exec(text(SHEET))?.[1];
    return looks[Number(style ?? 0)] ?? "";
  };
  const calledBy = (name: string, id: string, mark: string) => {
    const number = Number(new RegExp(`\\s${id}="(\\d+)"`).exec(lookOf(name))?.[1]);
    const inside = new RegExp(`<${mark}s\\b.*?</${mark}s>`, "s").exec(text("xl/styles.xml"))?.[0];
    return (
      inside?.match(new RegExp(`<${mark}(?:\\s[^>]*)?(?:/>|>.*?</${mark}>)`, "gs"))?.[number] ?? ""
    );
  };
  const again = () => openModel(saved.bytes).model;
  return { ...saved, text, sheet: text(SHEET), lookOf, calledBy, again };
}

const format = (model: Model, sheetId: string, zone: string, look: object) =>
  model.dispatch("SET_FORMATTING", {
    sheetId,
    target: [model.getters.getRangeFromSheetXC(sheetId, zone).zone],
    ...look,
  } as never);

describe("sizes", () => {
  test("a column made wider is cut out of its stretch; the others stay", async () => {
    const { sheet: xml } = await changed(plain, (model, sheetId) =>
      model.dispatch("RESIZE_COLUMNS_ROWS", {
        sheetId,
        dimension: "COL",
        elements: [1],
        size: 300,
      }),
    );
    const columns = [...xml.matchAll(/<col [^>]*>/g)].map(([mark]) =>
      ["min", "max", "style"].map((name) => new RegExp(`\\s${name}="(\\d+)"`).exec(mark)?.[1]),
    );
    expect(columns).toEqual([
      ["1", "1", "1"],
      ["2", "2", "1"],
      ["3", "4", "1"],
    ]);
  });

  test("rows and columns that are hidden are hidden in the file, and shown again", async () => {
    const hidden = await changed(plain, (model, sheetId) => {
      model.dispatch("HIDE_COLUMNS_ROWS", { sheetId, dimension: "ROW", elements: [1] });
      model.dispatch("HIDE_COLUMNS_ROWS", { sheetId, dimension: "COL", elements: [6] });
    });
    expect(hidden.sheet).toMatch(/<row r="2" hidden="1"/);
    // ECMA-376 part 1, 18.3.1.13: a column is as wide as it says, hidden or not; one without a width has none.
    expect(hidden.sheet).toMatch(/<col (?=[^>]*min="7")(?=[^>]*hidden="1")(?=[^>]*width="\d)/);
    const shown = await changed(
      partsOf(sheet(ROWS.replace('<row r="1"', '<row r="1" hidden="1"'))),
      (model, sheetId) =>
        model.dispatch("UNHIDE_COLUMNS_ROWS", { sheetId, dimension: "ROW", elements: [0] }),
    );
    expect(shown.sheet).not.toContain("hidden");
  });
});

describe("looks", () => {
  test("a new cell has the look of its row, or else of its column", async () => {
    const { sheet: xml } = await changed(plain, (model) => {
      write(model, "B2", "7");
      write(model, "B3", "7");
      write(model, "F2", "7");
    });
    expect(xml).toMatch(/<c r="B2" s="1">/);
    expect(xml).toMatch(/<c r="B3" s="2">/);
    expect(xml).toMatch(/<c r="F2">/);
    expect(xml).toContain('<dimension ref="A1:F3"/>');
  });

  test.each([
    ["0.00", "2"],
    ["0%", "9"],
    ['0.000" kg"', "164"],
  ])("the format %s is number %s", async (format_, number) => {
    // ECMA-376 part 1, 18.8.30: the numbers of formats that are known; own ones begin at 164.
    const { lookOf, text } = await changed(plain, (model, id) =>
      format(model, id, "B1", { format: format_ }),
    );
    expect(lookOf("B1")).toContain(`numFmtId="${number}"`);
    expect(text("xl/styles.xml").includes("0.000&quot; kg&quot;")).toBe(number === "164");
  });

  test("a fill is put on and taken off, a line drawn, a text centred and wrapped", async () => {
    const { calledBy, lookOf } = await changed(plain, (model, id) => {
      format(model, id, "A1", { style: { fillColor: "" } });
      format(model, id, "B1", {
        style: { fillColor: "#FFEE00", align: "center", wrapping: "wrap" },
      });
      const { zone } = model.getters.getRangeFromSheetXC(id, "B1");
      const border = { position: "bottom", color: "#112233", style: "dashed" };
      model.dispatch("SET_ZONE_BORDERS", { sheetId: id, target: [zone], border } as never);
    });
    expect(calledBy("A1", "fillId", "fill")).toMatch(/patternFill\s*\/|patternType="none"/);
    expect(calledBy("A1", "fontId", "font")).toContain("Georgia");
    expect(calledBy("B1", "fillId", "fill")).toContain('rgb="FFFFEE00"');
    expect(calledBy("B1", "borderId", "border")).toContain(
      '<bottom style="dashed"><color rgb="FF112233"/>',
    );
    expect(lookOf("B1")).toMatch(/<alignment (?=[^>]*horizontal="center")(?=[^>]*wrapText="1")/);
  });

  test("of a new rule is among those of the file", async () => {
    const { text, sheet: xml } = await changed(richParts(), (model, sheetId) =>
      model.dispatch("ADD_CONDITIONAL_FORMAT", {
        sheetId,
        ranges: [model.getters.getRangeDataFromXc(sheetId, "C2:C3")],
        cf: {
          id: "new",
          rule: {
            type: "CellIsRule",
            operator: "isLessThan",
            values: ["1"],
            style: { fillColor: "#00FF00" },
          },
        },
      } as never),
    );
    const id = Number(/sqref="C2:C3".*?dxfId="(\d+)"/s.exec(xml)?.[1]);
    const looks = [...text("xl/styles.xml").matchAll(/<dxf\b.*?<\/dxf>/gs)].map(([look]) => look);
    expect(looks[id]).toMatch(/00FF00/i);
    expect(looks[0]).toContain("FFC7CE");
    expect(xml).toContain('dxfId="0"');
  });
});

describe("the workbook", () => {
  const TWO = {
    ...plain,
    "xl/workbook.xml": plain["xl/workbook.xml"]
      .replace("<sheets>", '<bookViews><workbookView activeTab="0"/></bookViews><sheets>')
      .replace(
        "</sheets>",
        `<sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="Two" sheetId="5" r:id="rId9"/></sheets><definedNames><definedName name="_xlnm.Print_Area" localSheetId="1">Two!$A$1</definedName></definedNames>`,
      ),
    "xl/_rels/workbook.xml.rels": plain["xl/_rels/workbook.xml.rels"].replace(
      "</Relationships>",
      '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/two.xml"/></Relationships>',
    ),
    "xl/worksheets/two.xml": sheet('<row r="1"><c r="A1"><v>2</v></c></row>'),
  };

  test("tabs moved take what is their own, and what was seen last, with them", async () => {
    const { text, again } = await changed(TWO, (model, sheetId) =>
      model.dispatch("MOVE_SHEET", { sheetId, delta: 1 }),
    );
    const xml = text("xl/workbook.xml");
    expect([...xml.matchAll(/<sheet [^>]*name="(\w+)"/g)].map(([, name]) => name)).toEqual([
      "Two",
      "Oils",
    ]);
    expect(xml).toContain('localSheetId="0">Two!$A$1');
    expect(xml).toContain('activeTab="1"');
    expect(read(again(), "A1", "Two")).toBe(2);
  });

  test("a sheet is hidden, and shown", async () => {
    const { text } = await changed(TWO, (model) =>
      model.dispatch("HIDE_SHEET", { sheetId: model.getters.getSheetIdByName("Two") as string }),
    );
    expect(text("xl/workbook.xml")).toMatch(/name="Two"[^>]*state="hidden"/);
    const hidden = {
      ...TWO,
      "xl/workbook.xml": TWO["xl/workbook.xml"].replace('name="Two"', 'name="Two" state="hidden"'),
    };
    const shown = await changed(hidden, (model) =>
      model.dispatch("SHOW_SHEET", { sheetId: model.getters.getSheetIdByName("Two") as string }),
    );
    expect(shown.text("xl/workbook.xml")).not.toContain("hidden");
  });

  test("the order of working out goes when a formula comes or goes, and stays for a number", async () => {
    const chained = {
      ...plain,
      [SHEET]: sheet('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c></row>'),
      "xl/_rels/workbook.xml.rels": plain["xl/_rels/workbook.xml.rels"].replace(
        "</Relationships>",
        '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>',
      ),
      "xl/calcChain.xml": `${HEAD}<calcChain xmlns="${MAIN}"><c r="B1" i="1"/></calcChain>`,
    };
    const chain = async (content: string) =>
      (await changed(chained, (model) => write(model, "B1", content))).text("xl/calcChain.xml");
    // Excel takes a wrong order for damage: common practice, no source.
    expect(await chain("3")).toBe("");
    expect(await chain("=A1*3")).not.toBe("");
  });
});
