/** Where a working line or a need applies: "basis is base", "counts given", "counts not given", or an expression. */
export type Condition =
  | { sort: "word"; name: string; word: string }
  | { sort: "given"; name: string; given: boolean }
  | { sort: "expression"; expression: string };

export function conditionIn(text: string): Condition {
  const isWord = /^(\w+) is ([\w-]+)$/.exec(text);
  if (isWord) return { sort: "word", name: isWord[1], word: isWord[2] };
  const isGiven = /^(\w+) (not )?given$/.exec(text);
  if (isGiven) return { sort: "given", name: isGiven[1], given: !isGiven[2] };
  return { sort: "expression", expression: text };
}
