/** Names in formulas, and parts that are not there: expected addresses by hand, from how the parts are laid. */
import { describe, expect, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { lay } from "../../taskpane/sheets/lay";
import { quoted } from "../../functions/formula/sheet-names";
import type { Others } from "../../taskpane/sheets/names";
import type { Part } from "../../taskpane/sheets/parts";

/** What is written where: the cells of all blocks, by row and column. */
function written(parts: Part[], others?: Others): string[] {
  return lay(parts, others).blocks.map(
    ({ row, column, rows }) => `${cellName(row, column)}: ${rows.join(" | ")}`,
  );
}

const work = (formula: string): Part[] => [
  {
    list: "oils",
    lines: 2,
    columns: [
      { name: "low", heading: "Low", demo: ["a", "b"] },
      { name: "high", heading: "High", demo: ["c", "d"] },
    ],
  },
  { list: "work", lines: 2, columns: [{ name: "own", heading: "Work", formula }] },
];

const last = (parts: Part[]) => written(parts).at(-1);

describe("a formula of a list", () => {
  test.each([
    ["the cell of the same line in another list", "={oils.low:same}", "=$A2 | =$A3"],
    ["the lines above", "=COUNT({work.own:above})", "=COUNT($A$4:$A4) | =COUNT($A$4:$A5)"],
    ["from one column to another", "=SUM({oils.low:high})", "=SUM($A$2:$B$3) | =SUM($A$2:$B$3)"],
  ])("%s", (_, formula, cells) => {
    expect(last(work(formula))).toBe(`A5: ${cells}`);
  });

  test("a line by its name", () => {
    const limits: Part = {
      list: "limits",
      lines: ["skin", "voc"],
      columns: [{ name: "most", heading: "Most", demo: [1, 2] }],
    };
    expect(last([limits, { fields: [{ label: "VOC", formula: "={limits.most:voc}" }] }])).toBe(
      "B4: =$A$3",
    );
  });

  test("a form or a line that is not known is refused, by its words", () => {
    expect(() => lay(work("={oils.low:middle}"))).toThrow(
      '{oils.low:middle}: ":middle" is no line',
    );
  });
});

// By hand: Excel puts a sheet's name in quotes where it could be taken for a cell, MAI25, or has spaces.
test.each([
  ["Materials", "Materials"],
  ["MAI25", "'MAI25'"],
  ["Price list", "'Price list'"],
  ["Mum's", "'Mum''s'"],
])("a formula names the sheet %s as %s", (sheet, said) => {
  expect(quoted(sheet)).toBe(said);
});

test("in a table, the same is the cell of the same column of another", () => {
  const table = (name: string, formula?: string): Part => ({
    table: name,
    across: 2,
    rows: [
      formula ? { name: "a", label: "a", formula } : { name: "a", label: "a", demo: ["b", "c"] },
    ],
  });
  expect(last([table("first"), table("second", "={first.a:same}")])).toBe("B2: =B$1,=C$1");
});

describe("a part that needs a sheet", () => {
  const parts: Part[] = [
    { text: "title", rows: ["Here"] },
    { needs: ["There"], fields: [{ name: "pick", label: "Pick", demo: "a" }] },
    { fields: [{ name: "value", label: "Value", demo: 1, draw: "={pick}" }] },
  ];
  const there: Others = new Map([["There", { sheet: "There", places: new Map() }]]);

  test("takes no room without it, and what names it is typed", () => {
    expect(written(parts)).toEqual(["A1: Here", "A2: Value", "B2: 1"]);
  });

  test("stands where it is with it, and is drawn from", () => {
    expect(written(parts, there)).toContain("B3: =$B$2");
  });
});

test("the last lines of a column can be the maker's own: empty, cream, with the rules on what is typed", () => {
  const { blocks } = lay([
    {
      list: "rules",
      lines: 3,
      columns: [
        {
          name: "place",
          heading: "Place",
          look: "label",
          own: 2,
          words: ["here"],
          demo: ["there"],
        },
        { name: "twice", heading: "Twice", formula: "={place}" },
      ],
    },
  ]);
  expect(
    blocks.map(({ row, column, look, rows, words }) => [
      cellName(row, column),
      look,
      rows.length,
      words,
    ]),
  ).toEqual([
    ["A1", "heading", 1, undefined],
    ["A2", "label", 1, undefined],
    ["A3", "input", 2, ["here"]],
    ["B1", "heading", 1, undefined],
    ["B2", "result", 3, undefined],
  ]);
});

test("a form means the same, also where a column has its name", () => {
  const { blocks } = lay([
    {
      list: "takes",
      lines: 2,
      columns: [
        { name: "count", heading: "Count", demo: [1, 2] },
        { name: "upto", heading: "So far", formula: "=SUM({takes.count:upto})" },
      ],
    },
  ]);
  const sums = blocks.flatMap(({ rows }) => rows.flat()).filter((cell) => /^=/.test(String(cell)));
  expect(sums).toEqual(["=SUM($A$1:$A2)", "=SUM($A$1:$A3)"]);
});
