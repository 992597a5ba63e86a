/** Sheets and functions, found in one search by everyday words. */
import MiniSearch from "minisearch";
import { catalog } from "../../functions/catalog/catalog.ts";
import { templates } from "../templates/index.ts";
import { formsOf, isGroup, tellsOf } from "./everyday-words.ts";

const NAMES = [...templates.map(({ title }) => title), ...catalog.map(({ id }) => id)];

/** The most that one search shows: more is a list again. */
const MOST = 8;

interface Searched {
  /** The title of a sheet, or the id of a function. */
  id: string;
  asked: string;
  words: string;
  says: string;
  more: string;
}

const SEARCHED: Searched[] = [
  ...templates.map(({ title, use, words = "" }): Searched => {
    return { id: title, asked: title, words, says: use, more: "" };
  }),
  ...catalog.map(({ id, need, words, summary, remarks, topic, params }): Searched => {
    const more = `${topic} ${remarks} ${params.map(({ text }) => text).join(" ")}`;
    return { id, asked: need, words, says: summary, more };
  }),
];

function wordsIn(text: string): string[] {
  return text.match(/[\p{L}\p{N}%']+/gu) ?? [];
}

/** In how many sheets and functions a form of a word stands. */
const SPREAD = new Map<string, number>();
for (const { asked, words, says } of SEARCHED) {
  for (const form of new Set(wordsIn(`${asked} ${words} ${says}`).flatMap(formsOf)))
    SPREAD.set(form, (SPREAD.get(form) ?? 0) + 1);
}

/** A word that stands everywhere, such as oil, tells less than a rare one. */
function rarity(form: string): number {
  return Math.log(1 + SEARCHED.length / ((SPREAD.get(form) ?? 0) + 0.5));
}

const index = new MiniSearch<Searched>({
  fields: ["id", "asked", "words", "says", "more"],
  tokenize: wordsIn,
  processTerm: formsOf,
  searchOptions: {
    prefix: (form) => form.length > 3 && !isGroup(form),
    fuzzy: (form) => (form.length > 4 && !isGroup(form) ? 0.2 : false),
    weights: { prefix: 0.4, fuzzy: 0.3 },
    boost: { id: 0.2, words: 3, more: 0.2 },
    boostTerm: (form) => rarity(form) * tellsOf(form),
  },
});
index.addAll(SEARCHED);

/** Everyday words of several words, each with what has them: "run out", "what is in". */
const PHRASES = [...templates, ...catalog].flatMap((each) => {
  const name = "title" in each ? each.title : each.id;
  const phrases = (each.words ?? "").split(", ").filter((phrase) => phrase.includes(" "));
  return phrases.map((phrase) => ({ name, phrase: withoutArticles(phrase) }));
});

/** " run out base " of "Run out of the base?" */
function withoutArticles(text: string): string {
  const words = wordsIn(text.toLowerCase());
  return ` ${words.filter((word) => !/^(a|an|the|my|our|of)$/.test(word)).join(" ")} `;
}

/** What is said to be looked for by a part of the words as they stand, the longest part first. */
function byPhrase(words: string): string[] {
  const typed = withoutArticles(words);
  return PHRASES.filter(({ phrase }) => typed.includes(phrase))
    .sort((a, b) => b.phrase.length - a.phrase.length)
    .map(({ name }) => name);
}

/** How much of what is asked a hit has: a rare word counts more than a common one. */
function covered(asked: readonly string[][], has: readonly string[]): number {
  const parts = asked.map((forms) => {
    const [plain = ""] = forms;
    const tells = Math.max(0, ...forms.filter((form) => has.includes(form)).map(tellsOf));
    return { weight: rarity(plain), tells };
  });
  const all = parts.reduce((sum, { weight }) => sum + weight, 0);
  return parts.reduce((sum, { weight, tells }) => sum + weight * tells, 0) / all;
}

/** What fits the words, best first: what is named so, what has a part of them as it stands, what has most. */
export function find(words: string): string[] {
  const asked = wordsIn(words)
    .map(formsOf)
    .filter((forms) => forms.length > 0);
  const ranked = index
    .search(words)
    .map(({ id, score, queryTerms }) => {
      return { id: String(id), score: score * (0.1 + covered(asked, queryTerms)) };
    })
    .sort((a, b) => b.score - a.score);
  const typed = words.trim().toLowerCase();
  const named = NAMES.filter((name) => name.toLowerCase() === typed);
  return [...new Set([...named, ...byPhrase(words), ...ranked.map(({ id }) => id)])].slice(0, MOST);
}
