import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { packPlan } from "../../src/cost/packplan";
import { netLabel } from "../../src/limits/netlabel";
import { trioNeed } from "../../src/trial/trioneed";
import { readFormula } from "../../functions/formula/reader";
import { nativeFormula } from "../../functions/files/native-formula";
import { handOver } from "../../functions/files/hand-over";
import { ADD_IN_ID } from "../../functions/files/panes";
import {
  type Element,
  Package,
  allNamed,
  childNamed,
  childrenNamed,
} from "../../functions/files/package";
import { PICTURE, asExcel } from "./as-excel";
import { readBook } from "./read-book";

const original = asExcel();
const before = original.slice();
const copy = handOver(original);
const parts = unzipSync(copy.bytes);
const part = (path: string) => strFromU8(parts[path]);
const cells = readBook(copy.bytes).get("Costs");
const formula = (cell: string) => cells?.get(cell)?.formula;
const value = (cell: string) => cells?.get(cell)?.value;
const listed = (cell: string) => copy.replaced.filter((each) => each.cell === cell);

/** The same workbook with something in a part put another way. */
function changed(path: string, from: string, to: string): Uint8Array {
  const all = unzipSync(original);
  const text = strFromU8(all[path]);
  expect(text).toContain(from);
  return zipSync({ ...all, [path]: strToU8(text.replace(from, to)) });
}

describe("formulas of plain arithmetic stay live", () => {
  test("over names, and over a name that holds a call itself", () => {
    expect(formula("B3")).toMatch(/^IF\(.*N\(batch\)\*N\(load\)/);
    expect(formula("B4")).toBe("oil*2");
    const name = allNamed(Package.open(copy.bytes).root("xl/workbook.xml"), "definedName")[2];
    expect(name.textContent).toMatch(/^IF\(.*N\(Costs!\$B\$1\)\*N\(Costs!\$B\$2\)/);
  });

  test("calls in calls and in other formulas", () => {
    expect(formula("B6")).toMatch(/^IF\(B1=0,"",IF\(.*\)&" g"\)$/);
    expect(listed("B6")).toMatchObject([
      { was: '=IF(B1=0,"",MIST.BASEFOR(batch,MIST.LOADOF(3,57))&" g")', became: "formula" },
    ]);
  });

  test("filled ones are written out, each for its own line; others stay as they are", () => {
    expect(["F1", "F2", "F3"].map(formula)).toEqual(
      [1, 2, 3].map((n) => expect.stringContaining(`N(E${n})/28.349523125`)),
    );
    const sheet = part("xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<f t="shared" ref="G1:G2" si="1">E1*2</f>');
    expect(sheet).not.toContain('si="0"');
  });

  test("spilled ones keep the cells that they fill, and what reads them", () => {
    expect(part("xl/worksheets/sheet1.xml")).toMatch(
      /<c r="H1" cm="1"><f t="array" ref="H1:H3">IF\(/,
    );
    expect(formula("I1")).toBe("SUM(_xlfn.ANCHORARRAY(H1))");
  });

  test("over a table: its cells, its columns, and the formula of its new lines", () => {
    expect(formula("C11")).toContain("Packs[[#This Row],[Price]]");
    expect(formula("B14")).toContain("SUMPRODUCT(Packs[Size],Packs[Price])/SUM(Packs[Size])");
    expect(part("xl/tables/table1.xml")).toMatch(
      /<calculatedColumnFormula>IF\(.*Packs\[\[#This Row\],\[Size\]\]/,
    );
  });

  test("in conditional formats", () => {
    expect(part("xl/worksheets/sheet1.xml")).toMatch(
      /<cfRule type="expression" priority="1"><formula>B3&gt;IF\(/,
    );
  });
});

test("a name that uses a lost one is lost, and its cells are fixed", () => {
  const bytes = changed(
    "xl/workbook.xml",
    "</definedNames>",
    '<definedName name="packs">SUM(plan)</definedName></definedNames>',
  );
  const parts = unzipSync(bytes);
  const path = "xl/worksheets/sheet1.xml";
  const sheet = strFromU8(parts[path]).replace("<f>oil*2</f>", "<f>packs*2</f>");
  const { replaced } = handOver(zipSync({ ...parts, [path]: strToU8(sheet) }));
  expect(replaced).toContainEqual(
    expect.objectContaining({
      cell: "B4",
      became: "value",
      what: "the name packs has no native formula",
    }),
  );
});

test("links that lead out of the file are no parts of it, whatever they look like", () => {
  const link = `<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink" Target="https://rain.example/100%" TargetMode="External"/></Relationships>`;
  for (const path of ["xl/worksheets/_rels/sheet1.xml.rels", "xl/_rels/workbook.xml.rels"]) {
    const { bytes, replaced } = handOver(changed(path, "</Relationships>", link));
    expect(replaced).toEqual(copy.replaced);
    expect(strFromU8(unzipSync(bytes)[path])).toContain('Target="https://rain.example/100%"');
  }
});

test("a formula that would be longer than Excel takes becomes its value", () => {
  const sum = (calls: number) =>
    Array.from({ length: calls }, () => "_xldudf_MIST_OILFOR(B1,B2)").join("+");
  const one = nativeFormula(readFormula(sum(1)), () => null).text.length;
  // Excel takes 8,192 characters: Microsoft, "Excel specifications and limits".
  const most = Math.floor(8192 / (one + 1));
  expect(nativeFormula(readFormula(sum(most)), () => null).text.length).toBeLessThanOrEqual(8192);
  expect(() => nativeFormula(readFormula(sum(most + 1)), () => null)).toThrow(
    "longer than Excel takes",
  );
});

test("names that LET gives stay, and the calls over them go", () => {
  const stored = "_xlfn.LET(_xlpm.x,B1*2,_xldudf_MIST_OILFOR(_xlpm.x,0.05))";
  const native = nativeFormula(readFormula(stored), () => null);
  expect(native.text).toMatch(/^_xlfn\.LET\(_xlpm\.x,B1\*2,IF\(.*_xlpm\.x,0\)\*0\.05,#VALUE!\)/);
  expect(native.text).not.toContain("MIST");
});

test("the values that the workbook brings are those that our functions give", () => {
  expect(packPlan(100, [[10, 20, 40]], [[3, 3.5, 4]])).toEqual([[0, 1, 2]]);
  expect([trioNeed(30), trioNeed(24)]).toEqual([15, 13]);
  expect(`${String(netLabel(4, "floz")[0][0])}  ${trioNeed(24)}`).toBe("4 fl oz (118 mL)  13");
});

describe("others become their value", () => {
  test("the value as it stood, all cells of a spilled answer, marked", () => {
    expect(["K1", "L1", "M1"].map((cell) => [value(cell), formula(cell)])).toEqual([
      [0, undefined],
      [1, undefined],
      [2, undefined],
    ]);
    const file = Package.open(copy.bytes);
    const xfs = allNamed(file.root("xl/styles.xml"), "xf").slice(1);
    const styles = allNamed(file.root("xl/worksheets/sheet1.xml"), "c")
      .filter((cell) => ["K1", "L1", "M1"].includes(cell.getAttribute("r") ?? ""))
      .map((cell) => xfs[Number(cell.getAttribute("s"))].getAttribute("borderId"));
    expect(styles).toEqual(["1", "1", "1"]);
    expect(part("xl/styles.xml")).toContain('style="mediumDashed"');
  });

  test("each keeps its own format", () => {
    const bytes = changed(
      "xl/worksheets/sheet1.xml",
      '<c r="K5" cm="1">',
      '<c r="K5" cm="1" s="1">',
    );
    const file = Package.open(handOver(bytes).bytes);
    const looks = childrenNamed(childNamed(file.root("xl/styles.xml"), "cellXfs") as Element, "xf");
    const formatOf = (name: string) => {
      const cell = allNamed(file.root("xl/worksheets/sheet1.xml"), "c").find(
        (each) => each.getAttribute("r") === name,
      );
      return looks[Number(cell?.getAttribute("s"))].getAttribute("numFmtId");
    };
    // Format 10 is a percentage with two places (ECMA-376 part 1, 18.8.30); 0 is none.
    expect(["K1", "K5", "K6"].map(formatOf)).toEqual(["0", "10", "0"]);
  });

  test("a text with spaces stays the text that it was", () => {
    expect(value("K7")).toBe("4 fl oz (118 mL)  13");
    expect(part("xl/worksheets/sheet1.xml")).toMatch(/<c r="K7"[^>]* t="inlineStr"/);
  });

  test("the formula stands in a note; a note that was there is kept above it", () => {
    const notes = part("xl/comments1.xml");
    expect(notes).toMatch(
      /<comment ref="K1".*?PACKPLAN is more than arithmetic\. It was =MIST\.PACKPLAN\(100,TRANSPOSE\(E1:E3\),\{3,3\.5,4\}\).*?It filled K1:M1\./s,
    );
    expect(notes).toMatch(
      /<comment ref="K5" authorId="0"><text><r><t>Ask Ana<\/t><\/r><r><t xml:space="preserve">\n\nFixed value/,
    );
    expect(notes.match(/<comment /g)).toHaveLength(5);
    // One shape for each new note, beside the one that was there.
    expect(part("xl/drawings/vmlDrawing1.vml").match(/<v:shape /g)).toHaveLength(4);
  });

  test("a conversation is left alone, and the list says so", () => {
    expect(part("xl/comments1.xml")).toContain("<t>[Threaded comment]</t></text>");
    expect(listed("K6")[0].what).toContain("the cell has a conversation, so no note was added");
  });

  test("formulas that read a spilled answer read its cells", () => {
    expect(formula("K2")).toBe("SUM($K$1:$M$1)");
    expect(formula("K3")).toBe("SUM($K$1:$M$1)");
  });

  test("cells that use a name which has no native formula", () => {
    expect([value("B5"), formula("B5")]).toEqual([2, undefined]);
    expect(listed("plan")).toMatchObject([{ became: "left as it was" }]);
    expect(listed("B5")).toMatchObject([
      { became: "value", what: "the name plan has no native formula" },
    ]);
  });

  test("an empty text stays one", () => {
    const bytes = changed(
      "xl/worksheets/sheet1.xml",
      `TRIONEED(30)</f><v>15</v>`,
      `TRIONEED(30)</f><v></v>`,
    );
    const empty = zipSync({
      ...unzipSync(bytes),
      "xl/worksheets/sheet1.xml": strToU8(
        strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"]).replace(
          '<c r="K5" cm="1">',
          '<c r="K5" cm="1" t="str">',
        ),
      ),
    });
    const cell = readBook(handOver(empty).bytes).get("Costs")?.get("K5");
    expect([cell?.formula, cell?.value]).toEqual(['""', ""]);
  });
});

describe("formulas that are none of ours", () => {
  const cellsWith = (formula: string, more = "") =>
    readBook(
      handOver(
        changed(
          "xl/worksheets/sheet1.xml",
          '<c r="G2"><f t="shared" si="1"/><v>40</v></c>',
          `<c r="G2"><f>${formula}</f><v>40</v></c>${more}`,
        ),
      ).bytes,
    ).get("Costs");

  test.each([
    ["a call in a text", '"type MIST.OILFOR("&amp;E1', '"type MIST.OILFOR("&E1'],
    ["a function that we have not", "_xldudf_MIST_NOTHING(E1)", "_xldudf_MIST_NOTHING(E1)"],
    ["another file", "'C:\\x\\[b.xlsx]S'!A1&amp;\"#\"", "'C:\\x\\[b.xlsx]S'!A1&\"#\""],
    ["an error", "IF(E1&gt;0,#N/A,1)", "IF(E1>0,#N/A,1)"],
  ])("%s stays as it is", (_, stored, formula) => {
    expect(cellsWith(stored)?.get("G2")?.formula).toBe(formula);
  });

  test("one that is filled and uses a lost name becomes values, cell by cell", () => {
    const filled = '<c r="G3"><f t="shared" ref="G3:G4" si="7">SUM(plan)+E1</f><v>12</v></c>';
    const cells = cellsWith(
      "E2*2",
      `</row><row r="4">${filled}<c r="G4"><f t="shared" si="7"/><v>22</v></c>`,
    );
    expect(
      ["G3", "G4"].map((cell) => [cells?.get(cell)?.value, cells?.get(cell)?.formula]),
    ).toEqual([
      [12, undefined],
      [22, undefined],
    ]);
  });
});

describe("the copy as a file", () => {
  test("no call of ours is left, but for the name that has no other form", () => {
    const left = Object.entries(parts).filter(([, bytes]) => strFromU8(bytes).includes("_xldudf_"));
    expect(left.map(([path]) => path)).toEqual(["xl/workbook.xml"]);
    expect(part("xl/workbook.xml").match(/_xldudf_\w+/g)).toEqual(["_xldudf_MIST_PACKPLAN"]);
  });

  test("everything else survives, byte for byte where it need not change", () => {
    expect(parts["xl/media/image1.png"]).toEqual(PICTURE);
    expect(part("xl/metadata.xml")).toBe(strFromU8(unzipSync(original)["xl/metadata.xml"]));
    expect(part("xl/worksheets/sheet2.xml")).toBe(
      strFromU8(unzipSync(original)["xl/worksheets/sheet2.xml"]),
    );
    const sheet = part("xl/worksheets/sheet1.xml");
    for (const kept of [
      'width="31.7"',
      '<mergeCell ref="A20:C20"/>',
      'mc:Ignorable="x14ac"',
      '<tablePart r:id="rId1"/>',
      "<formula2>1</formula2>",
    ]) {
      expect(sheet).toContain(kept);
    }
  });

  test("Excel's order of calculation is taken out whole", () => {
    expect(parts["xl/calcChain.xml"]).toBeUndefined();
    expect(part("[Content_Types].xml")).not.toContain("calcChain");
    expect(part("xl/_rels/workbook.xml.rels")).not.toContain("calcChain");
  });

  test("a sheet of its own lists every replaced cell", () => {
    expect(part("xl/workbook.xml")).toMatch(
      /<sheet name="Hand over 2" sheetId="8" r:id="rId6"\/><\/sheets>/,
    );
    const list = readBook(copy.bytes).get("Hand over 2");
    const lines = copy.replaced.map((_, i) =>
      ["A", "B", "C", "D"].map((column) => list?.get(`${column}${i + 8}`)?.value),
    );
    expect(lines).toEqual(
      copy.replaced.map(({ sheet, cell, was, became }) => [
        sheet,
        cell,
        was,
        { formula: "live formula", value: "fixed value", "left as it was": "left as it was" }[
          became
        ],
      ]),
    );
  });

  test("the original is untouched, and the same workbook gives the same copy", () => {
    expect(original).toEqual(before);
    expect(handOver(original).bytes).toEqual(copy.bytes);
  });

  test("a copy of the copy replaces nothing more", () => {
    const again = handOver(copy.bytes);
    expect(again.replaced.filter(({ became }) => became !== "left as it was")).toEqual([]);
  });
});

test("our own pane is not opened at the partner's; that of another add-in is", () => {
  const pane = (id: string) =>
    `<wetp:taskpane xmlns:wetp="urn:wetp"><wetp:webextensionref xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" r:id="${id}"/></wetp:taskpane>`;
  const extension = (id: string) =>
    `<we:webextension xmlns:we="urn:we"><we:reference id="${id}"/></we:webextension>`;
  const relations = (...list: string[]) =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${list.join("")}</Relationships>`;
  const relation = (id: string, type: string, target: string) =>
    `<Relationship Id="${id}" Type="http://schemas.microsoft.com/office/2011/relationships/${type}" Target="${target}"/>`;
  const all = unzipSync(original);
  const withPanes = (ids: string[]) =>
    zipSync({
      ...all,
      "_rels/.rels": strToU8(
        strFromU8(all["_rels/.rels"]).replace(
          "</Relationships>",
          `${relation("rId9", "webextensiontaskpanes", "xl/webextensions/taskpanes.xml")}</Relationships>`,
        ),
      ),
      "xl/webextensions/taskpanes.xml": strToU8(
        `<wetp:taskpanes xmlns:wetp="urn:wetp">${ids.map((_, i) => pane(`rId${i + 1}`)).join("")}</wetp:taskpanes>`,
      ),
      "xl/webextensions/_rels/taskpanes.xml.rels": strToU8(
        relations(
          ...ids.map((_, i) => relation(`rId${i + 1}`, "webextension", `webextension${i + 1}.xml`)),
        ),
      ),
      ...Object.fromEntries(
        ids.map((id, i) => [`xl/webextensions/webextension${i + 1}.xml`, strToU8(extension(id))]),
      ),
    });
  const manifest = readFileSync("manifest.xml", "utf8");
  expect(manifest).toContain(`<Id>${ADD_IN_ID}</Id>`);
  const left = unzipSync(
    handOver(withPanes([`{${ADD_IN_ID.toUpperCase()}}`, "somebody-elses-add-in"])).bytes,
  );
  expect(left["xl/webextensions/webextension1.xml"]).toBeUndefined();
  expect(strFromU8(left["xl/webextensions/webextension2.xml"])).toContain("somebody-elses-add-in");
  expect(strFromU8(left["xl/webextensions/taskpanes.xml"]).match(/<wetp:taskpane /g)).toHaveLength(
    1,
  );
  const none = unzipSync(handOver(withPanes([ADD_IN_ID])).bytes);
  expect(Object.keys(none).filter((path) => /webextension\d|taskpanes\.xml$/.test(path))).toEqual(
    [],
  );
  expect(strFromU8(none["_rels/.rels"])).not.toContain("taskpanes");
});

describe("what is not handed over", () => {
  test("cells that the add-in has not answered", () => {
    const unanswered = changed(
      "xl/worksheets/sheet1.xml",
      '<c r="B3" cm="1">',
      '<c r="B3" cm="1" t="e">',
    );
    const xml = strFromU8(unzipSync(unanswered)["xl/worksheets/sheet1.xml"]).replace(
      "(batch,load)</f><v>3</v>",
      "(batch,load)</f><v>#NAME?</v>",
    );
    const bytes = zipSync({ ...unzipSync(unanswered), "xl/worksheets/sheet1.xml": strToU8(xml) });
    expect(() => handOver(bytes)).toThrow(
      'Nothing was handed over: 1 of our cells show no answer, such as B3 of "Costs" (#NAME?). Press Repair first.',
    );
  });

  test("what is no workbook", () => {
    expect(() => handOver(strToU8("price,46"))).toThrow("save it as .xlsx first");
    expect(() => handOver(zipSync({ "a.xml": strToU8("<a/>") }))).toThrow(
      "it has no list of contents",
    );
  });
});
