/** A chart of another program's file stays as it is there: that is said where a person changed it, and only there. */
import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { bound, newModel, openModel, saveBook, write } from "./load-engine";

type Model = ReturnType<typeof newModel>;
type Change = (model: Model, sheetId: string) => unknown;

/** Those of the committed workbooks that have a chart: A1:B4 with headings, its corner at A12. */
const books = ["openpyxl", "libreoffice"].map((name): [string, Uint8Array] => [
  name,
  new Uint8Array(readFileSync(new URL(`../files/foreign/${name}.xlsx`, import.meta.url))),
]);

async function saved(bytes: Uint8Array, ...changes: Change[]) {
  const data = bound(openModel(bytes), "key");
  const model = newModel(structuredClone(data));
  const sheetId = model.getters.getSheetIdByName("Oils") as string;
  for (const change of changes) await change(model, sheetId);
  return saveBook(model, { key: "key", name: "mine.xlsx", bytes, data });
}

const putIn =
  (dimension: "ROW" | "COL", base: number, position: "before" | "after"): Change =>
  (model, sheetId) =>
    model.dispatch("ADD_COLUMNS_ROWS", {
      sheetId,
      sheetName: "Oils",
      dimension,
      base,
      quantity: 2,
      position,
    });
const takenOut =
  (dimension: "ROW" | "COL", ...elements: number[]): Change =>
  (model, sheetId) =>
    model.dispatch("REMOVE_COLUMNS_ROWS", { sheetId, sheetName: "Oils", dimension, elements });
const renamed =
  (name: string): Change =>
  (model, sheetId) =>
    model.dispatch("RENAME_SHEET", { sheetId, oldName: "Oils", newName: name });
const chartOf = (model: Model, sheetId: string) =>
  model.getters.getFigures(sheetId)[0] as never as { id: string };
const moved: Change = (model, sheetId) =>
  model.dispatch("UPDATE_FIGURE", {
    sheetId,
    figureId: chartOf(model, sheetId).id,
    col: 6,
    row: 20,
  } as never);
const retitled: Change = (model, sheetId) => {
  const [chartId = ""] = model.getters.getChartIds(sheetId);
  const definition = { ...model.getters.getChartDefinition(chartId), title: { text: "Mine" } };
  model.dispatch("UPDATE_CHART", {
    sheetId,
    chartId,
    figureId: chartOf(model, sheetId).id,
    definition,
  } as never);
};
const removed: Change = (model, sheetId) =>
  model.dispatch("DELETE_FIGURE", { sheetId, figureId: chartOf(model, sheetId).id } as never);

const SAID = ['Charts that were in the file stay on "Oils" as they were.'];

/** Rows and columns in and around what the chart shows, and around the chart. */
const PLACES = [1, 4, 11];
const untouched: [string, ...Change[]][] = [
  ["a value that it shows changed", (model) => write(model, "B2", "77", "Oils")],
  ["its heading changed", (model) => write(model, "B1", "Cost", "Oils")],
  ["another name for its sheet", renamed("My oils")],
  ["another name, and rows put in", renamed("My oils"), putIn("ROW", 1, "before")],
  [
    "rows put in twice, and one of each taken out",
    putIn("ROW", 1, "before"),
    putIn("ROW", 4, "after"),
    takenOut("ROW", 1, 6),
  ],
  ["all that it shows taken out", takenOut("ROW", 0, 1, 2, 3)],
  [
    "rows put in below everything",
    (model, id) => putIn("ROW", model.getters.getNumberRows(id) - 1, "after")(model, id),
  ],
  ["moved, and taken back by undo", moved, (model) => model.dispatch("REQUEST_UNDO")],
  ...PLACES.flatMap((place): [string, Change][] => [
    [`rows put in before ${place}`, putIn("ROW", place, "before")],
    [`rows put in after ${place}`, putIn("ROW", place, "after")],
    [`row ${place} taken out`, takenOut("ROW", place)],
  ]),
  ...[1, 2].flatMap((place): [string, Change][] => [
    [`columns put in before ${place}`, putIn("COL", place, "before")],
    [`column ${place} taken out`, takenOut("COL", place)],
  ]),
];

describe.each(books)("the chart of a workbook of %s", (_, bytes) => {
  test.each(untouched)("%s: nothing is said of it", async (_, ...changes) => {
    const { lost } = await saved(bytes, ...changes);
    expect(lost.filter((line) => line.includes("Charts"))).toEqual([]);
  });

  test.each<[string, ...Change[]]>([
    ["moved", moved],
    ["given another title", retitled],
    ["taken out", removed],
    ["given another title after rows were put in", putIn("ROW", 1, "before"), retitled],
    ["moved after rows were put in", putIn("ROW", 1, "before"), moved],
    ["moved before rows were put in", moved, putIn("ROW", 1, "before")],
  ])("%s: that is said, and it stays in the file", async (_, ...changes) => {
    const { lost, bytes: after } = await saved(bytes, ...changes);
    expect(lost).toEqual(SAID);
    const chart = (file: Uint8Array) => strFromU8(unzipSync(file)["xl/charts/chart1.xml"] ?? file);
    expect(/<a:t>[^<]*/.exec(chart(after))?.[0]).toBe(/<a:t>[^<]*/.exec(chart(bytes))?.[0]);
  });

  test("what it shows moves with the rows", async () => {
    const { bytes: after } = await saved(bytes, putIn("ROW", 1, "before"));
    // By hand: A2:A4 and B2:B4, two rows further down.
    const chart = strFromU8(unzipSync(after)["xl/charts/chart1.xml"] ?? after);
    expect(chart).toContain("Oils!$A$4:$A$6");
    expect(chart).toContain("Oils!$B$4:$B$6");
  });
});
