/**
 * Conditions: where a working line or a need applies, and what must hold.
 *
 * Where a line applies is "basis is base", "counts given", "counts not given", or an expression.
 */
export type Condition =
  | { sort: "word"; name: string; word: string }
  | { sort: "given"; name: string; given: boolean }
  | { sort: "expression"; expression: string };

export function conditionIn(text: string): Condition {
  const [, subject, word] = /^(\w+) is ([\w-]+)$/.exec(text) ?? [];
  if (subject && word) return { sort: "word", name: subject, word };
  const [, name, not] = /^(\w+) (not )?given$/.exec(text) ?? [];
  if (name) return { sort: "given", name, given: !not };
  return { sort: "expression", expression: text };
}

/**
 * What conditions may call besides what working lines may, and how a reader is told of it: {0} is
 * the first argument. A phrase is denied by its first "is". functions/native says the same in
 * cells.
 */
export const CONDITION_WORDS: Readonly<Record<string, string>> = {
  abs: "the size of ({0})",
  banned: "something without approval in {1} is part of {0}",
  filled: "{0} is filled in",
  floor: "the whole part of {0}",
  given: "{0} is given",
  isknown: "where {0} is used, {1} is a share",
  isnumber: "{0} is a number",
  ispack: "{0} is a pack's text that says one size, with a density where that is a weight",
  islimit: '{0} is a percent, "not limited" or "not approved"',
  isquoted: "where {0} is used, {1} is above zero and {2} is no less",
  isrange: "a range of lows and highs is in {0} or {1}",
  isspare: "a line of {0} and {1} is blank",
  isunit: "{0} is a unit",
  isvolume: "{0} is a unit of volume",
  isweight: "{0} is a unit of weight",
  isyesno: "{0} is yes or no",
  same: "{0} is {1}",
  samelength: "{0} is as long as {1}",
};

/** Names that stand for something in every expression, and how a reader is told of them. */
export const CONDITION_NAMES: Readonly<Record<string, string>> = {
  isrow: "the range is a row",
  true: "true",
  false: "false",
};
