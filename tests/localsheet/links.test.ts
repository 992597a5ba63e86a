/** Links of cells, in a new file and in one that was opened. */
import { strFromU8, unzipSync } from "fflate";
import { expect, test } from "vitest";
import {
  HEAD,
  OFFICE,
  inline,
  partsOf,
  prefixed,
  sheet,
  strict,
  zipped,
} from "../files/foreign-book";
import { bound, newModel, openModel, read, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const SHEET = "xl/worksheets/sheet1.xml";
const RELATIONS = "xl/worksheets/_rels/sheet1.xml.rels";
const ROWS =
  `<row r="1">${inline("A1", "Rain")}<c r="B1"><v>10</v></c><c r="C1"><f>SUM(B1)</f><v>10</v></c></row>` +
  `<row r="2">${inline("A2", "Moss")}</row>`;
const LINKS =
  '<hyperlinks><hyperlink ref="A1" r:id="rId7" display="shop"/><hyperlink ref="B1" r:id="rId8"/></hyperlinks><pageMargins left="1" right="1" top="1" bottom="1" header="0" footer="0"/>';
const linked = {
  ...partsOf(sheet(ROWS, LINKS)),
  [RELATIONS]: `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId7" Type="${OFFICE}/hyperlink" Target="https://rain.example/?a=1&amp;b=2" TargetMode="External"/><Relationship Id="rId8" Type="${OFFICE}/hyperlink" Target="mailto:ana@rain.example" TargetMode="External"/></Relationships>`,
};

const contentOf = (model: Model, name: string): unknown => model.exportData().sheets[0].cells[name];

async function changed(bytes: Uint8Array, change: (model: Model) => unknown) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  change(model);
  const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  const parts = unzipSync(saved.bytes);
  const text = (path: string) => strFromU8(parts[path] ?? new Uint8Array());
  return {
    ...saved,
    sheet: text(SHEET),
    relations: text(RELATIONS),
    again: openModel(saved.bytes).model,
  };
}

test("a text with a link keeps its own words, and a number with one stays a number", () => {
  const { model } = openModel(zipped(linked));
  expect(contentOf(model, "A1")).toBe("[Rain](https://rain.example/?a=1&b=2)");
  expect([read(model, "B1"), read(model, "C1")]).toEqual([10, 10]);
});

test.each<[string, Uint8Array]>([
  ["as usual", zipped(linked)],
  ["strict", zipped(strict(linked))],
  ["with prefixes", zipped(prefixed(linked))],
])("a link typed into a file leads where it led; the others stay (%s)", async (_, bytes) => {
  const link = "[Moss](https://moss.example/?a=1&b=2)";
  const {
    sheet: xml,
    relations,
    again,
    lost,
  } = await changed(bytes, (model) => write(model, "A2", link));
  expect(lost).toEqual([]);
  expect(contentOf(again, "A2")).toBe(link);
  expect(contentOf(again, "A1")).toBe("[Rain](https://rain.example/?a=1&b=2)");
  expect(xml.match(/hyperlink\s[^>]*ref="[AB]\d"/g)).toHaveLength(3);
  expect(xml.indexOf("hyperlinks")).toBeLessThan(xml.indexOf("pageMargins"));
  expect(relations).toContain('Target="https://moss.example/?a=1&amp;b=2" TargetMode="External"');
});

test("a link taken away is gone, and another address takes the place of the first", async () => {
  const none = await changed(zipped(linked), (model) => write(model, "A1", "Rain"));
  expect(none.sheet).toMatch(/<hyperlinks><hyperlink ref="B1" r:id="rId8"\/><\/hyperlinks>/);
  const other = "[Rain](https://other.example)";
  const { again, sheet: xml } = await changed(zipped(linked), (model) => write(model, "A1", other));
  expect(contentOf(again, "A1")).toBe(other);
  expect(xml.match(/ref="A1"/g)).toHaveLength(1);
});

test("a new file has links to sheets by names that need quoting, and to an address for letters", async () => {
  const model = newModel({
    sheets: [
      { id: "s", name: "Oils" },
      { id: "t", name: "Ana's oils" },
    ],
  });
  write(model, "A1", "[go](o-spreadsheet://t)", "Oils");
  write(model, "A2", "[write](mailto:ana@rain.example)", "Oils");
  const { bytes } = await saveBook(model);
  const parts = unzipSync(bytes);
  const xml = strFromU8(parts["xl/worksheets/sheet0.xml"] ?? new Uint8Array());
  // ECMA-376 part 1, 18.3.1.47: the location is a reference, in which such a name goes in quotes, doubled inside.
  expect(xml).toMatch(/location="'Ana''s oils'!A1"/);
  expect(strFromU8(parts["xl/worksheets/_rels/sheet0.xml.rels"] ?? new Uint8Array())).toContain(
    'Target="mailto:ana@rain.example"',
  );
  const again = openModel(bytes).model;
  expect(contentOf(again, "A1")).toBe("[go](o-spreadsheet://Ana's oils)");
});
