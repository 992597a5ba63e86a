import { PERCENT } from "../sheets/columns.ts";
import { DEMO_BASES, DEMO_INGREDIENTS } from "./demo/ingredients.ts";
import type { Column } from "../sheets/parts.ts";
import type { Template } from "../sheets/template.ts";

/** The six bases, by their numbers: each has columns of its own, named place1, low1, high1 and in1. */
export const BASES = [1, 2, 3, 4, 5, 6];
const ofEach = (write: (base: number) => string) => BASES.map(write);

const named = (base: number) => `INDEX({bases.base},${base})`;
const whereNamed = (base: number, answer: string) => `=IF(${named(base)}="","",${answer})`;
const worded = (word: string) =>
  ofEach((k) => whereNamed(k, `SUMIFS({ingredients.in${k}},{ingredients.word},"${word}")`));

/** Of a base: what stands in a column of Materials, of the line in use or else of the first of its name. */
const inMaterials = (column: string) => {
  const at = (by: string) =>
    `INDEX({Materials!materials.${column}},MATCH({base},{Materials!materials.${by}},0))`;
  const said = (by: string) => `IF(${at(by)}="","not said",${at(by)})`;
  return `=IF({base}="","",IF(COUNTIF({Materials!materials.key},{base})>0,${said("key")},IF(COUNTIF({Materials!materials.name},{base})>0,${said("name")},"not in Materials")))`;
};

const lows = (k: number) => `SUMIFS({ingredients.low${k}},{ingredients.in${k}},1)`;
const areTooMuch = (k: number) => `${lows(k)}>1.0000001`;
/** Lines that hold words where a percent is asked for, how many. */
const unread = (k: number) => `SUMPRODUCT(ISTEXT({ingredients.in${k}})*({ingredients.in${k}}<>""))`;
/** A high that was pasted as 5 for 5 %. */
const isAbove = (k: number) => `COUNTIF({ingredients.high${k}},">1")>0`;

/** Lows that are missing take nothing off what may be undisclosed; a high that is missing may be anything. */
const most = (k: number) =>
  whereNamed(
    k,
    `IF(OR(SUMPRODUCT(({ingredients.in${k}}=1)*ISNUMBER({ingredients.low${k}}))=0,${areTooMuch(k)}),"not known",MAX(0,1-${lows(k)}))`,
  );
const least = (k: number) =>
  whereNamed(
    k,
    `IF(OR(SUM({ingredients.in${k}})=0,${unread(k)}>0,${isAbove(k)},SUMPRODUCT(({ingredients.in${k}}=1)*(1-ISNUMBER({ingredients.high${k}})))>0),"not known",MAX(0,1-SUMIFS({ingredients.high${k}},{ingredients.in${k}},1)))`,
  );
const saidOfBase = (k: number) => {
  const twice = `SUMPRODUCT(({ingredients.in${k}}=1)*(COUNTIFS({ingredients.ingredient},{ingredients.ingredient},{ingredients.in${k}},1)>1))`;
  const wordless = `SUMPRODUCT(({ingredients.in${k}}=1)*({ingredients.word}=""))`;
  return whereNamed(
    k,
    `TEXTJOIN("; ",TRUE,IF(COUNTIF({bases.base},${named(k)})>1,"stands here twice",""),IF(${unread(k)}=0,IF(SUM({ingredients.in${k}})=0,"nothing of it is typed yet",""),"not counted, words for a number: "&${unread(k)}),IF(${twice}=0,"","an ingredient counts twice"),IF(${areTooMuch(k)},"its lows come to more than 100 %",""),IF(${wordless}=0,"",${wordless}&" without your word"),IF(AND(INDEX({bases.disclosed},${k})="all named",INDEX({bases.most},${k})>0),"all are named: open is how much of each",""),IF(AND(INDEX({bases.disclosed},${k})="all named",SUM(INDEX({bases.least},${k}))>0),"all named? its highs do not come to 100 %",""))`,
  );
};

/** A base's columns: where an ingredient stands on its label, and the range of its data sheet. */
const columnsOf = (k: number): Column[] => {
  const demo = (part: 0 | 1 | 2) =>
    DEMO_INGREDIENTS.map(({ inBases }) => inBases[k - 1]?.[part] ?? null);
  return [
    { name: `place${k}`, heading: `Base ${k}: place on the label (count)`, demo: demo(0) },
    { name: `low${k}`, heading: `Base ${k}: low (%)`, ...PERCENT, demo: demo(1) },
    { name: `high${k}`, heading: `Base ${k}: high (%)`, ...PERCENT, demo: demo(2) },
  ];
};

/** Which of the base's ingredients it is, from its first. */
const nth = (k: number): Column => ({
  name: `nth${k}`,
  hidden: true,
  heading: `Ingredient of base ${k}, in order`,
  format: "0",
  formula: `=IF({in${k}}=1,COUNTIF({ingredients.in${k}:upto},1),"")`,
});

/** 1 where the line's ingredient is in the base; a range from 0 to 0 % says that it is not. */
const isIn = (k: number): Column => ({
  name: `in${k}`,
  hidden: true,
  heading: `Is in base ${k}`,
  format: "0",
  formula: `=IF({ingredient}="","",IF(OR({place${k}}<>"",SUM({high${k}})>0,AND({high${k}}="",{low${k}}<>"")),1,0))`,
});

const tooMuch = ofEach(
  (k) => `IF(COUNTIF({low${k}}:{high${k}},">1")>0,"more than 100 % in base ${k}","")`,
).join(",");
const upsideDown = ofEach(
  (k) =>
    `IF(AND({low${k}}<>"",{high${k}}<>"",{low${k}}>{high${k}}),"low is above high in base ${k}","")`,
).join(",");

/** Ingredients down, bases across: what is named, what is avoided, how much is not disclosed. */
export const template: Template = {
  title: "What is in it",
  use: "Ingredients of up to six bases side by side: your own words for each, and how much is not disclosed.",
  words:
    "ingredients, ingredient list, free from, compare bases, alcohol free, phthalate, avoid, clean, vegan, what is in, in a base, contents, made of, customers ask",
  step: 4,
  widths: [
    236,
    96,
    124,
    96,
    116,
    136,
    ...BASES.flatMap(() => [84, 84, 84]),
    440,
    ...BASES.flatMap(() => [60, 60]),
    60,
  ],
  parts: [
    { text: "title", rows: ["What is in it"] },
    {
      text: "note",
      rows: [
        "An ingredient a line: place on label, range, or both. 0 to 0 %: not in; blank: not known.",
        "Limits check reads what it is, VOC part, density, hazardous: by the data sheet, else blank.",
        "Undisclosed: 100 % less the lows at most, less the highs at least. It may do harm: ask.",
      ],
    },
    {
      fields: [
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({ingredients.ingredient:all}<>""))-1',
          format: "0",
          note: '=IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one is in a base","in a base: "&{counted}&"; look under Said of this line, and above the first and below the last one that is counted"))',
        },
        {
          name: "counted",
          label: "Lines that are in a base",
          formula: '=COUNTIF({ingredients.inbases},">0")',
          format: "0",
          note: '=IF(SUMPRODUCT(({Materials!materials.bases}<>"")*(COUNTIF({bases.base},{Materials!materials.bases})=0))=0,"","bases of Materials that are not here yet: "&SUMPRODUCT(({Materials!materials.bases}<>"")*(COUNTIF({bases.base},{Materials!materials.bases})=0)))',
        },
      ],
    },
    {
      list: "bases",
      lines: BASES.length,
      columns: [
        {
          name: "base",
          heading: "Base",
          words: "{Materials!materials.bases}",
          demo: DEMO_BASES,
        },
        {
          name: "named",
          heading: "Named (count)",
          look: "result",
          format: "0",
          demo: ofEach((k) => whereNamed(k, `SUM({ingredients.in${k}})`)),
        },
        {
          name: "avoided",
          heading: "To avoid (count)",
          look: "result",
          format: "0",
          demo: worded("avoid"),
        },
        {
          name: "ask",
          heading: "To ask (count)",
          look: "result",
          format: "0",
          demo: worded("ask"),
        },
        {
          name: "most",
          heading: "Undisclosed at most (%)",
          look: "result",
          format: "0.0%",
          demo: ofEach(most),
        },
        {
          name: "least",
          heading: "Undisclosed at least (%)",
          look: "result",
          format: "0.0%",
          demo: ofEach(least),
        },
        {
          name: "disclosed",
          heading: "Materials say",
          demo: ["all named", "part named", "not disclosed"],
          draw: inMaterials("disclosed"),
        },
        { heading: "Typed over", look: "note", over: true },
        {
          name: "said",
          heading: "Said of this base",
          look: "note",
          demo: ofEach(saidOfBase),
        },
      ],
    },
    {
      // The bases' names over their columns.
      block: "names",
      skip: 6,
      look: "heading",
      rows: [BASES.flatMap((k) => [`=IF(${named(k)}="","base ${k}",${named(k)})`, null, null])],
    },
    {
      list: "ingredients",
      lines: DEMO_INGREDIENTS.length + 11,
      reach: 300,
      columns: [
        {
          name: "ingredient",
          heading: "Ingredient",
          demo: DEMO_INGREDIENTS.map(({ ingredient }) => ingredient),
        },
        {
          name: "word",
          heading: "Your word",
          words: ["like", "avoid", "ask"],
          marks: [
            { begins: "avoid", mark: "over" },
            { begins: "ask", mark: "doubt" },
          ],
          demo: DEMO_INGREDIENTS.map(({ word }) => word ?? null),
        },
        {
          name: "what",
          heading: "What it is, for limits",
          words: ["ethanol", "isopropanol", "water", "other"],
          demo: DEMO_INGREDIENTS.map(({ what }) => what),
        },
        {
          name: "vocpart",
          heading: "VOC part (%)",
          format: "0%",
          limits: [0, 1],
          demo: DEMO_INGREDIENTS.map(({ vocpart }) => vocpart),
        },
        {
          name: "density",
          heading: "Density (g/mL)",
          format: "0.000",
          limits: [0, 3],
          demo: DEMO_INGREDIENTS.map(({ density }) => density),
        },
        {
          name: "hazard",
          heading: "Hazardous (yes or no)",
          words: ["yes", "no", "not known"],
          demo: DEMO_INGREDIENTS.map(({ hazard }) => hazard ?? null),
        },
        ...BASES.flatMap(columnsOf),
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          formula: `=IF({ingredient}="",IF(COUNTA({word},{place1}:{high6})=0,"","which ingredient?"),TEXTJOIN("; ",TRUE,IF({inbases}=0,"in which base?",""),IF({word}="","like, avoid or ask?",""),IF(COUNTIF({ingredients.ingredient},{ingredient})>1,"stands here twice",""),${tooMuch},${upsideDown}))`,
        },
        ...BASES.map(isIn),
        ...BASES.map(nth),
        {
          name: "inbases",
          hidden: true,
          heading: "In so many bases",
          format: "0",
          formula: '=IF({ingredient}="","",SUM({in1}:{in6}))',
        },
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "ingredients",
    columns: 1,
    sections: { begin: ["ingredients.place4"], repeat: 2 },
    caution: "Not disclosed is not harmless: the safety data sheet comes first.",
  },
};
