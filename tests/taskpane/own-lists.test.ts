/** Which list of a sheet is meant, where it ends, and which of its columns an input seems to be. */
import { expect, test } from "vitest";
import type { CellValue } from "../../functions/bind/cell";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import type { Workbook } from "../../taskpane/host/workbook";
import { type FoundList, listAround } from "../../taskpane/from-cells/list";
import { proposals } from "../../taskpane/from-cells/proposal";

const listAt = (cells: CellValue[][], row: number, column: number) => {
  const workbook = { read: async () => cells } as unknown as Workbook;
  return listAround(workbook, { sheet: "Costs", row, column });
};

/** A long list at the left, a short one at the right of an empty column. */
const TWO: CellValue[][] = [
  ["Oil", "Price", null, "Box", "Count"],
  ["Amber", 20, null, "small", 4],
  ["Fern", 18, null, "large", 9],
  ["Moss", 17],
  ["Reed", 12],
];

test.each([
  ["in it", 1, 4, "Box"],
  ["right under its last line", 3, 3, "Box"],
  ["two below", 4, 3, "Oil"],
  ["right beside it", 1, 5, "Box"],
  ["two beside it, of the longest", 1, 6, "Oil"],
])("from a cell %s", async (_, row, column, heading) => {
  expect((await listAt(TWO, row, column))?.columns[0]?.heading).toBe(heading);
});

test("one empty line is within a list, two end it", async () => {
  const gap = (lines: CellValue[][]) => [["Oil", "Price"], ["Amber", 20], ...lines, ["Fern", 18]];
  expect((await listAt(gap([[]]), 0, 0))?.last).toBe(3);
  expect((await listAt(gap([[], []]), 0, 0))?.last).toBe(1);
});

const flozCost = catalog.find(({ id }) => id === "FLOZCOST") as CatalogEntry;
const list = (...columns: [heading: string, ...values: CellValue[]][]): FoundList => ({
  ...{ sheet: "Costs", head: 0, first: 1, last: 3 },
  columns: columns.map(([heading, ...values], column) => ({ column, heading, values })),
});

test("of two headings that fit, the one with the better word is taken", () => {
  const both = list(["Cost of it", 3, 4, 5], ["Price paid", 6, 7, 8]);
  expect(proposals(flozCost, both).get("price")).toBe("B2:B4");
});

test("a column is numbers where most of its lines are", () => {
  const price = (...values: CellValue[]) =>
    proposals(flozCost, list(["Price", ...values])).get("price");
  expect(price("ask", 4, 5)).toBe("A2:A4");
  expect(price("ask", "ask", 5)).toBeUndefined();
});

test("a line of words with a price as a text is a line, and no heading", async () => {
  const cells = [
    ["Oil", "From", "Pack", "Price"],
    ["Amber", "Tarn", "1 lb", 20],
    [],
    ["Fern", "Tarn", "half a gallon", "$18.50"],
    ["Moss", "Tarn", "1 lb", 17],
  ];
  expect((await listAt(cells, 0, 0))?.last).toBe(4);
});

test("Ship and S.G. are freight and density; a ship date is no freight", () => {
  const found = proposals(flozCost, list(["Ship", 4, 5, 6], ["S.G.", 0.9, 0.9, 0.9]));
  expect([found.get("freight"), found.get("density")]).toEqual(["A2:A4", "B2:B4"]);
  expect(proposals(flozCost, list(["Ship date", 46_000, 46_001, 46_002])).has("freight")).toBe(
    false,
  );
});
