/** Limits check: how much of an allergen the product has, beside the threshold for naming it. */
import {
  type Block,
  ALLERGEN,
  ALLERGEN_LINES,
  BOTH,
  LAST_PART,
  MARKED,
  NONE,
  PART,
  blanks,
  cells,
  found,
  heading,
  held,
  missing,
  section,
  span,
  texts,
  worked,
} from "./places";

const PERCENT = "0.0000%";
const lines = (column: string) => held(column, ALLERGEN, ALLERGEN + ALLERGEN_LINES - 1);

function line(row: number): Block[] {
  const inputs = `COUNTA(A${row},C${row},F${row},H${row})`;
  const isThere = `COUNTIF(${worked("A")},H${row})>0`;
  const isWhole = `AND(${inputs}=4,${found.composition}="",${isThere})`;
  const share = (column: string) =>
    `=IF(${isWhole},SUMIF(${worked("A")},H${row},${worked(column)})*C${row},"")`;
  // An allergen that several oils bring counts with what all of them bring.
  const all = (column: string) => `SUMIF(${lines("A")},A${row},${lines(column)})`;
  const isKnown = `AND(A${row}<>"",COUNTIFS(${lines("A")},A${row},${lines("E")},"")=0)`;
  const over = (column: string) => `${all(column)}>F${row}*1.000000001`;
  const gaps = [
    missing(`A${row}=""`, "allergen"),
    missing(`C${row}=""`, "its share in the oil"),
    missing(`F${row}=""`, "threshold"),
    missing(`H${row}=""`, "oil"),
  ];
  return [
    {
      ...texts(
        `B${row}`,
        "result",
        `=IF(${inputs}=0,"",IF(NOT(${isKnown}),"${NONE}",IF(${over("D")},"Over the threshold (!)",IF(${over("E")},"${BOTH}","Within the threshold"))))`,
      ),
      marks: MARKED,
    },
    cells(`D${row}`, "result", [share("E"), share("F")], PERCENT),
    cells(
      `G${row}`,
      "result",
      [`=IF(OR(E${row}="",NOT(${isKnown})),"",F${row}-${all("E")})`],
      PERCENT,
    ),
    texts(
      `J${row}`,
      "note",
      `=IF(${inputs}=0,"",IF(${inputs}<4,"Missing: "&TEXTJOIN(", ",TRUE,${gaps.join(",")})&".",IF(${found.composition}<>"",${found.composition},` +
        `IF(NOT(${isThere}),"No ingredient above has this name.",IF(NOT(${isKnown}),"Another line of this allergen is not whole.",` +
        `IF(${over("E")},"A cosmetic names it on its label, by the rules listed below.",""))))))`,
    ),
  ];
}

const spare = ALLERGEN_LINES - 2;

export const ALLERGENS: Block[] = [
  section(ALLERGEN, "Allergens in the product"),
  heading(
    ALLERGEN,
    "A",
    "Allergen",
    "In words, on these numbers",
    "In the oil (%)",
    "In the product, low (%)",
    "In the product, high (%)",
    "Threshold (%)",
    "Room left, all its lines (%)",
    "Oil (pick it)",
    null,
  ),
  { at: `A${ALLERGEN}`, look: "input", rows: [["linalool"], ["limonene"], ...blanks(spare)] },
  {
    at: `C${ALLERGEN}`,
    look: "input",
    format: PERCENT,
    limits: [0, 1],
    rows: [[0.02], [0.0002], ...blanks(spare)],
  },
  {
    at: `F${ALLERGEN}`,
    look: "input",
    format: PERCENT,
    limits: [0, 1],
    rows: [[0.00001], [0.00001], ...blanks(spare)],
  },
  {
    at: `H${ALLERGEN}`,
    look: "input",
    words: span("A", PART, LAST_PART),
    rows: [["Rain on Slate"], ["Attic Cedar"], ...blanks(spare)],
  },
  ...Array.from({ length: ALLERGEN_LINES }, (_, i) => line(ALLERGEN + i)).flat(),
  texts(
    `A${ALLERGEN + ALLERGEN_LINES}`,
    "note",
    "Share of the oil x share of the allergen in it. What several oils bring of one allergen adds up, so give it a line for each of them.",
    "0.001 % is the threshold for cosmetics that stay on the skin, in the European Union and Canada, seen in secondary texts only.",
  ),
];
