/** Limits check: how much of an allergen the product has, beside the threshold for naming it. */
import type { Part } from "../../sheets/parts.ts";
import { BOTH, MARKED, NONE, missing, wide } from "./words.ts";

const PERCENT = "0.0000%";
// As many as the European Union has long asked to name, from memory.
const LINES = 26;

const INPUTS = "COUNTA({allergen},{inoil},{threshold},{oil})";
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

export const ALLERGENS: Part[] = [
  { gap: 1, paper: "new page", text: "section", rows: ["Allergens in the product"] },
  {
    list: "allergens",
    lines: LINES,
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
      {
        name: "said",
        heading: wide("Said of this line", 4),
        look: "note",
        demo: Array.from(
          { length: LINES },
          () =>
            `=IF(${INPUTS}=0,"",IF(${INPUTS}<4,"Missing: "&TEXTJOIN(", ",TRUE,${GAPS})&".",IF({missingall}<>"",{missingall},` +
            `IF(NOT(${IS_THERE}),"No ingredient above has this name.",IF(NOT(${IS_KNOWN}),"Another line of this allergen is not whole.",` +
            `IF(${over("high")},"A cosmetic names it on its label, by the rules listed below.",""))))))`,
        ),
      },
    ],
  },
  {
    text: "note",
    rows: [
      "Share of the oil x share of the allergen in it.",
      "What several oils bring of one allergen adds up, so give it a line for each of them.",
      "0.001 % is the threshold for cosmetics that stay on the skin, in the European Union and Canada.",
      "It was seen in secondary texts only.",
    ],
  },
];
