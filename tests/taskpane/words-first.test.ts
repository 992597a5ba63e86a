/** Formulas behind a look at the numbers that they read: expected formulas by hand. */
import { expect, test } from "vitest";
import type { Part } from "../../taskpane/sheets/parts";
import { wordsFirst } from "../../taskpane/sheets/words-first";

const fields: Part = {
  fields: [
    { name: "batch", label: "Batch (g)", demo: 60 },
    { name: "made", label: "Made on (date)", format: "yyyy-mm-dd", demo: null },
    { name: "who", label: "Who", demo: "Wren" },
    { name: "drawn", label: 'Drawn, "as is"', format: "0", draw: "={Other!it}" },
    { name: "pack", label: "Pack", format: "0", worded: true, demo: 1 },
  ],
};
const list = (formula: string): Part => ({
  list: "pours",
  lines: 2,
  columns: [
    { name: "load", heading: "Load (%)", format: "0.0%", demo: [0.05] },
    { name: "oil", heading: "Oil", formula },
  ],
});

/** The formula of the last column of a list under the fields. */
function made(formula: string): unknown {
  const [, part] = wordsFirst([fields, list(formula)]);
  return part && "columns" in part && Array.isArray(part.columns) && part.columns[1]?.formula;
}

test.each([
  [
    "a field and the line's own cell, in their order",
    "={batch}*{load}",
    '=IF(ISTEXT({batch}),"type a number: Batch (g)",IF(ISTEXT({load}),"type a percent: Load (%)",{batch}*{load}))',
  ],
  ["a date", "={made}+1", '=IF(ISTEXT({made}),"type a date: Made on (date)",{made}+1)'],
  [
    "what is drawn may be an empty text",
    "={drawn}",
    '=IF(AND(ISTEXT({drawn}),{drawn}<>""),"type a number: Drawn, ""as is""",{drawn})',
  ],
  ["words, and what words may stand in", "={who}&{pack}", "={who}&{pack}"],
  [
    "a whole column, and what only stands in quotes",
    '=SUM({pours.load})&"{batch}"',
    '=SUM({pours.load})&"{batch}"',
  ],
])("%s", (_, formula, expected) => {
  expect(made(formula)).toBe(expected);
});
