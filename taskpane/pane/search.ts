/** Sheets and functions, found in one search by everyday words. */
import MiniSearch from "minisearch";
import { catalog } from "../../functions/catalog/catalog.ts";
import { templates } from "../templates/index.ts";

const NAMES = [...templates.map(({ title }) => title), ...catalog.map(({ id }) => id)];

/** The most that one search shows: more is a list again. */
const MOST = 8;

/** Words that stand in every question and tell nothing. */
const SMALL = new Set(
  (
    "a an and any are as at be been but by can could did do does for from get give gives go had has have how i if " +
    "in into is it its just like many may me more much must my need no not now of off on one onto or our out over " +
    "per put really s should so some than that the them then there these they thing this to too up us use want " +
    "was we well what whats when where which who why will with would you your"
  ).split(" "),
);

interface Searched {
  /** The title of a sheet, or the id of a function. */
  id: string;
  asked: string;
  words: string;
  says: string;
  more: string;
}

const index = new MiniSearch<Searched>({
  fields: ["id", "asked", "words", "says", "more"],
  processTerm: (term) => {
    const word = term.toLowerCase().replace(/'s$/, "");
    return SMALL.has(word) ? null : word;
  },
  searchOptions: {
    prefix: (term) => term.length > 2,
    fuzzy: (term) => (term.length > 4 ? 0.2 : false),
    boost: { id: 3, asked: 3, words: 3, says: 2 },
  },
});
index.addAll([
  ...templates.map(({ title, use, words = "" }): Searched => {
    return { id: title, asked: "", words, says: use, more: "" };
  }),
  ...catalog.map(({ id, need, words, summary, remarks, topic, params }): Searched => {
    const more = `${topic} ${remarks} ${params.map(({ text }) => text).join(" ")}`;
    return { id, asked: need, words, says: summary, more };
  }),
]);

/** Everyday words of several words, each with what has them: "run out", "what is in". */
const PHRASES = [...templates, ...catalog].flatMap((each) => {
  const name = "title" in each ? each.title : each.id;
  const phrases = (each.words ?? "").split(", ").filter((phrase) => phrase.includes(" "));
  return phrases.map((phrase) => ({ name, phrase: withoutArticles(phrase) }));
});

/** " run out base " of "Run out of the base?" */
function withoutArticles(text: string): string {
  const words = text.toLowerCase().match(/[\p{L}\p{N}%']+/gu) ?? [];
  return ` ${words.filter((word) => !/^(a|an|the|my|our|of)$/.test(word)).join(" ")} `;
}

/** What is said to be looked for by a part of the words as they stand, the longest part first. */
function byPhrase(words: string): string[] {
  const typed = withoutArticles(words);
  return PHRASES.filter(({ phrase }) => typed.includes(phrase))
    .sort((a, b) => b.phrase.length - a.phrase.length)
    .map(({ name }) => name);
}

/**
 * What fits the words, best first: what is named so, what has a part of them as it stands, what has
 * every word, what has some.
 */
export function find(words: string): string[] {
  const all = index.search(words, { combineWith: "AND" });
  const some = index.search(words);
  const names = [...all, ...some].map(({ id }) => String(id));
  const typed = words.trim().toLowerCase();
  const named = NAMES.filter((name) => name.toLowerCase() === typed);
  return [...new Set([...named, ...byPhrase(words), ...names])].slice(0, MOST);
}
