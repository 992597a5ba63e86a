/** The words that Limits check answers in, and the small pieces that its formulas are made of. */
import type { Block } from "../../sheets/block.ts";

/** Columns that are printed, and those of the limits. */
export const COLUMNS = 16;
export const LIMITS_ACROSS = 6;

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

/** What an ingredient can be. Of what is not disclosed, any part may be alcohol, or water. */
export const WHAT = ["ethanol", "isopropanol", "water", "fragrance oil", "other", "not disclosed"];

/** The narrowest low and high of each ingredient. */
export const NARROW = "{work.narrowlow:narrowhigh}";

/** A column summed over the lines that are fragrance, alcohol and so on: "yes" in that column of flags. */
export const sumIf = (flag: string, column: string) =>
  `SUMIF({work.${flag}},"yes",{work.${column}})`;
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
  `=IF({used}=0,"",IF(${trouble}<>"",${none},${words}))`;
/** A number, where nothing is missing for it. */
export const unless = (trouble: string, value: string) => `=IF(${trouble}<>"","",${value})`;
/** What is missing, or what there is to say. */
export const told = (trouble: string, words: string) =>
  `=IF({used}=0,"",IF(${trouble}<>"",${trouble},${words}))`;

/** A heading that is painted over so many columns, for words that run on to the right. */
export const wide = (heading: string | null, columns: number): (string | null)[] => [
  heading,
  ...Array.from({ length: columns - 1 }, () => null),
];
