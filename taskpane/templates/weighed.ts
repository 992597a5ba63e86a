import { TYPED_OVER } from "../sheets/columns.ts";
import { DEMO_MATERIALS } from "./demo/materials.ts";
import { DEMO_WEIGHED } from "./demo/batches.ts";
import type { Template } from "../sheets/template.ts";

/** What is poured; anything else on Materials is counted in pieces. */
export const LIQUIDS = ["base", "fragrance oil", "additive", "wax"];

const isLiquid = LIQUIDS.map((what) => `{what}="${what}"`).join(",");
const whatOf = (material: string) => DEMO_MATERIALS.find(({ name }) => name === material)?.what;

/** What was taken from which lot for which batch: on hand falls by it, and a lot is traced through it. */
export const template: Template = {
  title: "Weighed",
  use: "What was weighed or counted for each batch, from which lot: on hand on Materials falls by it.",
  words: "used up, stock falls, lot numbers, what went into a batch, take out of stock, recall",
  step: 15,
  widths: [132, 180, 92, 104, 110, 104, 104, 220, 140, 92, 92, 84],
  parts: [
    { text: "title", rows: ["Weighed"] },
    {
      text: "note",
      rows: [
        "One line a material of a batch, in g or pieces. The pane writes them: Book this run.",
        "A line counts where its batch is in the Batch book. To put stock back, press Take a run back.",
      ],
    },
    {
      gap: 1,
      fields: [
        {
          name: "filled",
          label: "Lines filled",
          formula: "=COUNTA({weighed.batch})",
          format: "0",
          note: '=IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one counts","counting: "&{counted}&"; look under Said of this line"))',
        },
        {
          name: "counted",
          label: "Lines that count",
          formula: "=SUMPRODUCT(ISNUMBER({weighed.line})*ISNUMBER({weighed.grams}))",
          format: "0",
        },
        {
          // As a text, so that a lot typed as a number is found, too: here once, and not on every line.
          name: "sought",
          label: "Lot being traced",
          formula: '=TRIM({Batch book!lot}&"")',
        },
      ],
    },
    {
      gap: 1,
      list: "weighed",
      lines: DEMO_WEIGHED.length + 12,
      reach: 20_000,
      columns: [
        { name: "batch", heading: "Batch", demo: DEMO_WEIGHED.map(({ batch }) => batch) },
        {
          name: "material",
          heading: "Material",
          words: "{Materials!materials.picks}",
          demo: DEMO_WEIGHED.map(({ material }) => material),
        },
        { name: "lot", heading: "Lot", demo: DEMO_WEIGHED.map(({ lot }) => lot) },
        {
          name: "grams",
          heading: "Weighed (g or pieces)",
          format: "#,##0.0##",
          demo: DEMO_WEIGHED.map(({ amount }) => amount),
        },
        {
          name: "what",
          heading: "What it is",
          demo: DEMO_WEIGHED.map(({ material }) => whatOf(material) ?? null),
          draw: '=IF({material}="","",IFERROR(INDEX({Materials!materials.what},MATCH({material},{Materials!materials.name},0))&"",""))',
        },
        {
          name: "date",
          heading: "Of the batch (date)",
          format: "yyyy-mm-dd",
          demo: DEMO_WEIGHED.map(({ date }) => date),
          draw: '=IF(ISNUMBER({line}),IF(INDEX({Batch book!batches.date},{line})="","",INDEX({Batch book!batches.date},{line})),"")',
        },
        {
          name: "counts",
          heading: "Counts (g or pieces)",
          format: "#,##0.0##",
          formula: '=IF({batch}="","",IF(AND(ISNUMBER({line}),ISNUMBER({grams})),{grams},0))',
        },
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          formula:
            '=IF({batch}="",IF(COUNTA({material},{grams})=0,"","which batch?"),TEXTJOIN("; ",TRUE,IF(ISNUMBER({line}),IF({date}="","the batch has no date",""),"not in the Batch book: does not count"),IF(ISNUMBER({grams}),"","how much?"),IF({material}="","which material?",IF({what}="","not in Materials","")),IF({lot}="","no lot","")))',
        },
        TYPED_OVER,
        {
          name: "liquid",
          heading: "Poured (g)",
          hidden: true,
          format: "#,##0.0##",
          formula: `=IF(AND(ISNUMBER({grams}),OR(${isLiquid})),{grams},"")`,
        },
        {
          name: "traced",
          heading: "Batch of the lot traced",
          hidden: true,
          formula: '=IF({lotkey}={sought},{batch},"")',
        },
        {
          // What is the same whichever lot is traced. A line without a lot has no text, and so is never traced.
          name: "lotkey",
          heading: "Found by (lot)",
          hidden: true,
          formula:
            '=IF(OR({lot}="",AND({Batch book!of}<>"",{Batch book!of}<>{material})),0,TRIM({lot}&""))',
        },
        {
          name: "line",
          heading: "Line of Batch book",
          hidden: true,
          format: "0",
          formula:
            '=IF({batch}="","",IFERROR(MATCH({batch},{Batch book!batches.number},0),"none"))',
          // Alone every line counts: there is no book that it could be taken out of.
          alone: '=IF({batch}="","",ROW()-ROW({weighed.batch:head}))',
        },
        {
          // A number for each material: lines are told apart by numbers faster than by names.
          name: "first",
          heading: "First line of the material",
          hidden: true,
          format: "0",
          formula: '=IF({material}="","",IFERROR(MATCH({material},{weighed.material},0),""))',
        },
        {
          // Below zero is the line of Materials that has its lot; else it is the number of the material.
          name: "stock",
          heading: "Taken from",
          hidden: true,
          format: "0",
          formula:
            '=IF({first}="","",IFERROR(-MATCH({material}&"|"&TRIM({lot}&""),{Materials!materials.lotkey},0),{first}))',
          alone: "={first}",
        },
      ],
    },
  ],
  page: {
    heads: "weighed",
    columns: 2,
    caution: "Flammable liquids: the safety data sheet and local rules come first.",
  },
};
