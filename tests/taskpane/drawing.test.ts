/** Templates as drawings. Expected places by hand, from how the parts are laid. */
import { expect, test } from "vitest";
import { type Drawing, drawingOf, isWithin, placed } from "../../taskpane/sheets/drawing";
import { linesOf } from "../../taskpane/sheets/headings";
import { lay } from "../../taskpane/sheets/lay";
import type { List, Part } from "../../taskpane/sheets/parts";
import type { Template } from "../../taskpane/sheets/template";
import { printedOf } from "../../taskpane/sheets/page";
import { templates } from "../../taskpane/templates/index";

const oils: List = {
  list: "oils",
  lines: 2,
  columns: [{ name: "oil", heading: "Oil", demo: ["Amber", "Fern"] }],
};

/** A template of some parts, and how it is printed. */
function drawn(parts: Part[], widths: number[], page?: Template["page"]): Drawing {
  const about = { title: "Pours", use: "Pours.", step: 1 };
  return drawingOf({ ...about, widths, parts, ...(page && { page }) }, true);
}

test("what stands beside a list begins beside its headings", () => {
  const beside: Part = { beside: "oils", skip: 1, text: "note", name: "said", rows: ["here"] };
  const { row, column } =
    lay([{ text: "title", rows: ["Pours"] }, oils, beside]).blocks.at(-1) ?? {};
  expect([row, column]).toEqual([1, 2]);
});

test("of a column of several, all are hidden", () => {
  const parts = [
    {
      ...oils,
      columns: [...oils.columns, { heading: ["a", "b"], formula: "=1", hidden: true as const }],
    },
  ];
  const drawing = drawn(parts, [400, 500, 500], { columns: 1 });
  expect(drawing.hidden).toEqual([1, 2]);
});

test("a list too wide for a page is printed section after section, each with the first columns", () => {
  const columns = ["oil", "price", "lot"].map((name) => ({ name, heading: name, demo: [1] }));
  const sections = { begin: ["oils.price", "oils.lot"], repeat: 1 };
  const page = { columns: 2, heads: "oils", sections };
  const drawing = drawn([{ ...oils, columns }], [100, 100, 100, 100], page);
  expect(drawing.page).toEqual({
    last: 3,
    sections: [1, 2],
    titleColumns: [0, 0],
    titleRows: [0, 0],
  });
  expect(drawing.frozen).toEqual({ rows: 1, columns: 2 });
  expect(printedOf(drawing.page ?? {})).toEqual(["$A:$A", "$B:$B", "$C:$D"]);
  // ECMA-376 part 1, 18.2.5: a print area of several ranges, each a page of its own.
  const moved = placed(drawing, 0, 1);
  expect(moved.page).toMatchObject({ last: 4, sections: [2, 3] });
  expect(() => drawn([oils], [100], { sections: { begin: ["oils.lot"], repeat: 1 } })).toThrow(
    'page: nothing has the name "oils.lot"',
  );
});

/** Pixels across a page of A4 or Letter, 0.25 in free at both sides, as small as one still reads: 5.6 pt of 10. */
const READABLE = { upright: (7.75 * 96) / 0.56, landscape: (10.5 * 96) / 0.56 };

/** How wide each section of a template is on paper, with the columns that it repeats. */
function sectionsOf(template: Template) {
  const { page = {}, widths, hidden = [] } = drawingOf(template, false);
  const printed = widths.slice(0, 1 + (page.only?.columns[1] ?? page.last ?? widths.length));
  const shown = printed.map((width, i) => (hidden.includes(i) ? 0 : width));
  const across = (from: number, to: number) => shown.slice(from, to).reduce((a, b) => a + b, 0);
  const begins = [0, ...(page.sections ?? [])];
  const repeated = across(0, (page.titleColumns?.[1] ?? -1) + 1);
  return begins.map((from, i) => ({
    width: across(from, begins[i + 1] ?? shown.length) + (i > 0 ? repeated : 0),
    most: page.landscape ? READABLE.landscape : READABLE.upright,
  }));
}

test("a template's sections are one page wide each, and can be read", () => {
  for (const template of templates)
    for (const [i, { width, most }] of sectionsOf(template).entries())
      expect(width, `${template.title}, section ${i + 1}`).toBeLessThanOrEqual(most);
});

test("each page of a template says a caution", () => {
  const silent = templates.filter((template) => !drawingOf(template, false).page?.caution);
  expect(silent.map(({ title }) => title)).toEqual([]);
});

test("no chart of a template lies in two sections", () => {
  for (const template of templates) {
    const { charts, page: { sections = [] } = {} } = drawingOf(template, false);
    for (const { title, over } of charts)
      for (const begin of sections)
        expect(over.column < begin && begin < over.column + over.columns, title).toBe(false);
  }
});

test("a part begins a page, and what is left out is not printed", () => {
  const work: Part = {
    beside: "oils",
    skip: 1,
    ...{ paper: "left out from here", text: "label", name: "work", rows: [["a", "b"]] },
  };
  const parts: Part[] = [
    { text: "title", rows: ["Pours"] },
    { gap: 1, paper: "new page", text: "section", rows: ["Hours"] },
    oils,
    work,
  ];
  const { page } = drawn(parts, [100, 100], { heads: "oils" });
  // By hand: rows 1 title, 3 section, 4 heading, 5 and 6 oils; the workings stand in columns C and D.
  expect(page).toEqual({
    last: 3,
    titleRows: [3, 3],
    breaks: [2],
    only: { columns: [0, 1] },
  });
  expect(printedOf(page ?? {})).toEqual(["$A:$B"]);
});

test.each([
  [12, 13],
  [13, 0],
])("with headings under %i rows, %i rows stay in sight", (above, rows) => {
  const text: Part = { text: "note", rows: Array.from({ length: above }, () => "a line") };
  expect(drawn([text, oils], [100], { heads: "oils" }).frozen?.rows).toBe(rows);
});

test("a column is as wide as the longest word of its heading, beside the button in a list that grows", () => {
  const columns = ["Concentration of oil", "Oil"].map((heading) => ({ heading, demo: [1] }));
  // By hand, by the widths in headings.ts: of 13 letters 4 are narrow (r, t, t, i), 9 x 8 + 4 x 5.2 = 92.8; 10 at the
  // ends makes 103, 20 for the button 123.
  expect(drawn([{ ...oils, columns }], [60, 80]).widths).toEqual([103, 80]);
  expect(drawn([{ ...oils, reach: 50, columns }], [60, 80]).widths).toEqual([123, 80]);
});

test("no heading of a template has a word that is broken, or more than three lines", () => {
  const wrong = templates.flatMap((template) => {
    const { cells, widths, hidden = [], lists = [] } = drawingOf(template, false);
    const heads = cells.filter(({ look, column, content }) => {
      return (
        look === "heading" && !hidden.includes(column) && !String(content ?? "=").startsWith("=")
      );
    });
    return heads
      .filter(({ row, column, content }) => {
        const isBeside = lists.some((list) => isWithin({ row, column }, { ...list, rows: 1 }));
        const words = String(content).split(" ");
        const width = widths[column] ?? 0;
        return (
          linesOf(String(content), width, isBeside) > 3 ||
          words.some((word) => linesOf(word, width, isBeside) > 1)
        );
      })
      .map(({ content }) => `${template.title}: ${String(content)}`);
  });
  expect(wrong).toEqual([]);
});

test("at a place, what a chart draws and a list of this sheet move along; a list of another sheet does not", () => {
  const cells = { row: 1, column: 0, rows: 2, columns: 1 };
  const chart = { kind: "bars" as const, title: "Oil", unit: "g", labels: cells, over: cells };
  const drawing: Drawing = {
    ...{ rows: 3, columns: 1, cells: [], marks: [], widths: [] },
    rules: [
      { ...cells, from: cells },
      { ...cells, from: { ...cells, sheet: "Oils" } },
    ],
    charts: [{ ...chart, series: [{ name: "Oil", values: cells }] }],
  };
  const { rules, charts } = placed(drawing, 10, 5);
  const moved = { row: 11, column: 5, rows: 2, columns: 1 };
  expect(rules.map(({ from }) => from)).toEqual([moved, { ...cells, sheet: "Oils" }]);
  expect(charts).toEqual([
    { ...chart, labels: moved, over: moved, series: [{ name: "Oil", values: moved }] },
  ]);
});
