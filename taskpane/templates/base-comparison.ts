import { PACK_UNITS } from "../sheets/pack-units";
import { ofBase } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** Lines for packs, and what draws them: every line of Materials that is a base. */
const LINES = 6;
const ofBases = (...columns: string[]) =>
  Array.from({ length: LINES }, (_, i) => columns.map((column) => `=${ofBase(column, i + 1)}`));

/** What What is in it says of a base. */
const inIt = (column: string, base: string) =>
  `=IF(${base}="","",IF(ISERROR(MATCH(${base},{What is in it!bases.base},0)),"not there",INDEX({What is in it!bases.${column}},MATCH(${base},{What is in it!bases.base},0))))`;

/** Supplier packs in unlike sizes, brought to one landed cost per US fluid ounce. Demo data invented. */
export const template: Template = {
  title: "Base comparison",
  use: "Several suppliers' packs, sold by weight or volume, as one landed cost per fluid ounce.",
  step: 5,
  widths: [
    132, 104, 60, 52, 62, 66, 62, 66, 62, 54, 70, 84, 78, 68, 62, 62, 84, 106, 62, 74, 230, 84, 84,
    96,
  ],
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
          "Freight is that of one order, shared by its packs, and nothing once the goods reach the sum from which it is free. A blank freight is not known: type 0 where it costs nothing.",
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
          "Price of a pack ($)",
          "Pack size",
          "Pack unit",
          "Density (g/mL)",
          "Packs in the order (count)",
          "Freight of the order ($)",
          "Freight free from ($)",
          "Lost (%)",
          "Landed pack ($)",
          "Landed cost ($ per fl oz)",
          "Against cheapest",
          "Sample price ($)",
          "Sample size",
          "Sample unit",
          "Sample cost ($ per fl oz)",
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
      draw: ofBases("supplier", "name"),
    },
    {
      at: "C8",
      look: "input",
      format: "#,##0.00",
      rows: [[46], [39], [61], [null], [null], [null]],
      draw: ofBases("price"),
    },
    {
      at: "D8",
      look: "input",
      rows: [[1], [8], [5], [null], [null], [null]],
      draw: ofBases("size"),
    },
    {
      at: "E8",
      look: "input",
      words: PACK_UNITS,
      rows: [["gal"], ["lb"], ["L"], [null], [null], [null]],
      draw: ofBases("unit"),
    },
    {
      at: "F8",
      look: "input",
      format: "0.000",
      rows: [[null], [0.93], [null], [null], [null], [null]],
      draw: ofBases("density"),
    },
    {
      at: "G8",
      look: "input",
      rows: [[1], [1], [2], [null], [null], [null]],
      draw: ofBases("packs"),
    },
    {
      at: "H8",
      look: "input",
      format: "#,##0.00",
      rows: [
        [14.5, 75],
        [12.75, 100],
        [22, 120],
        [null, null],
        [null, null],
        [null, null],
      ],
      draw: ofBases("freight", "freefrom"),
    },
    {
      at: "J8",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [[0.02], [0.02], [0.02], [null], [null], [null]],
      draw: ofBases("lost"),
    },
    {
      at: "K8",
      look: "result",
      format: "#,##0.00",
      formula: '=IF(C8="","",IF(SUM(G8)<=0,"how many packs?",MIST.LANDED(C8,G8,H8,I8)/G8))',
      down: 6,
    },
    {
      at: "L8",
      look: "result",
      format: "0.000",
      formula: "=MIST.FLOZCOST(K8,D8,E8,F8,0,J8)",
      down: 6,
    },
    {
      at: "M8",
      look: "result",
      format: '0.00" x"',
      formula: '=IF(ISNUMBER(L8),L8/MINIFS(L$8:L$13,L$8:L$13,">0"),"")',
      down: 6,
    },
    {
      at: "N8",
      look: "input",
      format: "#,##0.00",
      rows: [[9], [7.5], [11], [null], [null], [null]],
      draw: ofBases("sampleprice"),
    },
    {
      at: "O8",
      look: "input",
      rows: [[4], [4], [100], [null], [null], [null]],
      draw: ofBases("samplesize"),
    },
    {
      at: "P8",
      look: "input",
      words: PACK_UNITS,
      rows: [["floz"], ["oz"], ["mL"], [null], [null], [null]],
      draw: ofBases("sampleunit"),
    },
    {
      at: "Q8",
      look: "result",
      format: "0.000",
      formula: "=MIST.FLOZCOST(N8,O8,P8,F8)",
      down: 6,
    },
    {
      at: "R8",
      look: "input",
      words: ["all named", "part named", "not disclosed"],
      rows: [["all named"], ["part named"], ["not disclosed"], [null], [null], [null]],
      draw: ofBases("disclosed"),
    },
    {
      at: "S8",
      look: "input",
      limits: [1, 5],
      rows: [[4], [3], [4], [null], [null], [null]],
      draw: ofBases("score"),
    },
    {
      at: "T8",
      look: "input",
      words: ["pick", "reserve", "no"],
      rows: [["pick"], ["no"], ["reserve"], [null], [null], [null]],
      draw: ofBases("pick"),
    },
    {
      at: "U8",
      look: "input",
      rows: [
        ["fine mist, dries clear"],
        ["soft on cloth, slow to dry"],
        ["dries fastest, sharp opening"],
        [null],
        [null],
        [null],
      ],
      draw: ofBases("notes"),
    },
    {
      at: "A6",
      look: "note",
      needs: ["Materials"],
      rows: [
        [
          `=IF(COUNT({Materials!materials.basenth})>${LINES},"Materials has "&COUNT({Materials!materials.basenth})&" lines of bases, of which the first ${LINES} are here.","Blue cells are drawn from Materials; type there, or over them.")`,
        ],
      ],
    },
    {
      at: "V7",
      look: "heading",
      needs: ["What is in it"],
      rows: [["Named (count)", "To avoid (count)", "Undisclosed at most (%)"]],
    },
    {
      at: "V8",
      look: "result",
      needs: ["What is in it"],
      format: "0.0%;-0.0%;0",
      rows: Array.from({ length: LINES }, (_, i) =>
        ["named", "avoided", "most"].map((column) => inIt(column, `$B${8 + i}`)),
      ),
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
        ['=IF(COUNT(L8:L13)=0,"",INDEX(B8:B13,MATCH(MINIFS(L8:L13,L8:L13,">0"),L8:L13,0)))'],
        ["=SUMPRODUCT(--ISERROR(L8:L13))"],
      ],
    },
    {
      at: "C15",
      look: "note",
      rows: [
        [
          '=IF(COUNT(L8:L13)=0,"No line is filled yet.","from "&INDEX(A8:A13,MATCH(MINIFS(L8:L13,L8:L13,">0"),L8:L13,0))&", among "&COUNT(L8:L13)&" priced lines")',
        ],
        [
          '=IF(B16=0,"Every filled line is counted.","Left out of the comparison: hold the pointer over the red cell to read why.")',
        ],
        [
          '=IF(SUMPRODUCT((C8:C13<>"")*(J8:J13=""))=0,"","Nothing lost is counted where Lost is blank, in "&SUMPRODUCT((C8:C13<>"")*(J8:J13=""))&" of the priced lines.")',
        ],
      ],
    },
  ],
  charts: [
    {
      title: "Landed cost of each base",
      kind: "columns",
      unit: "$ per US fl oz",
      labels: "B8:B13",
      series: [{ name: "$ per US fl oz", values: "L8:L13" }],
      over: "A18:H31",
    },
  ],
};
