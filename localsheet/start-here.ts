import type { Template } from "../taskpane/sheets/template";

/** The first sheet of a new local workbook: the invented workshop, its three quotes, and what to do. */
export const startHere: Template = {
  title: "Start here",
  use: "The first sheet of the local workbook.",
  step: 1,
  widths: [190, 130, 330],
  blocks: [
    { at: "A1", look: "title", rows: [["Larkfield Mist House"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "An invented workshop to try Mistwright on. Your work stays in this browser; nothing is sent anywhere.",
        ],
      ],
    },
    { at: "A4", look: "section", rows: [["Three quotes came in, in unlike packs"]] },
    { at: "A5", look: "heading", rows: [["Supplier", "Base", "Quote"]] },
    {
      at: "A6",
      look: "label",
      rows: [
        ["Alder Row", "Alder Clear", "1 US gallon for $46.00, freight $14.50, free from $75"],
        [
          "Bluepost Chandlery",
          "Bluepost Soft",
          "8 pounds for $39.00, freight $12.75, free from $100",
        ],
        ["Drovers Wharf", "Drovers Dry", "5 litres for $61.00, freight $22.00, free from $120"],
      ],
    },
    { at: "A10", look: "section", rows: [["Which is cheapest, and what do I weigh?"]] },
    {
      at: "A11",
      look: "label",
      rows: [
        [
          "1. In the pane, under Sheets, press Insert the whole workbook. The three quotes stand in Materials.",
        ],
        [
          "2. Type another price into a cream cell of Materials, and read every bottle's cost and price in Price list.",
        ],
        [
          "3. In Base comparison pick a base; in Size run pick a recipe and the bottles, and print its Bench sheet.",
        ],
        ["4. Under Functions, search for what you need, and put its example in a cell."],
      ],
    },
    { at: "A16", look: "section", rows: [["Or type a function anywhere"]] },
    { at: "A17", look: "label", rows: [["Batch (g)"], ["Fragrance load"], ["Oil to weigh (g)"]] },
    { at: "B17", look: "input", rows: [[60]] },
    { at: "B18", look: "input", format: "0.0%", rows: [[0.05]] },
    { at: "B19", look: "result", rows: [["=MIST.OILFOR(B17,B18)"]] },
    { at: "C19", look: "note", rows: [["holds =MIST.OILFOR(B17, B18)"]] },
  ],
};
