import type { Template } from "../taskpane/sheets/template.ts";

/** The first sheet of a new local workbook: the invented workshop, its three quotes, and what to do. */
export const startHere: Template = {
  title: "Start here",
  use: "The first sheet of the local workbook.",
  step: 1,
  widths: [190, 130, 330],
  parts: [
    { text: "title", rows: ["Larkfield Mist House"] },
    {
      text: "note",
      rows: [
        "An invented workshop to try Mistwright on. Your work stays in this browser; nothing is sent anywhere.",
      ],
    },
    { gap: 1, text: "section", rows: ["Three quotes came in, in unlike packs"] },
    { text: "heading", rows: [["Supplier", "Base", "Quote"]] },
    {
      text: "label",
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
    { gap: 1, text: "section", rows: ["Which is cheapest, and what do I weigh?"] },
    {
      text: "label",
      rows: [
        "1. In the pane, under Sheets, press Insert the whole workbook. The three quotes stand in Materials.",
        "2. Type another price into a cream cell of Materials, and read every bottle's cost and price in Price list.",
        "3. In Base comparison pick a base; in Size run pick a recipe and the bottles, and print its Bench sheet.",
        "4. Under Functions, search for what you need, and use it on your own cells.",
      ],
    },
    { gap: 1, text: "section", rows: ["Or type a function anywhere"] },
    {
      fields: [
        { name: "batch", label: "Batch (g)", demo: 60 },
        { name: "load", label: "Fragrance load", format: "0.0%", demo: 0.05 },
        {
          label: "Oil to weigh (g)",
          formula: "=MIST.OILFOR({batch},{load})",
          note: "holds =MIST.OILFOR(B17, B18)",
        },
      ],
    },
  ],
};
