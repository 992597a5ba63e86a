import type { Template } from "../template";

/** Supplier packs in unlike sizes, brought to one landed cost per US fluid ounce. Demo data invented. */
export const template: Template = {
  title: "Base comparison",
  use: "Several suppliers' packs, sold by weight or volume, as one landed cost per fluid ounce.",
  widths: [138, 112, 62, 62, 62, 74, 68, 64, 86, 78, 108, 68, 74, 250],
  blocks: [
    { at: "A1", look: "title", rows: [["Base comparison"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        ["Type over the cream cells: one line for each pack on offer. Spare lines may stay blank."],
        [
          "A pound is not 16 fluid ounces. A pack sold by weight needs its density: weigh a known volume, or use MIST.DENSITYOF.",
        ],
        [
          "Freight is what this pack's journey costs. Lost is what stays in the pail, the pump and the jug.",
        ],
        [
          "Not disclosed means not known, not harmless: ask for the safety data sheet before you pour.",
        ],
      ],
    },
    {
      at: "A7",
      look: "heading",
      rows: [
        [
          "Supplier",
          "Base",
          "Price ($)",
          "Pack size",
          "Pack unit",
          "Density (g/mL)",
          "Freight ($)",
          "Lost (%)",
          "Landed cost ($ per fl oz)",
          "Against cheapest",
          "Ingredients",
          "Score (1 to 5)",
          "Pick",
          "Notes",
        ],
      ],
    },
    {
      at: "A8",
      look: "input",
      rows: [
        ["Alder Row", "Alder Clear"],
        ["Bluepost Chandlery", "Bluepost Soft"],
        ["Drovers Wharf", "Drovers Dry"],
        [null, null],
        [null, null],
        [null, null],
      ],
    },
    {
      at: "C8",
      look: "input",
      format: "#,##0.00",
      rows: [[46], [39], [61], [null], [null], [null]],
    },
    { at: "D8", look: "input", rows: [[1], [8], [5], [null], [null], [null]] },
    {
      at: "E8",
      look: "input",
      words: [
        "mg",
        "g",
        "kg",
        "oz",
        "lb",
        "mL",
        "L",
        "tsp",
        "tbsp",
        "floz",
        "pt",
        "qt",
        "gal",
        "impfloz",
        "impgal",
      ],
      rows: [["gal"], ["lb"], ["L"], [null], [null], [null]],
    },
    {
      at: "F8",
      look: "input",
      format: "0.000",
      rows: [[null], [0.93], [null], [null], [null], [null]],
    },
    {
      at: "G8",
      look: "input",
      format: "#,##0.00",
      rows: [[14.5], [12.75], [22], [null], [null], [null]],
    },
    {
      at: "H8",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [[0.02], [0.02], [0.02], [null], [null], [null]],
    },
    {
      at: "I8",
      look: "result",
      format: "0.000",
      formula: "=MIST.FLOZCOST(C8,D8,E8,F8,G8,H8)",
      down: 6,
    },
    {
      at: "J8",
      look: "result",
      format: '0.00" x"',
      formula: '=IF(ISNUMBER(I8),I8/MINIFS(I$8:I$13,I$8:I$13,">0"),"")',
      down: 6,
    },
    {
      at: "K8",
      look: "input",
      words: ["all named", "part named", "not disclosed"],
      rows: [["all named"], ["part named"], ["not disclosed"], [null], [null], [null]],
    },
    { at: "L8", look: "input", limits: [1, 5], rows: [[4], [3], [4], [null], [null], [null]] },
    {
      at: "M8",
      look: "input",
      words: ["pick", "reserve", "no"],
      rows: [["pick"], ["no"], ["reserve"], [null], [null], [null]],
    },
    {
      at: "N8",
      look: "input",
      rows: [
        ["fine mist, dries clear"],
        ["soft on cloth, slow to dry"],
        ["dries fastest, sharp opening"],
        [null],
        [null],
        [null],
      ],
    },
    {
      at: "A15",
      look: "label",
      rows: [["Lowest landed cost"], ["Lines with an error"]],
    },
    {
      at: "B15",
      look: "result",
      rows: [
        ['=IF(COUNT(I8:I13)=0,"",INDEX(B8:B13,MATCH(MINIFS(I8:I13,I8:I13,">0"),I8:I13,0)))'],
        ["=SUMPRODUCT(--ISERROR(I8:I13))"],
      ],
    },
    {
      at: "C15",
      look: "note",
      rows: [
        [
          '=IF(COUNT(I8:I13)=0,"No line is filled yet.","from "&INDEX(A8:A13,MATCH(MINIFS(I8:I13,I8:I13,">0"),I8:I13,0))&", among "&COUNT(I8:I13)&" priced lines")',
        ],
        [
          '=IF(B16=0,"Every filled line is counted.","Left out of the comparison: hold the pointer over the red cell to read why.")',
        ],
      ],
    },
  ],
};
