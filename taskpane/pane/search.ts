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

/** What fits the words, best first: what is named so, what has every word, what has some. */
export function find(words: string): string[] {
  const all = index.search(words, { combineWith: "AND" });
  const some = index.search(words);
  const names = [...all, ...some].map(({ id }) => String(id));
  const typed = words.trim().toLowerCase();
  const named = NAMES.filter((name) => name.toLowerCase() === typed);
  return [...new Set([...named, ...names])].slice(0, MOST);
}
