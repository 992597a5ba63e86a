/** What a sheet's names stand for, found by title, labels and headings; expected places by hand. */
import { expect, test } from "vitest";
import type { CellValue } from "../../functions/bind/cell";
import type { Workbook } from "../../taskpane/host/workbook";
import { findSheets, placesIn } from "../../taskpane/sheets/find";
import type { Part } from "../../taskpane/sheets/parts";
import type { Template } from "../../taskpane/sheets/template";

const parts: Part[] = [
  { text: "title", rows: ["Pours"] },
  { fields: [{ name: "batch", label: "Batch (g)", demo: 60 }] },
  {
    list: "oils",
    lines: 2,
    columns: [
      { name: "oil", heading: "Oil", demo: ["Amber"] },
      { name: "part", heading: "Part", demo: [1] },
      { name: "worked", heading: '="for "&{batch}', formula: "=1" },
    ],
  },
];

const placeOf = (corner: CellValue[][], name: string) => {
  const place = placesIn(corner, parts).get(name);
  return place && [place.row, place.column];
};

test("a field is found by its label, in its own column first and anywhere else then", () => {
  expect(placeOf([["Pours"], ["Batch (g)", 60]], "batch")).toEqual([1, 1]);
  expect(
    placeOf(
      [
        ["Pours", "Batch (g)"],
        ["Batch (g)", 60],
      ],
      "batch",
    ),
  ).toEqual([1, 1]);
  expect(placeOf([["Pours"], [], [null, null, "Batch (g)", 60]], "batch")).toEqual([2, 3]);
  expect(placeOf([["Pours"]], "batch")).toBeUndefined();
});

test("a list is found by its headings, moved to the side with the worked one among them", () => {
  const moved: CellValue[][] = [["Pours"], [], [null, null, "Oil", "Part", "for 60"]];
  expect(placeOf(moved, "oils.oil")).toEqual([3, 2]);
  expect(placeOf(moved, "oils.worked")).toEqual([3, 4]);
});

test("of headings alike, the nearest to where it was drawn; of lines alike, the first", () => {
  const corner: CellValue[][] = [
    ["Pours"],
    [],
    ["Oil", null, "Part", null, "Part"],
    [],
    ["Oil", null, "Part"],
  ];
  // Drawn in the second column: the third is one away, the fifth three.
  expect(placeOf(corner, "oils.part")).toEqual([3, 2]);
});

test("of two sheets alike, the first is drawn from", async () => {
  const template: Template = { title: "Pours", use: "Pours.", step: 1, widths: [80], parts };
  const workbook = {
    sheetNames: async () => ["Notes", "Mine", "Mine as well"],
    extent: async () => ({ rows: 1, columns: 1 }),
    read: async ({ sheet }: { sheet: string }) => [[sheet === "Notes" ? "Notes" : "Pours"]],
  } as unknown as Workbook;
  const found = await findSheets(workbook, [template]);
  expect([...found].map(([title, { sheet }]) => [title, sheet])).toEqual([["Pours", "Mine"]]);
});
