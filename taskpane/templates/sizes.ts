import { saidOfName } from "../sheets/columns.ts";
import { PACK_UNITS } from "../sheets/pack-units.ts";
import { packRead, saidOfPack } from "../sheets/read-packs.ts";
import { DEMO_SIZES } from "./demo/recipes.ts";
import type { Template } from "../sheets/template.ts";

const demo = <K extends keyof (typeof DEMO_SIZES)[number]>(key: K) =>
  DEMO_SIZES.map((line) => line[key] ?? null);

const PIECES = "{Materials!materials.picks}";

/** What a piece lands at: nothing where none is needed, and in words where its price is not known. */
const cost = (piece: string) =>
  `=IF({size}="","",IF({${piece}}="",0,IF(ISERROR(MATCH({${piece}},{Materials!materials.key},0)),"no price",IF(ISNUMBER(INDEX({Materials!materials.perpiece},MATCH({${piece}},{Materials!materials.key},0))),INDEX({Materials!materials.perpiece},MATCH({${piece}},{Materials!materials.key},0)),"no price"))))`;

/** Bottle sizes and what each is packed in. */
export const template: Template = {
  title: "Sizes",
  use: "The bottles and jars that you fill: what each holds, what it is packed in, and the minutes of work.",
  words:
    "bottles, jars, containers, packaging, labour minutes, fill sizes, my time, new bottle, bottle size, new size, full bottle, how much a bottle holds",
  step: 3,
  widths: [150, 66, 66, 74, 140, 150, 110, 110, 84, 92, 200, 74, 84, 74, 74],
  parts: [
    { text: "title", rows: ["Sizes"] },
    {
      text: "note",
      rows: [
        "One line for each size that you sell. Pieces are materials, by their names there; blank where none is needed.",
        "Overfill is what you fill above the stated amount. Type under the last line for more.",
      ],
    },
    {
      gap: 1,
      fields: [
        {
          name: "filled",
          label: "Sizes filled",
          formula: '=SUMPRODUCT(--({sizes.size:all}<>""))-1',
          format: "0",
          note: '=IF({filled}=0,"no size is filled yet",IF({filled}={counted},"every one is priced","priced: "&{counted}&"; look under Said of this line, and above the first and below the last one that is counted"))',
        },
        { name: "counted", label: "Sizes priced", formula: "=COUNT({sizes.pieces})", format: "0" },
      ],
    },
    {
      gap: 1,
      list: "sizes",
      lines: DEMO_SIZES.length + 4,
      reach: 200,
      columns: [
        { name: "size", heading: "Size", demo: demo("size") },
        { name: "holds", heading: "Holds (in its unit)", worded: true, demo: demo("holds") },
        { name: "unit", heading: "Unit", words: PACK_UNITS, demo: demo("unit") },
        {
          name: "overfill",
          heading: "Overfill (%)",
          format: "0%",
          limits: [0, 1],
          demo: demo("overfill"),
        },
        { name: "bottle", heading: "Bottle or jar", words: PIECES, demo: demo("bottle") },
        { name: "sprayer", heading: "Sprayer, cap or wick", words: PIECES, demo: demo("sprayer") },
        { name: "label", heading: "Label", words: PIECES, demo: demo("label") },
        { name: "box", heading: "Box", words: PIECES, demo: demo("box") },
        { name: "minutes", heading: "Work (minutes)", demo: demo("minutes") },
        {
          name: "pieces",
          heading: "Packaging ($)",
          format: "0.000",
          formula:
            '=IF({size}="","",IF(COUNT({bottlecost},{sprayercost},{labelcost},{boxcost})=4,SUM({bottlecost},{sprayercost},{labelcost},{boxcost}),"no price"))',
        },
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          formula: `=IF({size}="",IF(COUNTA({holds},{bottle})=0,"","which size?"),TEXTJOIN("; ",TRUE,${saidOfName("{size}")},IF({holds}="","how much does it hold?",${saidOfPack("its", "{holds}")}),IF({overfill}="","overfill blank: none",IF(AND({overfill}>=0,{overfill}<=1),"","overfill is from 0 % to 100 %")),IF({minutes}="","minutes of work? type 0 if none",""),IF({bottlecost}="no price","price of "&{bottle}&"?",""),IF({sprayercost}="no price","price of "&{sprayer}&"?",""),IF({labelcost}="no price","price of "&{label}&"?",""),IF({boxcost}="no price","price of "&{box}&"?","")))`,
        },
        {
          name: "bottlecost",
          hidden: true,
          heading: "Bottle ($)",
          format: "0.000",
          formula: cost("bottle"),
        },
        {
          name: "sprayercost",
          hidden: true,
          heading: "Sprayer ($)",
          format: "0.000",
          formula: cost("sprayer"),
        },
        {
          name: "labelcost",
          hidden: true,
          heading: "Label ($)",
          format: "0.000",
          formula: cost("label"),
        },
        {
          name: "boxcost",
          hidden: true,
          heading: "Box ($)",
          format: "0.000",
          formula: cost("box"),
        },
        ...packRead("{holds}"),
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "sizes",
    columns: 1,
    caution: "Net contents, warnings and maker on the label: look up the rules where you sell.",
  },
};
