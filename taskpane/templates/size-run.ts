import { PERCENT, TYPED_OVER } from "../sheets/columns.ts";
import { basisOf, densityOf, ofSize, onHandOf, tooLittleOnHand } from "../sheets/drawn.ts";
import type { Row } from "../sheets/parts.ts";
import {
  FILLED,
  MATERIAL,
  RECIPE_NOTE,
  SHARE_BY_BASIS,
  SHARE_SAID,
  SIZED,
  SIZES,
  SIZE_HEADS,
  blankIn,
  eachSize,
  headed,
  held,
  lineOfRecipe,
} from "../sheets/sizes-across.ts";
import type { Template } from "../sheets/template.ts";

/** Sizes of the demo. */
const DEMO = 4;
const WEIGHT = "#,##0.00";

/** What weights are in, and the grams in one. */
const UNIT = 'IF({weighin}="","g",{weighin})';
const PER = `MIST.TURN(1,${UNIT},"g")`;
/** The largest error allowed in an ingredient; 5 % where none is typed. */
const ALLOWED = 'IF({tolerance}="",0.05,{tolerance})';

const isWhole = (count: string) =>
  `IF(ISNUMBER(${count}),IF(${count}>=0,${count}=INT(${count}),FALSE),FALSE)`;

/** Of a size: how many of a piece are on one bottle. */
const onOne = (name: string, label: string, demo: number[]): Row => {
  const piece = ofSize(name, "{sizes.size:across}");
  const isThere = ofSize("size", "{sizes.size:across}");
  return {
    name: `${name}each`,
    label: `${label} on one (count)`,
    format: '0;-0;"none"',
    demo,
    draw: `=IF(${isThere}="","",IF(${piece}="",0,1))`,
    note: `=IF(${blankIn(`pieces.${name}each`)}=0,"","blank is not known: type 0 if there is none")`,
  };
};

/** Of a size: pieces for all its bottles, with spare ones; `each` is how many are on one. */
const ready = (name: string, label: string, each: string): Row => ({
  name,
  label: `${label} to have (count)`,
  format: '#,##0;-#,##0;"none"',
  formula: `=IF(AND(ISNUMBER(${each}),${isWhole("{sizes.count:across}")}),ROUNDUP(ROUND({sizes.count:across}*${each}*(1+SUM({morepieces})),6),0),"")`,
  note: `=IF(COUNT({sizes.count})=0,"",IF(COUNT({pieces.${name}})<COUNT({sizes.count}),"not known for every size",TEXT(SUM({pieces.${name}}),"#,##0")&" in all"))`,
});

/** What is said of an ingredient. */
const said = (more: string) =>
  `=IF(AND({material}="",{load}=""),"",TEXTJOIN("; ",TRUE,${SHARE_SAID},IF(AND(ISNUMBER({weigh}),SUM({share})>0,SUM({step})>${ALLOWED}*SUM({weigh})+0.000000001),IF({weigh}=0,"less than this scale can show","too little for this scale: up to "&TEXT({step}/2/{weigh},"0%")&" off"),"")${more}))`;
const ON_HAND = onHandOf("{material}");

/** One recipe over several bottle sizes: what to weigh, whether the scale can, pieces to have. Demo invented. */
export const template: Template = {
  title: "Size run",
  use: "One recipe poured into several bottle sizes: what to weigh of each ingredient, what to buy, and the pieces to have ready.",
  words:
    "scale a recipe, resize, several sizes, sample sizes, make many bottles, double, multiply, how many bottles",
  step: 8,
  widths: [240, 130, 88, 88, 88, 88, 88, 130, 84, 100, 100, 100, 100, 260],
  parts: [
    { text: "title", rows: ["Size run"] },
    {
      text: "note",
      rows: [
        "Pick a recipe, sizes and bottles: what is blue is drawn and may be typed over. Or type the cream cells.",
        "5 % of the base is not 5 % of the finished batch: say which one your loads are. Type 5 %, not 5.",
        "Leave the load of the base blank: it is the rest. For the density weigh a known volume: MIST.DENSITYOF.",
      ],
    },
    {
      text: "caution",
      rows: [
        "Alcohol bases burn: no flame or spark near, air moving. The data sheet and local rules come first.",
      ],
    },
    {
      gap: 1,
      fields: [
        {
          name: "recipe",
          label: "Recipe",
          words: "{Recipes!recipes.picks}",
          demo: "Rain room",
          note: RECIPE_NOTE,
        },
        {
          name: "of",
          label: "Loads are a percentage of",
          words: ["finished", "base"],
          demo: "finished",
          draw: `=IF({recipe}="","",${basisOf("{recipe}")})`,
          note: '=IF({of}="","say which: finished or base",IF({of}="base","the base alone","the finished batch"))',
        },
        {
          name: "density",
          label: "Density of the finished spray (g/mL)",
          format: "0.000",
          demo: 0.87,
          draw: `=IF({recipe}="","",${densityOf("{recipe}")})`,
          note: '=IF({density}="","not known: weigh a known volume","")',
        },
        {
          name: "weighin",
          label: "Weights and the scale's step are in",
          words: ["g", "oz"],
          demo: "g",
          note: '=IF({weighin}="","blank: g is taken","")',
        },
        {
          name: "step",
          label: "Smallest step of the scale (g or oz)",
          demo: 0.1,
          note: `=IF(SUM({step})<=0,"what is its smallest step?",${UNIT})`,
        },
        {
          name: "tolerance",
          label: "Largest error allowed in one (%)",
          ...PERCENT,
          demo: 0.05,
          note: '=IF({tolerance}="","blank: 5 % is taken","")',
        },
        {
          name: "spare",
          label: "Spare liquid (%)",
          ...PERCENT,
          demo: 0.02,
          note: '=IF({spare}="","blank: none","")',
        },
        {
          name: "morepieces",
          label: "Spare pieces (%)",
          ...PERCENT,
          demo: 0.05,
          note: '=IF({morepieces}="","blank: none","rounded up, for each size")',
        },
        {
          name: "show",
          label: "Show the weights of",
          words: ["all bottles", "one bottle"],
          demo: "all bottles",
          note: '=IF({show}="","blank: all bottles","")',
        },
        {
          name: "batch",
          label: "The whole batch, with spare (g)",
          format: "#,##0.0",
          marks: [{ begins: "not known", mark: "lacking" }],
          formula: `=IF(COUNTA({sizes.count})=0,"",IF(COUNT({sizes.amount})=SUMPRODUCT(--((({sizes.size}<>"")+({sizes.holds}<>"")+({sizes.count}<>""))>0)),SUM({sizes.amount})*${PER}*(1+SUM({spare})),"not known"))`,
          note: '=IF({batch}="not known","look at each size below","")',
        },
      ],
    },
    {
      gap: 1,
      table: "sizes",
      across: SIZES,
      heads: SIZE_HEADS,
      over: true,
      rows: [
        {
          name: "size",
          label: "Size",
          words: "{Sizes!sizes.size}",
          wraps: true,
          demo: ["2 fl oz", "4 fl oz", "8 fl oz", "16 fl oz"],
        },
        ...held(DEMO),
        { name: "count", label: "Bottles to fill (count)", demo: [12, 24, 12, 6] },
        {
          name: "said",
          label: "Said of this size",
          look: "note",
          formula: `=IF(${SIZED},IF(ISNUMBER({count}),IF(${isWhole("{count}")},"","whole ones?"),"how many?"),IF({count}="","","which size?"))`,
        },
        {
          name: "amount",
          label: "All its bottles (g or oz)",
          format: WEIGHT,
          formula: `=IF(AND(ISNUMBER({fill}),${isWhole("{count}")}),{fill}*{count}/${PER},"")`,
        },
        {
          name: "can",
          label: "Can this scale weigh the least of it?",
          look: "answer",
          marks: [{ begins: "no", mark: "doubt" }],
          formula: `=IF(OR(SUM({amount})<=0,SUM({step})<=0,SUM({liquids.share})=0,COUNT({liquids.share})<${FILLED}),"",IF({amount}>=MIST.LEASTBATCH(MINIFS({liquids.share},{liquids.share},">0"),{step},${ALLOWED})-0.000000001,"yes","no: too little"))`,
        },
      ],
    },
    {
      gap: 1,
      paper: "new page",
      table: "pieces",
      across: SIZES,
      heads: headed("Pieces"),
      over: true,
      rows: [
        onOne("sprayer", "Sprayers, caps or wicks", [1, 1, 1, 1]),
        onOne("label", "Labels", [1, 1, 1, 1]),
        onOne("box", "Boxes", [0, 0, 1, 1]),
        ready("bottle", "Bottles or jars", "1"),
        ready("sprayer", "Sprayers, caps, wicks", "{sprayereach}"),
        ready("label", "Labels", "{labeleach}"),
        ready("box", "Boxes", "{boxeach}"),
      ],
    },
    {
      gap: 1,
      table: "weights",
      across: SIZES,
      heads: headed(
        `="What to weigh ("&${UNIT}&"), "&IF({show}="one bottle","one bottle of each","all bottles")`,
      ),
      rows: [
        {
          name: "all",
          label: "All ingredients together (g or oz)",
          format: WEIGHT,
          formula: `=IF({show}="one bottle",IF(ISNUMBER({sizes.fill:across}),{sizes.fill:across}/${PER},""),{sizes.amount:across})`,
        },
      ],
    },
    {
      list: "liquids",
      lines: 10,
      reach: 60,
      columns: [
        MATERIAL,
        {
          name: "grams",
          heading: eachSize((k) => `Size ${k}`),
          format: WEIGHT,
          formula:
            '=IF(AND(ISNUMBER({share}),ISNUMBER({weights.all:across})),{share}*{weights.all:across},"")',
        },
        {
          name: "weigh",
          heading: "To weigh, with spare (g or oz)",
          format: "#,##0.0##",
          formula: `=IF(AND(ISNUMBER({share}),ISNUMBER({batch}),SUM({step})>0),ROUND(ROUND({share}*{batch}/${PER}/{step},0)*{step},6),"")`,
        },
        {
          name: "load",
          heading: "Load (%)",
          ...PERCENT,
          demo: [null, 0.04, 0.01],
          draw: `=${lineOfRecipe("load")}`,
        },
        { name: "share", heading: "Of it all (%)", format: "0.00%", formula: SHARE_BY_BASIS },
        {
          name: "buy",
          heading: "To buy (g)",
          format: "#,##0.0",
          formula: '=IF(AND(ISNUMBER({share}),ISNUMBER({batch})),{share}*{batch},"")',
        },
        {
          name: "buyoz",
          heading: "To buy (oz)",
          format: "#,##0.00",
          formula: '=IF({buy}="","",MIST.TURN({buy},"g","oz"))',
        },
        TYPED_OVER,
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          marks: [
            { begins: "too little", mark: "doubt" },
            { begins: "less than", mark: "doubt" },
          ],
          formula: said(
            `,IF(OR({material}="",COUNTIF({Materials!materials.key},{material})>0),"","not in Materials, or not in use"),${tooLittleOnHand(ON_HAND, "{buy}")}`,
          ),
          alone: said(""),
        },
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "liquids",
    columns: 1,
    caution:
      "Flammable: no flame or spark near, air moving, gloves. The safety data sheet and local rules come first.",
  },
};
