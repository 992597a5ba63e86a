/** Limits check: what the product is made of, typed by the data sheets or drawn from the other sheets. */
import { PERCENT, TYPED_OVER } from "../../sheets/columns.ts";
import type { Column, Part } from "../../sheets/parts.ts";
import { day } from "../demo/materials.ts";
import { MARKED, NONE, WHAT, percent } from "./words.ts";

/** A limit above one half is said back: many that certificates print are below 1 %. */
const saidBack = (limit: string) =>
  `IF(ISNUMBER(${limit}),IF(${limit}>0.5,"limit "&${percent(limit, 4)}&" (if "&ROUND(${limit},4)&" is printed, type "&ROUND(${limit},4)&"%)",""),"")`;

/** A cell that is drawn as the workings have it. */
const drawn = (name: string) => ({ name, draw: `={drawn.${name}:same}` });

const BASE_SHEET = day(2026, 4, 12);

const COLUMNS: Column[] = [
  {
    ...drawn("name"),
    heading: "Ingredient",
    demo: ["Alcohol of the base", "Water", "Not disclosed", "Rain on Slate", "Attic Cedar"],
  },
  {
    ...drawn("what"),
    heading: "What it is",
    words: WHAT,
    demo: ["ethanol", "water", "not disclosed", "fragrance oil", "fragrance oil"],
  },
  { ...drawn("low"), heading: "Low (%)", ...PERCENT, demo: [0.15, 0.68, 0.01, 0.03, 0.01] },
  { ...drawn("high"), heading: "High (%)", ...PERCENT, demo: [0.25, 0.8, 0.05, 0.03, 0.01] },
  { ...drawn("voclow"), heading: "VOC part, low (%)", ...PERCENT, demo: [1, 0, 0, 1, 1] },
  { ...drawn("vochigh"), heading: "VOC part, high (%)", ...PERCENT, demo: [1, 0, 1, 1, 1] },
  {
    ...drawn("density"),
    heading: "Density (g/mL)",
    format: "0.000",
    limits: [0, 3],
    demo: [0.789, 0.998, 1, 0.95, 0.94],
  },
  {
    ...drawn("hazard"),
    heading: "Hazardous by its data sheet (yes or no)",
    words: ["yes", "no", "not known"],
    demo: [null, null, "not known", "yes", "no"],
  },
  {
    ...drawn("limit1"),
    heading: "Limit on the certificate (%)",
    format: "0.00%",
    worded: true,
    demo: [null, null, null, 0.08, "not limited"],
  },
  {
    ...drawn("limit2"),
    heading: "Limit in a second category (%)",
    format: "0.00%",
    worded: true,
    demo: [],
  },
  {
    ...drawn("sheet"),
    heading: "By the data sheet of",
    demo: ["Alder Clear", "Alder Clear", "Alder Clear", "Rain on Slate", "Attic Cedar"],
  },
  {
    ...drawn("date"),
    heading: "Sheet's date (date)",
    format: "yyyy-mm-dd",
    demo: [BASE_SHEET, BASE_SHEET, BASE_SHEET, day(2026, 2, 10), day(2026, 3, 2)],
  },
  { ...drawn("flash"), heading: "Sheet's flash point (C)", demo: [24, 24, 24, 78, 84] },
  TYPED_OVER,
  // The last, so that it may run on.
  {
    name: "said",
    heading: "Said of this line",
    look: "caution",
    formula:
      `=IF({work.name:same}="","",TEXTJOIN("; ",TRUE,${saidBack("{limit1}")},${saidBack("{limit2}")},` +
      'IF({work.missing:same}="","","missing: "&{work.missing:same})))',
  },
];

/** The section for so many ingredients. */
export const composition = (lines: number): Part[] => [
  { gap: 1, text: "section", rows: ["What is in it, by weight"] },
  {
    list: "sum",
    headed: false,
    lines: 1,
    columns: [
      { look: "label", demo: ["Together"] },
      {
        name: "words",
        marks: MARKED,
        formula: `=IF({used}=0,"",IF({missingall}="","can be 100 %","${NONE}"))`,
      },
      { name: "low", format: "0.0%", formula: '=IF({used}=0,"",SUM({work.low}))' },
      { name: "high", format: "0.0%", formula: '=IF({used}=0,"",SUM({work.high}))' },
      { name: "why", look: "note", formula: '=IF({used}=0,"",{missingall})' },
    ],
  },
  {
    fields: [
      {
        name: "oldest",
        label: "Oldest of the data sheets (date)",
        format: "yyyy-mm-dd",
        formula: '=IF(COUNT({parts.date})=0,"",MIN({parts.date}))',
        note: '=IF({used}=0,"",IF(SUMPRODUCT(({work.name}<>"")*(1-ISNUMBER({parts.date})))=0,"Ask for a newer one before you rely on it.","lines without a date of their data sheet: "&SUMPRODUCT(({work.name}<>"")*(1-ISNUMBER({parts.date})))&". Ask for it."))',
      },
    ],
  },
  // The last, and a row is left free under it: what is typed there is found, and told.
  { list: "parts", lines, columns: COLUMNS },
];
