/** A list that grows, drawn from A1: the count of its lines stands above it, and looks 2,000 lines down. */
import type { Drawing } from "../../taskpane/sheets/drawing";

const LINES = [
  ["Alder Clear", 46, 0.05],
  ["Bluepost Soft", 39, 0.06],
  ["Drovers Dry", 52, 0.04],
] as const;

const place = (row: number, column: number, rows: number = LINES.length, columns = 1) => {
  return { row, column, rows, columns };
};

/** Line 4 has the headings; A what it is, B its price, C its load, D what is worked out, E a word of a list. */
export const growing: Drawing = {
  rows: 7,
  columns: 5,
  cells: [
    { row: 0, column: 0, content: "Offers", look: "title" },
    { row: 1, column: 0, content: "Counted", look: "label" },
    { row: 1, column: 1, content: "=COUNT($D$5:$D$2004)", look: "answer" },
    { row: 1, column: 2, content: "=SUM($D$5:$D$2004)", look: "answer", format: "0.00" },
    ...["Offer", "Price, $", "Load", "Oil, $", "Kind"].map((content, column) => ({
      ...{ row: 3, column, content, look: "heading" as const },
    })),
    ...LINES.flatMap(([name, price, load], i) => [
      { row: 4 + i, column: 0, content: name, look: "input" as const },
      { row: 4 + i, column: 1, content: price, look: "input" as const, format: "0.00" },
      { row: 4 + i, column: 2, content: load, look: "input" as const, format: "0.0%" },
      {
        ...{ row: 4 + i, column: 3, look: "result" as const, format: "0.00" },
        content: `=IF(B${5 + i}="","",B${5 + i}*C${5 + i})`,
      },
      { row: 4 + i, column: 4, content: "base", look: "input" as const },
    ]),
  ],
  rules: [
    { ...place(4, 2), limits: [0, 1] },
    { ...place(4, 4), words: ["base", "oil"] },
  ],
  marks: [{ ...place(4, 0), begins: "Over", mark: "over" }],
  charts: [],
  widths: [140, 80, 80, 80, 80],
  lists: [{ ...place(3, 0, LINES.length + 1, 5), name: "Offers", reach: 2000 }],
  page: {
    landscape: true,
    last: 4,
    sections: [3],
    titleColumns: [0, 1],
    titleRows: [3, 3],
    caution: "Wear gloves & goggles.",
  },
  frozen: { rows: 4, columns: 1 },
};
