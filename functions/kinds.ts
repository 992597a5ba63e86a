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
  score: "a score; blank or a dash for a gap",
  limit: 'a percent, "not limited" or "not approved"',
  yesno: "yes or no",
  label: "a word or words",
  category: 'a number or "none"',
  number: "a number",
  unit: "a unit: mg g kg oz lb, or mL L tsp tbsp floz pt qt gal impfloz impgal",
  choice: "one of the words in quotes",
} as const;

export type Kind = keyof typeof KINDS;

/** Kinds that are words: they are not counted when a line is looked at for anything filled in. */
export const WORD_KINDS: ReadonlySet<Kind> = new Set(["unit", "choice"]);
