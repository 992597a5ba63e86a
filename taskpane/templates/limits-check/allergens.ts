/** Limits check: how much of an allergen the product has, beside the threshold for naming it. */
import type { Part } from "../../sheets/parts.ts";
import { BOTH, MARKED, NONE, missing } from "./words.ts";

const PERCENT = "0.0000%";
/** As many as the European Union has long asked to name, from memory; more are typed below. */
const LINES = 26;

const TYPED = ["allergen", "inoil", "threshold", "oil"];
const INPUTS = `COUNTA(${TYPED.map((column) => `{${column}}`).join(",")})`;
const IS_THERE = "COUNTIF({work.name},{oil})>0";
const IS_WHOLE = `AND(${INPUTS}=4,{missingall}="",${IS_THERE})`;
const share = (column: string) =>
  `=IF(${IS_WHOLE},SUMIF({work.name},{oil},{work.${column}})*{inoil},"")`;

// An allergen that several oils bring counts with what all of them bring.
const all = (column: string) => `SUMIF({allergens.allergen},{allergen},{allergens.${column}})`;
const IS_KNOWN =
  'AND({allergen}<>"",COUNTIFS({allergens.allergen},{allergen},{allergens.high},">=0")=COUNTIF({allergens.allergen},{allergen}))';
const over = (column: string) => `${all(column)}>{threshold}*1.000000001`;

const GAPS = [
  missing('{allergen}=""', "allergen"),
  missing('{inoil}=""', "its share in the oil"),
  missing('{threshold}=""', "threshold"),
  missing('{oil}=""', "oil"),
].join(",");

/** Lines with anything on them, wherever in the columns they stand; the headings are one of them. */
const FILLED = TYPED.map((column) => `({allergens.${column}:all}<>"")`).join("+");

/** The last on its sheet, and all that is said of it above it: lines are typed and pasted under its last. */
export const ALLERGENS: Part[] = [
  { gap: 1, text: "section", rows: ["Allergens in the product"] },
  {
    text: "note",
    rows: [
      "Share of the oil x share of the allergen in it. Type, paste and insert as many lines as there are.",
      "What several oils bring of one allergen adds up, so give it a line for each of them.",
      "0.001 % is the threshold for cosmetics that stay on the skin, in the European Union and Canada.",
      "It was seen in secondary texts only.",
    ],
  },
  {
    fields: [
      {
        name: "allergensfilled",
        label: "Lines filled",
        format: "0",
        formula: `=SUMPRODUCT(--(${FILLED}>0))-1`,
        note: '=IF({allergensfilled}=0,"no line is filled yet",IF({allergensfilled}={allergenscounted},"every one is counted","NOT ALL ARE COUNTED: look under Said of this line, above the first line and below the last one that is counted"))',
      },
      {
        name: "allergenscounted",
        label: "Lines that are counted",
        format: "0",
        formula: "=COUNT({allergens.high})",
      },
    ],
  },
  {
    gap: 1,
    list: "allergens",
    lines: LINES,
    reach: 300,
    columns: [
      { name: "allergen", heading: "Allergen", demo: ["linalool", "limonene"] },
      {
        name: "words",
        heading: "In words, on these numbers",
        marks: MARKED,
        formula: `=IF(${INPUTS}=0,"",IF(NOT(${IS_KNOWN}),"${NONE}",IF(${over("low")},"Over the threshold (!)",IF(${over("high")},"${BOTH}","Within the threshold"))))`,
      },
      {
        name: "inoil",
        heading: "In the oil (%)",
        format: PERCENT,
        limits: [0, 1],
        demo: [0.02, 0.0002],
      },
      {
        name: "low",
        heading: "In the product, low (%)",
        format: PERCENT,
        formula: share("narrowlow"),
      },
      {
        name: "high",
        heading: "In the product, high (%)",
        format: PERCENT,
        formula: share("narrowhigh"),
      },
      {
        name: "threshold",
        heading: "Threshold (%)",
        format: PERCENT,
        limits: [0, 1],
        demo: [0.00001, 0.00001],
      },
      {
        name: "room",
        heading: "Room left, all its lines (%)",
        format: PERCENT,
        formula: `=IF(OR({high}="",NOT(${IS_KNOWN})),"",{threshold}-${all("high")})`,
      },
      {
        name: "oil",
        heading: "Oil (pick it)",
        words: "{parts.name}",
        demo: ["Rain on Slate", "Attic Cedar"],
      },
      // The last, so that it may run on.
      {
        name: "said",
        heading: "Said of this line",
        look: "note",
        formula:
          `=IF(${INPUTS}=0,"",IF(${INPUTS}<4,"Missing: "&TEXTJOIN(", ",TRUE,${GAPS})&".",IF({missingall}<>"",{missingall},` +
          `IF(NOT(${IS_THERE}),"No ingredient above has this name.",IF(NOT(${IS_KNOWN}),"Another line of this allergen is not whole.",` +
          `IF(${over("high")},"A cosmetic names it on its label, by the rules listed above.",""))))))`,
      },
    ],
  },
];
