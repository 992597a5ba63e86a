import { TYPED_OVER } from "../sheets/columns.ts";
import { tooLittleOnHand } from "../sheets/drawn.ts";
import { DENSITY, FILL, LOAD_OF, ofMaterial, poured } from "./bench-sheet/drawn.ts";
import {
  ALLOWED,
  ASKED,
  COARSE,
  HAS_SCALE,
  PER,
  VERDICT,
  lacks,
  loadsOf,
} from "./bench-sheet/scale.ts";
import { DEMO_MATERIALS, day } from "./demo/materials.ts";
import type { Template } from "../sheets/template.ts";

/** Ingredients that fit the page; a longer recipe is said. */
const LINES = 12;

const planned = loadsOf("scale");
const read = loadsOf("reading");

/** What is said of a line: first what must not be overlooked. */
const said = (more: string) =>
  `=IF({material}="",IF(SUM({reading})>0,"which material?",""),TEXTJOIN("; ",TRUE,IF(AND(ISNUMBER({scale}),SUM({share})>0,SUM({step})>${ALLOWED}*SUM({scale})),IF({scale}=0,"less than this scale can show","too little for this scale: up to "&TEXT({step}/2/{scale},"0%")&" off"),""),IF(AND(ISNUMBER({useby}),ISNUMBER({date}),SUM({useby})<SUM({date})),"past its use by",""),IF(ISNUMBER({share}),"",IF({share}="","what share?",{share})),IF({what}="","what is it?","")${more}))`;

const onHand = ofMaterial("onhand");
const DEMO_POURS = ["Rain on Slate", "Attic Cedar", "Alder Clear"];

/** One page to weigh by: what to pour of which lot on this scale, ticks, readings, the load, the mend. */
export const template: Template = {
  title: "Bench sheet",
  use: "One page to print and weigh by: lots, weights on your scale's step, ticks, readings, the load poured, how to mend it.",
  words: "print, checklist, weigh by, page for the bench, lot numbers, scale a recipe, ticks",
  step: 13,
  widths: [176, 72, 116, 66, 66, 66, 44, 66, 62, 66, 88, 64, 66, 270, 74],
  parts: [
    { text: "title", rows: ["Bench sheet"] },
    {
      text: "note",
      rows: [
        "Print it, weigh line by line, tick, and type what the scale showed under Reading. Book this run in the pane writes it into the Batch book.",
        "A reading is the weight of that ingredient alone: tare in between. After mending, type what is in the vessel then, line by line.",
      ],
    },
    {
      text: "caution",
      rows: [
        "Alcohol burns: no flame or spark near, air moving. Molten wax burns skin: add oil below its flash point. Gloves; safety data sheet first.",
      ],
    },
    {
      gap: 1,
      name: "run",
      apart: 2,
      fields: [
        {
          name: "recipe",
          label: "Recipe",
          words: "{Recipes!recipes.picks}",
          demo: "Rain room",
          note: `=IF({recipe}="","which one?",IF({lines}=0,"not in Recipes",IF({lines}>${LINES},{lines}&" lines, only ${LINES} fit: too long","")))`,
        },
        {
          name: "number",
          label: "Batch",
          demo: "B-011",
          note: '=IF({number}="","which number?",IF(COUNTIF({Batch book!batches.number},{number})=0,"","in the Batch book already"))',
        },
        { name: "date", label: "Date", format: "yyyy-mm-dd", demo: day(2026, 11, 24) },
        { name: "who", label: "Who", demo: "Wren" },
        {
          name: "useby",
          label: "Use by (the first of its lots)",
          format: "yyyy-mm-dd",
          draw: '=IF(COUNT({pours.useby})=0,"",MIN({pours.useby}))',
        },
        {
          name: "of",
          label: "Loads are a percentage of",
          words: ["finished", "base"],
          demo: "finished",
          draw: LOAD_OF,
          note: '=IF({of}="","finished or base?","")',
        },
        {
          name: "density",
          label: "Density (g/mL)",
          format: "0.000",
          demo: 0.854,
          draw: DENSITY,
          note: '=IF({density}="","not known",IF(COUNTIF({Recipes!recipes.densitykey},{recipe})>0,"measured","an estimate"))',
        },
      ],
    },
    {
      beside: "run",
      skip: 3,
      name: "bench",
      apart: 3,
      fields: [
        {
          name: "unit",
          label: "Weigh in",
          words: ["g", "oz"],
          demo: "g",
          note: '=IF({unit}="","g or oz?","")',
        },
        {
          name: "step",
          label: "Scale's step (in its unit)",
          demo: 0.1,
          note: '=IF(SUM({step})<=0,"its smallest step?",{unit})',
        },
        {
          name: "tolerance",
          label: "Largest error in one (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: 0.05,
          note: '=IF({tolerance}="","blank: 5 % is taken","")',
        },
        {
          name: "vessel",
          label: "Vessel holds (g)",
          demo: 1500,
          note: '=IF({vessel}="","how much?","")',
        },
        {
          name: "extra",
          label: "Made over for losses (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: 0.02,
          note: '=IF({extra}="","blank: none","")',
        },
        { name: "own", label: "Or a batch of (g)", demo: null },
        {
          name: "lines",
          label: "Lines of the recipe",
          format: "0",
          formula: '=IF({recipe}="",0,COUNTIF({Recipes!recipes.recipe},{recipe}))',
          alone: "=COUNTA({pours.material})",
        },
      ],
    },
    {
      gap: 1,
      table: "sizes",
      across: 4,
      apart: 2,
      rows: [
        {
          name: "size",
          label: "Size",
          words: "{Sizes!sizes.size}",
          wraps: true,
          demo: ["2 fl oz", "4 fl oz"],
        },
        { name: "count", label: "Bottles to fill (count)", demo: [6, 10] },
        {
          name: "fill",
          label: "Fill of one (g)",
          format: "0.0",
          worded: true,
          demo: [51.6, 103.1],
          draw: FILL,
        },
        { name: "filled", label: "Bottles really filled (count)", demo: [6, 10] },
        {
          name: "said",
          look: "note",
          formula:
            '=IF({size}="",IF(COUNT({count},{filled})=0,"","which size?"),IF({count}="","how many?",IF(ISNUMBER({fill}),"",IF({fill}="","fill?",{fill}))))',
        },
      ],
    },
    {
      name: "plan",
      apart: 2,
      fields: [
        {
          name: "made",
          label: "Batch to make (g)",
          format: "#,##0.0",
          formula:
            '=IF({own}<>"",{own},IF(SUMPRODUCT(({sizes.size}<>"")*(1-ISNUMBER({sizes.count})*ISNUMBER({sizes.fill})))>0,"",IF(SUMPRODUCT({sizes.count},{sizes.fill})=0,"",SUMPRODUCT({sizes.count},{sizes.fill})*(1+SUM({extra})))))',
          note: '=IF(ISNUMBER({made}),IF({own}="","","typed: not from the bottles"),"sizes, bottles or a fill are missing")',
        },
        {
          name: "fits",
          label: "In the vessel",
          look: "note",
          marks: [{ begins: "does not fit", mark: "doubt" }],
          formula:
            '=IF(OR(NOT(ISNUMBER({made})),{vessel}=""),"",IF({made}>{vessel},"does not fit: "&TEXT({made}-{vessel},"#,##0.0")&" g too much","fits"))',
        },
        {
          name: "coarse",
          label: "On this scale",
          look: "note",
          marks: [{ begins: "too coarse", mark: "doubt" }],
          formula: COARSE,
        },
      ],
    },
    {
      gap: 1,
      list: "pours",
      lines: LINES,
      end: `Not weighed: only the ${LINES} lines above are.`,
      columns: [
        {
          name: "material",
          heading: "Material",
          words: "{Materials!materials.picks}",
          demo: DEMO_POURS,
          draw: poured("material"),
        },
        {
          name: "lot",
          heading: "Lot",
          demo: ["RS-7", "CE-22", "AC-118"],
          draw: `=${ofMaterial("lot")}`,
        },
        {
          name: "useby",
          heading: "Use by (date)",
          format: "yyyy-mm-dd",
          demo: [day(2027, 9, 1), day(2027, 9, 1), day(2027, 9, 1)],
          draw: `=${ofMaterial("useby")}`,
        },
        {
          name: "share",
          heading: "Of the batch (%)",
          format: "0.00%",
          demo: [0.04, 0.01, 0.95],
          draw: poured("share"),
        },
        {
          name: "togram",
          heading: "In grams (g)",
          format: "#,##0.0##",
          formula: `=IF(ISNUMBER({scale}),{scale}*${PER},"")`,
        },
        {
          name: "scale",
          heading: '="To weigh ("&IF({unit}="","g or oz?",{unit})&")"',
          format: "#,##0.0##",
          formula: `=IF(AND(ISNUMBER({share}),ISNUMBER({made}),SUM({share})>=0,${HAS_SCALE}),ROUND(ROUND({share}*{made}/${PER}/{step},0)*{step},6),"")`,
        },
        { name: "done", heading: "Done", look: "answer", formula: '=IF({material}="","","[   ]")' },
        {
          name: "reading",
          heading: "Reading (g or oz)",
          format: "#,##0.0##",
          demo: [55.3, 13.7, 1298.7],
        },
        {
          name: "ratio",
          heading: "Poured of it (%)",
          format: "0.0%",
          formula: '=IF(AND(ISNUMBER({reading}),SUM({scale})>0),{reading}/{scale},"")',
        },
        {
          name: "add",
          heading: "Add to mend it",
          format: "#,##0.0##;;",
          formula: `=IF(OR(${lacks("ratio")},{material}=""),"",MAX(0,ROUND(ROUND(({share}*MAX({pours.asks})-{reading})/{step},0)*{step},6)))`,
        },
        {
          name: "what",
          heading: "What it is",
          demo: ["fragrance oil", "fragrance oil", "base"],
          draw: `=${ofMaterial("what")}`,
        },
        {
          // Not among what is said, which paper may cut: a number cut short is another one.
          name: "flash",
          heading: "Flash point (C)",
          demo: DEMO_POURS.map(
            (pour) => DEMO_MATERIALS.find(({ name }) => name === pour)?.flash ?? null,
          ),
          draw: `=${ofMaterial("flash")}`,
        },
        TYPED_OVER,
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          marks: [
            { begins: "too little", mark: "doubt" },
            { begins: "less than", mark: "doubt" },
            { begins: "past", mark: "doubt" },
          ],
          formula: said(`,${tooLittleOnHand(onHand, "{togram}")}`),
          alone: said(""),
        },
        {
          // By the share, as the weight on the scale's step is rounded. What is not over it asks for no more.
          name: "asks",
          heading: "Batch that this reading asks for (g or oz)",
          hidden: true,
          format: "#,##0.0##",
          formula: `=IF(AND(ISNUMBER({ratio}),SUM({share})>0),IF({reading}>{scale},{reading}/{share},{made}/${PER}),"")`,
        },
      ],
    },
    {
      gap: 1,
      list: "loads",
      lines: 2,
      columns: [
        {
          name: "which",
          heading: "Fragrance load",
          look: "label",
          demo: ["As planned", "As poured"],
        },
        { heading: null },
        {
          name: "load",
          heading: "Load (%)",
          look: "result",
          format: "0.00%",
          demo: [planned.load, read.load],
        },
        {
          name: "low",
          heading: "At least (%)",
          look: "result",
          format: "0.0%",
          demo: [planned.low, read.low],
        },
        {
          name: "high",
          heading: "At most (%)",
          look: "result",
          format: "0.0%",
          demo: [planned.high, read.high],
        },
      ],
    },
    {
      name: "poured",
      apart: 2,
      fields: [
        { name: "asked", label: "Load of the recipe (%)", format: "0.00%", formula: ASKED },
        {
          name: "missing",
          label: "Readings missing (count)",
          format: "0",
          formula: '=SUMPRODUCT(({pours.material}<>"")*(1-ISNUMBER({pours.reading})))',
        },
        {
          name: "verdict",
          label: "The load as poured",
          look: "note",
          marks: [
            { begins: "off", mark: "doubt" },
            { begins: "readings are missing", mark: "doubt" },
          ],
          formula: VERDICT,
        },
        {
          name: "mended",
          label: "In the vessel after mending (g)",
          format: "#,##0.0",
          formula: `=IF(AND(NOT(${lacks("add")}),COUNT({pours.reading})>0,${HAS_SCALE}),(SUM({pours.reading})+SUM({pours.add}))*${PER},"")`,
        },
        {
          name: "mend",
          label: "To mend it",
          look: "note",
          marks: [{ begins: "does not fit", mark: "doubt" }],
          formula:
            '=IF({mended}="","",IF(SUM({pours.add})=0,"nothing to add",IF({vessel}="","",IF({mended}>{vessel},"does not fit: "&TEXT({mended}-{vessel},"#,##0.0")&" g too much for the vessel; ","fits the vessel; "))&"add "&TEXT(SUM({pours.add}),"#,##0.0##")&" "&{unit}&" in all, as stands under Add to mend it"))',
        },
        { name: "notes", label: "Notes for the book", demo: null },
      ],
    },
    {
      block: "room",
      look: "input",
      rows: Array.from({ length: 10 }, () => Array.from({ length: 14 }, () => null)),
    },
  ],
  page: {
    caution:
      "Flammable: no flame or spark near, air moving, gloves. The safety data sheet and local rules come first.",
  },
};
