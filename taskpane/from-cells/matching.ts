/** Which column of a list is what: by its heading, and by what stands in it. */
import type { FoundColumn } from "./list.ts";

/** Something that a column may be. */
export interface Wanted {
  key: string;
  /** Words that its heading may be known by, the best first; one after = is the whole heading. */
  words: readonly string[];
  /** Whether what stands in a column can be it. */
  fits: (column: FoundColumn) => boolean;
}

/** The column that each seems to be; each column once. */
export function matched(
  wanted: readonly Wanted[],
  columns: readonly FoundColumn[],
): Map<string, FoundColumn> {
  const ranked = wanted.flatMap(({ key, words, fits }) =>
    columns.flatMap((column) => {
      const score = fits(column) ? likeness(words, column.heading) : 0;
      return score > 0 ? [{ key, column, score }] : [];
    }),
  );
  const found = new Map<string, FoundColumn>();
  const taken = new Set<FoundColumn>();
  for (const { key, column } of ranked.sort((a, b) => b.score - a.score)) {
    if (found.has(key) || taken.has(column)) continue;
    found.set(key, column);
    taken.add(column);
  }
  return found;
}

/** How much a heading sounds like these words: 0 for not at all; a whole heading counts most, then the first words. */
function likeness(words: readonly string[], heading: string): number {
  const said = heading.toLowerCase();
  const rank = words.findIndex((word) => hasWord(said, word));
  if (rank < 0) return 0;
  return words.includes(said) ? 100 : 50 - rank;
}

/** A word of the heading, or its beginning: "ship" is none of "relationship". */
function hasWord(said: string, word: string): boolean {
  if (word.startsWith("=")) return said.trim() === word.slice(1);
  if (/[^\p{L}\p{N}$%]/u.test(word)) return said.includes(word);
  return said.split(/[^\p{L}\p{N}$%]+/u).some((each) => each.startsWith(word));
}
