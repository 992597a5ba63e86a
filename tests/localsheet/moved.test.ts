/** What hangs on a sheet of a file, after rows were put in or taken out, or the sheet got another name. */
import { strFromU8, unzipSync } from "fflate";
import { expect, test } from "vitest";
import { HEAD, MAIN, richParts, zipped } from "../files/foreign-book";
import { bound, newModel, openModel, saveBook } from "./load-engine";

type Model = ReturnType<typeof newModel>;

const SHEET = "xl/worksheets/sheet1.xml";
const PIVOT = "xl/pivotCache/pivotCacheDefinition1.xml";
const rich = richParts();
const bytes = zipped({
  ...rich,
  [SHEET]: (rich[SHEET] ?? "").replace(
    "<drawing",
    '<rowBreaks count="1" manualBreakCount="1"><brk id="4" max="16383" man="1"/></rowBreaks><drawing',
  ),
  [PIVOT]: `${HEAD}<pivotCacheDefinition xmlns="${MAIN}"><cacheSource type="worksheet"><worksheetSource ref="A1:C3" sheet="Oils"/></cacheSource></pivotCacheDefinition>`,
});

async function changed(change: (model: Model, sheetId: string) => unknown) {
  const model = newModel(structuredClone(bound(openModel(bytes), "key")));
  change(model, model.getters.getActiveSheetId());
  const saved = await saveBook(model, { key: "key", name: "mine.xlsx", bytes });
  const parts = unzipSync(saved.bytes);
  return (path: string) => (parts[path] ? strFromU8(parts[path]) : "");
}

test("two rows put in above the third: all that says a row says two more", async () => {
  const text = await changed((model, sheetId) =>
    model.dispatch("ADD_COLUMNS_ROWS", {
      sheetId,
      sheetName: "Oils",
      dimension: "ROW",
      base: 2,
      quantity: 2,
      position: "before",
    }),
  );
  // By hand, each: the note's shape from row 2 to 8 of its sheet, the page that ends below the fourth row, the
  // list that a pivot reads, and a formula that stood once for two cells, of which the second read the third row.
  expect(text("xl/drawings/vmlDrawing1.vml")).toContain("<x:Anchor>2, 12, 4, 4, 6, 12, 10, 4");
  expect(text(SHEET)).toContain('<brk id="6"');
  expect(text(PIVOT)).toContain('ref="A1:C5"');
  expect(text(SHEET)).toMatch(/<c r="C7"><f>B2\*2<\/f>.*<c r="C8"><f>B5\*2<\/f>/);
});

test("a row taken out takes its note with it", async () => {
  const text = await changed((model, sheetId) =>
    model.dispatch("REMOVE_COLUMNS_ROWS", {
      sheetId,
      sheetName: "Oils",
      dimension: "ROW",
      elements: [2],
    }),
  );
  expect(text("xl/comments1.xml")).not.toContain("<comment ");
  expect(text("xl/drawings/vmlDrawing1.vml")).not.toContain("<v:shape");
});

test("another name goes to the pivots that read the sheet", async () => {
  const text = await changed((model, sheetId) =>
    model.dispatch("RENAME_SHEET", { sheetId, oldName: "Oils", newName: "My oils" }),
  );
  expect(text(PIVOT)).toContain('sheet="My oils"');
});
