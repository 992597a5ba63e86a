/** Which column of a list each argument of a function seems to be: by its heading, and by what stands in it. */
import { type CellValue, isBlank } from "../../functions/bind/cell.ts";
import type { CatalogEntry, Param } from "../../functions/catalog/entry.ts";
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { OWN_COLUMNS } from "../sheets/own-list.ts";
import { blockText } from "./cells.ts";
import { type Column, type List, textOf } from "./list.ts";

/** Arguments that price lists know by a word of their own. */
const LIKE: Record<string, string> = { loss: "lost", freeover: "freefrom", need: "size" };

/** Words of headings that a price list of Materials has for something else, or not at all. */
const MORE: Record<string, readonly string[]> = {
  size: ["pack", "holds", "contents", "net"],
  density: ["sg"],
};

/** How many lines are looked at. */
const FIRST_LINES = 20;

/** The cells of the columns that fit, by the names of the arguments; each column once. */
export function proposals({ params }: CatalogEntry, list: List): Map<string, string> {
  const found = new Map<string, string>();
  const taken = new Set<Column>();
  const ranked = params.flatMap((param) =>
    list.columns.flatMap((column) => {
      const score = holdsKind(param, column) ? likeness(param, column.heading) : 0;
      return score > 0 ? [{ param, column, score }] : [];
    }),
  );
  for (const { param, column } of ranked.sort((a, b) => b.score - a.score)) {
    if (found.has(param.name) || taken.has(column)) continue;
    found.set(param.name, cellsOf(column, list));
    taken.add(column);
  }
  return found;
}

function cellsOf({ column }: Column, { sheet, first: row, last }: List): string {
  return blockText({ sheet, row, column, rows: last - row + 1, columns: 1 }, sheet);
}

/** How much a heading sounds like an argument: 0 for not at all; its first words count most. */
function likeness({ name }: Param, heading: string): number {
  const said = heading.toLowerCase();
  const one = name.replace(/s$/, "");
  if (said === name || said === one) return 100;
  const known = OWN_COLUMNS[LIKE[one] ?? LIKE[name] ?? one]?.words ?? [];
  const words = [one, ...known, ...(MORE[one] ?? [])];
  const rank = words.findIndex((word) => hasWord(said, word));
  return rank < 0 ? 0 : 50 - rank;
}

/** A word of the heading, or its beginning: "ship" is none of "relationship". */
function hasWord(said: string, word: string): boolean {
  return said.split(/[^\p{L}\p{N}$%/]+/u).some((each) => each.startsWith(word)) || said === word;
}

/** True where most of the first lines can be what the argument is. */
function holdsKind({ kind }: Param, { values }: Column): boolean {
  const filled = values.filter((value) => !isBlank(value)).slice(0, FIRST_LINES);
  const fits = filled.filter((value) => isOfKind(kind, value));
  return filled.length > 0 && fits.length * 2 > filled.length;
}

function isOfKind(kind: Param["kind"], value: CellValue): boolean {
  if (kind === "unit") return typeof value === "string" && UNIT_WORDS.has(unitWord(value));
  if (kind === "choice" || kind === "label" || kind === "yesno") return typeof value === "string";
  if (kind === "pack") return /\d/.test(textOf(value));
  if (kind === "share") return typeof value === "number" && value >= 0 && value <= 1;
  return typeof value === "number";
}
