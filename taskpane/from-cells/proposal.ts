/** Which column of a list each argument of a function seems to be: by its heading, and by what stands in it. */
import { type CellValue, isBlank } from "../../functions/bind/cell.ts";
import type { CatalogEntry, Param } from "../../functions/catalog/entry.ts";
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { moneyIn } from "../../src/written-money.ts";
import { blockText } from "./cells.ts";
import { type FoundColumn, type FoundList, textOf } from "./list.ts";
import { matched } from "./matching.ts";
import { OWN_COLUMNS } from "./own-columns.ts";

/** Arguments that price lists know by a word of their own. */
const LIKE: Record<string, string> = { loss: "lost", freeover: "freefrom", need: "size" };

/** Words of headings that a price list of Materials has for something else, or not at all. */
const MORE: Record<string, readonly string[]> = {
  size: ["pack", "holds", "contents", "net"],
};

/** How many lines are looked at. */
const FIRST_LINES = 20;

/** The cells of the columns that fit, by the names of the arguments; each column once. */
export function proposals({ params }: CatalogEntry, list: FoundList): Map<string, string> {
  const wanted = params.map((param) => ({
    key: param.name,
    words: wordsFor(param),
    fits: (column: FoundColumn) => holdsKind(param, column),
  }));
  const found = matched(wanted, list.columns);
  return new Map([...found].map(([name, column]) => [name, cellsOf(column, list)]));
}

function cellsOf({ column }: FoundColumn, { sheet, first: row, last }: FoundList): string {
  return blockText({ sheet, row, column, rows: last - row + 1, columns: 1 }, sheet);
}

/** Words that the heading of an argument's column may be known by. */
function wordsFor({ name }: Param): string[] {
  const one = name.replace(/s$/, "");
  const known = OWN_COLUMNS[LIKE[one] ?? LIKE[name] ?? one]?.words ?? [];
  return [one, ...known, ...(MORE[one] ?? [])];
}

/** True where most of the first lines can be what the argument is. */
function holdsKind({ kind, optional }: Param, { values }: FoundColumn): boolean {
  const filled = values.filter((value) => !isBlank(value)).slice(0, FIRST_LINES);
  const fits = filled.filter((value) => isOfKind(kind, value, optional));
  return filled.length > 0 && fits.length * 2 > filled.length;
}

function isOfKind(kind: Param["kind"], value: CellValue, optional: boolean): boolean {
  if (kind === "unit") return typeof value === "string" && UNIT_WORDS.has(unitWord(value));
  if (kind === "choice" || kind === "label" || kind === "yesno") return typeof value === "string";
  if (kind === "pack") return /\d/.test(textOf(value));
  if (kind === "money" && typeof value === "string") return moneyIn(value) !== null;
  // What is needed is proposed with 5 for 5 %, too: its lines then say what to type.
  const most = optional ? 1 : 100;
  if (kind === "share") return typeof value === "number" && value >= 0 && value <= most;
  return typeof value === "number";
}
