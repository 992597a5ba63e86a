/** Where everything stands on Limits check, and the small words its formulas are made of. */
import {
  CARRIAGE,
  CATEGORY_NAMES,
  DUTIES,
  SKIN_CATEGORIES,
  VOC_RULES,
} from "../../../src/data/rules";
import type { Block } from "../../sheets/block";

export type { Block };
export type Content = string | number | null;

export const LINES = 8;
export const ALLERGEN_LINES = 4;
/** Cream lines below the rules and below the categories. */
export const OWN_RULES = 4;
export const OWN_CATEGORIES = 3;

export const PLACES = [...new Set([...VOC_RULES, ...DUTIES].map(({ place }) => place))];
export const KINDS = [...new Set(VOC_RULES.map(({ product }) => product))];

/** A section's first row: below the last one, a free row, its title and its heads. */
const below = (last: number, heads = 1) => last + 3 + heads;

export const PRODUCT = 8;
export const READ_FOR = PRODUCT + 9;
export const PART = READ_FOR + 2;
export const LAST_PART = PART + LINES - 1;
export const SUM = LAST_PART + 1;
export const LIMIT = below(SUM);
export const RULE = below(LIMIT + 8);
export const FLASH = below(RULE + 4);
export const TEST = FLASH + 5;
export const LOAD = below(TEST + 4);
export const ALLERGEN = below(LOAD + 6);
export const CAUTION = below(ALLERGEN + ALLERGEN_LINES + 1, 0);
export const POINTER = below(CAUTION + 4);
export const DUTY = below(POINTER + CARRIAGE.length - 1);
export const LAST_DUTY = DUTY + DUTIES.length - 1;
export const TABLE = below(LAST_DUTY, 4);
export const OWN_RULE = TABLE + VOC_RULES.length;
export const LAST_RULE = OWN_RULE + OWN_RULES - 1;
export const CATEGORY = below(LAST_RULE);
export const OWN_CATEGORY = CATEGORY + SKIN_CATEGORIES.length;
export const LAST_CATEGORY = OWN_CATEGORY + OWN_CATEGORIES - 1;
export const LIST = below(LAST_CATEGORY);
export const OWN_PLACE = LIST + PLACES.length;
export const OWN_KIND = LIST + KINDS.length;
export const OWN_NAME = LIST + CATEGORY_NAMES.length;
export const LAST_NAME = OWN_NAME + 2 * OWN_CATEGORIES - 1;
export const STATE = below(LAST_NAME, 0);

/** What the workings find once for the whole sheet, each in column B (the last two in B and C). */
const FOUND = [
  "used",
  "category",
  "otherCategory",
  "column",
  "otherColumn",
  "federal",
  "composition",
  "certificates",
  "voc",
  "densities",
  "hazards",
  "strictest",
  "water",
  "others",
] as const;
export const found = Object.fromEntries(
  FOUND.map((name, i) => [name, `$B$${STATE + i}`]),
) as Record<(typeof FOUND)[number], string>;
export const WATER_BY_VOLUME = STATE + FOUND.indexOf("water");
export const OTHER_VOC = STATE + FOUND.indexOf("others");

export const WORK = STATE + FOUND.length + 2;

/** The cells of what the product is. */
export const KIND = `$B$${PRODUCT}`;
export const SECOND = `$B$${PRODUCT + 1}`;
export const PLACE = `$B$${PRODUCT + 2}`;
export const DAY = `$B$${PRODUCT + 3}`;
export const SKIN = `$B$${PRODUCT + 4}`;
/** The categories that the two columns of limits were read for. */
export const READS = [`$I$${READ_FOR}`, `$J$${READ_FOR}`];

export const span = (column: string, from: number, to: number) => `${column}${from}:${column}${to}`;
export const held = (column: string, from: number, to: number, last = column) =>
  `$${column}$${from}:$${last}$${to}`;
/** Columns of the ingredients as typed, of their workings, of the rules, and of the categories. */
export const typed = (column: string) => held(column, PART, LAST_PART);
export const worked = (column: string, last = column) => held(column, WORK, WORK + LINES - 1, last);
export const ruleColumn = (column: string) => held(column, TABLE, LAST_RULE);
export const categoryColumn = (column: string) => held(column, CATEGORY, LAST_CATEGORY);
/** A column of the rules that are looked at. */
export const looked = (column: string) => held(column, RULE, RULE + 3);

/** The narrowest low and high of each ingredient; which of them are fragrance, alcohol, water. */
export const NARROW = worked("E", "F");
export const FRAGRANCE = worked("J");
export const ALCOHOL = worked("K");
export const WATER = worked("L");

/** What rounding may do to a sum of printed percents. */
export const NEAR = "0.000000001";

// Words first, with a mark behind them; the colour says it once more.
export const OVER = "Over the limit (!)";
export const WITHIN = "Within the limit";
export const BOTH = "Doubt: lies on both sides (?)";
export const NONE = "No verdict";
export const UNLISTED = "No rule is listed";
export const UNLIMITED = "No limit in the rule";
export const NOT_APPROVED = "not approved";
export const MARKED: Block["marks"] = [
  { begins: "Over", mark: "over" },
  { begins: "Under", mark: "over" },
  { begins: "Outside", mark: "over" },
  { begins: "Doubt", mark: "doubt" },
  { begins: "Within", mark: "within" },
  { begins: "No ", mark: "lacking" },
];

export const sumIf = (flags: string, column: string) => `SUMIF(${flags},"yes",${worked(column)})`;
export const percent = (share: string, digits = 1) => `ROUND(${share}*100,${digits})&" %"`;
export const names = (range: string) => `TEXTJOIN(", ",TRUE,${range})`;
export const isAny = (range: string) => `COUNTIF(${range},"?*")>0`;
/** A name where something holds, nothing where it does not. */
export const missing = (condition: string, name: string) => `IF(${condition},"${name}","")`;

/** In words, never a verdict of law: what the numbers say. */
export const verdict = (low: string, high: string, limit: string) =>
  `IF(${low}>${limit}+${NEAR},"${OVER}",IF(${high}<=${limit}+${NEAR},"${WITHIN}","${BOTH}"))`;
/** Nothing on an empty sheet; no verdict where something is missing. */
export const judged = (trouble: string, words: string, none = `"${NONE}"`) =>
  `=IF(${found.used}=0,"",IF(${trouble}<>"",${none},${words}))`;
/** A number, where nothing is missing for it. */
export const unless = (trouble: string, value: string) => `=IF(${trouble}<>"","",${value})`;
/** What is missing, or what there is to say. */
export const told = (trouble: string, words: string) =>
  `=IF(${found.used}=0,"",IF(${trouble}<>"",${trouble},${words}))`;

export const texts = (at: string, look: Block["look"], ...lines: string[]): Block => ({
  at,
  look,
  rows: lines.map((line) => [line]),
});
export const cells = (at: string, look: Block["look"], row: Content[], format?: string): Block => ({
  at,
  look,
  format,
  rows: [row],
});
export const heading = (row: number, column: string, ...titles: (string | null)[]) =>
  cells(`${column}${row - 1}`, "heading", titles);
export const section = (row: number, title: string, heads = 1) =>
  texts(`A${row - 1 - heads}`, "section", title);
export const blanks = (rows: number, columns = 1): Content[][] =>
  Array.from({ length: rows }, () => Array<Content>(columns).fill(null));
