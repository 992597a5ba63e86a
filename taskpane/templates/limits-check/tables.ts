/** The tables of Limits check: where to look, the rules, the categories, and the lists to pick from. */
import { serialOf } from "../../sheets/days";
import {
  CARRIAGE,
  CATEGORY_NAMES,
  DUTIES,
  FEDERATION,
  IFRA_GUIDANCE,
  type Pointer,
  SKIN_CATEGORIES,
  STATES,
  VOC_RULES,
} from "../../../src/data/rules";
import {
  type Block,
  CATEGORY,
  DAY,
  DUTY,
  KINDS,
  LAST_RULE,
  LIST,
  OWN_CATEGORIES,
  OWN_CATEGORY,
  OWN_KIND,
  OWN_NAME,
  OWN_PLACE,
  OWN_RULE,
  OWN_RULES,
  PLACES,
  POINTER,
  TABLE,
  blanks,
  heading,
  section,
  texts,
} from "./places";

/** A day such as 2026-11-25, as a sheet counts it. */
export function serial(day: string): number {
  return serialOf(Date.parse(`${day}T00:00:00Z`));
}

const said = ({ says, seen }: Pointer) => `${says} (${seen})`;
const saidWhere = ({ says, source, seen }: Pointer) => `${says} (${source}; ${seen})`;

export const POINTERS: Block[] = [
  section(POINTER, "Transport and label in the United States: where to look"),
  heading(POINTER, "A", "Where", "What", "What it says", null, null, null),
  {
    at: `A${POINTER}`,
    look: "label",
    rows: CARRIAGE.map(({ source, what }) => [source, what]),
  },
  texts(`C${POINTER}`, "note", ...CARRIAGE.map(said)),
  section(DUTY, "Duties to look up, by place: pointers, not advice, and not all of them"),
  heading(DUTY, "A", "Place", "Duty", "What it says", null, null, null),
  { at: `A${DUTY}`, look: "label", rows: DUTIES.map(({ place, what }) => [place, what]) },
  texts(`C${DUTY}`, "note", ...DUTIES.map(saidWhere)),
];

const RULE_LINES = LAST_RULE - TABLE + 1;

export const RULE_TABLE: Block[] = [
  section(TABLE, "VOC rules, by weight", 4),
  texts(
    `A${TABLE - 4}`,
    "note",
    "Some rules of some places, not all. Of those that hold on the day the strictest counts; one without a date holds. Add your own in the cream lines: they can then be picked above.",
    "How it was seen says what was not read in the rule: read it before you rely on a line. A blank exemption is none. Where a rule sets no limit, type none as the limit.",
    "A place or kind that is not on the list shows no limit, which does not mean that there is none. Name the country beside a state, and its rule is looked at, too.",
  ),
  heading(
    TABLE,
    "A",
    "Place",
    "Product",
    "Most VOC (%)",
    "Fragrance not counted (%)",
    "From (date)",
    "State of",
    "Limit on that day (%)",
    "Not counted that day (%)",
  ),
  heading(TABLE, "I", "How it was seen", null, null, null),
  heading(TABLE, "M", "Source", null, null, null),
  {
    at: `A${TABLE}`,
    look: "label",
    rows: VOC_RULES.map(({ place, product }) => [place, product]),
  },
  {
    at: `C${TABLE}`,
    look: "label",
    format: "0.00%",
    rows: VOC_RULES.map(({ limit, exempt }) => [limit, limit === "none" ? null : exempt]),
  },
  {
    at: `E${TABLE}`,
    look: "label",
    format: "yyyy-mm-dd",
    rows: VOC_RULES.map(({ from }) => [from && serial(from)]),
  },
  {
    at: `F${TABLE}`,
    look: "label",
    rows: VOC_RULES.map(({ place }) => [STATES.includes(place) ? FEDERATION : null]),
  },
  texts(`I${TABLE}`, "note", ...VOC_RULES.map(({ seen }) => seen)),
  texts(`M${TABLE}`, "note", ...VOC_RULES.map(({ source }) => source)),
  { at: `A${OWN_RULE}`, look: "input", rows: blanks(OWN_RULES, 2) },
  { at: `C${OWN_RULE}`, look: "input", format: "0.00%", rows: blanks(OWN_RULES) },
  {
    at: `D${OWN_RULE}`,
    look: "input",
    format: "0.00%",
    limits: [0, 1],
    rows: blanks(OWN_RULES),
  },
  { at: `E${OWN_RULE}`, look: "input", format: "yyyy-mm-dd", rows: blanks(OWN_RULES) },
  { at: `F${OWN_RULE}`, look: "input", words: [FEDERATION], rows: blanks(OWN_RULES) },
  { at: `I${OWN_RULE}`, look: "input", rows: blanks(OWN_RULES, 8) },
  {
    at: `G${TABLE}`,
    look: "result",
    format: "0.00%",
    formula: `=IF(AND(ISNUMBER(C${TABLE}),ISNUMBER(${DAY}),OR(E${TABLE}="",E${TABLE}<=${DAY})),C${TABLE},"")`,
    down: RULE_LINES,
  },
  {
    at: `H${TABLE}`,
    look: "result",
    format: "0.00%",
    formula: `=IF(G${TABLE}="","",IF(ISNUMBER(D${TABLE}),D${TABLE},0))`,
    down: RULE_LINES,
  },
];

export const CATEGORY_TABLE: Block[] = [
  section(CATEGORY, "Categories of fragrance certificates"),
  heading(
    CATEGORY,
    "A",
    "Product",
    "Category",
    "Other, if disputed",
    "How it was seen",
    null,
    null,
    null,
  ),
  {
    at: `A${CATEGORY}`,
    look: "label",
    rows: SKIN_CATEGORIES.map(({ product, category, other = null }) => [product, category, other]),
  },
  texts(`D${CATEGORY}`, "note", ...SKIN_CATEGORIES.map(({ seen }) => `${IFRA_GUIDANCE}: ${seen}`)),
  { at: `A${OWN_CATEGORY}`, look: "input", rows: blanks(OWN_CATEGORIES, 7) },
];

/** What the cream lines add to a list, below what is known. */
function added(at: string, from: string, lines: number): Block {
  const [column, row] = [at[0], Number(at.slice(1))];
  const listed = `COUNTIF(${column}$${LIST}:${column}${row - 1},${from})>0`;
  return {
    at,
    look: "result",
    formula: `=IF(${from}="","",IF(${listed},"",${from}))`,
    down: lines,
  };
}

export const LISTS: Block[] = [
  section(LIST, "Lists for the choices above, with what the cream lines add"),
  heading(LIST, "A", "Places", "Kinds, for VOC", "Categories"),
  texts(`A${LIST}`, "label", ...PLACES),
  added(`A${OWN_PLACE}`, `A${OWN_RULE}`, OWN_RULES),
  texts(`B${LIST}`, "label", ...KINDS),
  added(`B${OWN_KIND}`, `B${OWN_RULE}`, OWN_RULES),
  texts(`C${LIST}`, "label", ...CATEGORY_NAMES),
  added(`C${OWN_NAME}`, `B${OWN_CATEGORY}`, OWN_CATEGORIES),
  added(`C${OWN_NAME + OWN_CATEGORIES}`, `C${OWN_CATEGORY}`, OWN_CATEGORIES),
];
