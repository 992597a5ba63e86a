import { VOLUME_UNITS, WEIGHT_UNITS } from "../../src/units.ts";

/**
 * The closed list of what an argument or a result can be: the word in brackets that opens each
 * `@param` and `@returns`. The text is what a person reads beside it.
 */
export const KINDS = {
  amount: "a number in any unit of weight or volume",
  weight: "a number, a weight",
  volume: "a number, a volume",
  share: "a percent: type 5 %, not 5",
  density: "a number, g/mL",
  money: "a number, in your currency",
  count: "a whole number",
  celsius: "a temperature, degrees Celsius unless a scale is named",
  drops: "a number of drops",
  rate: "a number, drops per mL",
  hours: "a number of hours",
  dose: "a number, g/m3",
  score: "a score; blank or a dash for a gap",
  limit: 'a percent, "not limited" or "not approved"',
  yesno: "yes or no",
  label: "a word or words",
  worded: "percents, and a word on them",
  category: 'a number or "none"',
  number: "a number",
  unit: `a unit, of weight ${WEIGHT_UNITS.join(" ")} or of volume ${VOLUME_UNITS.join(" ")}, or written out`,
  choice: "one of the words in quotes",
  pack: 'a pack\'s text, such as "4 x 250 mL"',
} as const;

export type Kind = keyof typeof KINDS;

/** Kinds that are words: they are not counted when a line is looked at for anything filled in. */
export const WORD_KINDS: ReadonlySet<Kind> = new Set(["unit", "choice"]);

/**
 * What a 0 means. Excel on the desktop passes a blank cell as 0, so a zero may be either;
 * null and "" are a blank for every kind. A whole line of zeros is a blank line for all kinds.
 *
 * - zero: the number, as there are such; the function refuses it where it makes no sense (a price)
 * - blank: there is no such thing, so it is a blank passed as one
 * - unclear: both are likely and the answers differ, so it is refused with what to type instead;
 *   where nothing stands in for a blank, it is one
 *
 * docs/errors.md has every kind under what its zero means, and a test holds the two together.
 */
export function zeroOf(kind: Kind): "zero" | "blank" | "unclear" {
  if (kind === "celsius") return "unclear";
  return BLANK_AT_ZERO.has(kind) ? "blank" : "zero";
}

const BLANK_AT_ZERO: ReadonlySet<Kind> = new Set(["density", "yesno", "label", ...WORD_KINDS]);

interface Asked {
  kind: Kind;
  optional: boolean;
  default?: number | string;
}

/**
 * True where a zero counts as left out. A required density is left to its function, to refuse in
 * its words.
 */
export function isLeftOutAtZero({ kind, optional, default: fallback }: Asked): boolean {
  return optional && (BLANK_AT_ZERO.has(kind) || (kind === "celsius" && fallback === undefined));
}

/** True where a zero is refused, as nobody can tell whether it is one. */
export function isRefusedAtZero(param: Asked): boolean {
  return zeroOf(param.kind) === "unclear" && !isLeftOutAtZero(param);
}
