/** Words as the search has them: without those that tell nothing, without endings, with their kin. */

/** Words that stand in every question and tell nothing. */
const SMALL = new Set(
  (
    "a an and any are as at be been but by can could did do does down for from get give gives go had has have how i " +
    "if in into is it its just like many may me more much must my need no not now of off on one only onto or our out " +
    "over people per put really s should so some than that the them then there these they thing this to too up us " +
    "use want was we well what whats when where which who why will with would you your"
  ).split(" "),
);

/** Words that makers use for one another, or for things that go together. */
const KIN = [
  "price charge discount",
  "cost pay spend",
  "profit margin earn lose gain keep",
  "ship post mail parcel send postage freight courier delivery",
  "order buy reorder purchase",
  "scent smell fragrance perfume odour aroma",
  "mix blend combine marry",
  "strong strength load concentration percent percentage",
  "weigh weight heavy light gram",
  "safe safety hazard",
  "skin body lotion hand",
  "child baby pet children",
  "test try trial sample",
  "record note log diary write",
  "jar bottle vessel container",
  "warn warning hazard pictogram symbol",
  "burn fire flame flammable",
  "best winner won win favourite prefer",
  "panel tester friend customer",
  "date old oldest expire expiry",
  "stock inventory left",
  "law legal rule regulation",
  "thick dense density",
  "shop store wholesale",
];

/** How much a form tells beside the plain word: an ending that is the same, and a word of the same kin. */
const ENDING = { mark: "=", tells: 0.3 };
const GROUP = { mark: "~", tells: 0.5 };

/** How much a form tells, of what its word tells. */
export function tellsOf(form: string): number {
  return [ENDING, GROUP].find(({ mark }) => form.startsWith(mark))?.tells ?? 1;
}

/** True for a form that stands for a group of words: of that there are no beginnings, and no slips. */
export function isGroup(form: string): boolean {
  return form.startsWith(GROUP.mark);
}

/** What a word is found by, the plain word first; nothing for a small word or a number. */
export function formsOf(word: string): string[] {
  const written = word.toLowerCase().replace(/'s$/, "");
  if (SMALL.has(written) || /^[\d%]+$/.test(written)) return [];
  const plain = plainOf(written);
  const ending = plain === written ? [] : [ENDING.mark + written];
  return [plain, ...ending, ...(GROUPS.get(plain) ?? [])];
}

/** Without what makes it many, past or a doing: bottles, filled, weighing. */
function plainOf(word: string): string {
  if (word.length < 4) return word;
  const one = word
    .replace(/ies$/, "y")
    .replace(/(x|ch|sh|ss)es$/, "$1")
    .replace(/([^su])s$/, "$1");
  const bare = one.length > 5 ? one.replace(/(ing|ed)$/, "").replace(/([^l])\1$/, "$1") : one;
  const short = bare.replace(/e$/, "");
  return short.length > 4 ? short.replace(/(er|est|ly)$/, "") : short;
}

const GROUPS = new Map<string, string[]>();
for (const line of KIN) {
  const words = line.split(" ");
  for (const word of words) {
    const plain = plainOf(word);
    GROUPS.set(plain, [...(GROUPS.get(plain) ?? []), `${GROUP.mark}${words[0]}`]);
  }
}
