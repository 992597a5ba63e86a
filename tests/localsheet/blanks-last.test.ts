/** Sorted lines: what is blank stands last, in both directions, as in Excel. */
import { expect, test } from "vitest";
import { newModel, write } from "./load-engine";

/** The column after it was sorted as the filter's button sorts it. */
function sorted(column: string[], sortDirection: "asc" | "desc"): unknown[] {
  const model = newModel();
  const sheetId = model.getters.getActiveSheetId();
  for (const [i, content] of column.entries()) write(model, `A${i + 1}`, content);
  const zone = { top: 0, left: 0, bottom: column.length - 1, right: 0 };
  const sortOptions = { emptyCellAsZero: true, sortHeaders: true };
  const order = { sheetId, col: 0, row: 0, zone, sortDirection, sortOptions };
  const { reasons } = model.dispatch("SORT_CELLS", order);
  expect(reasons).toEqual([]);
  return column.map((_, row) => model.getters.getEvaluatedCell({ sheetId, col: 0, row }).value);
}

test("blank cells, and formulas that show nothing, stand below the texts", () => {
  const column = ["", "wren", '=""', "heron", ""];
  expect(sorted(column, "asc").slice(0, 2)).toEqual(["heron", "wren"]);
  expect(sorted(column, "desc").slice(0, 2)).toEqual(["wren", "heron"]);
});

test("a blank is no zero among numbers", () => {
  expect(sorted(["3", "", "-1", "0"], "asc")).toEqual([-1, 0, 3, null]);
  expect(sorted(["3", "", "-1", "0"], "desc")).toEqual([3, 0, -1, null]);
});
