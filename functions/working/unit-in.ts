/** The unit that a cell tells by itself: in brackets in a label, or by how its number is shown. */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { moneyIn } from "../../src/written-money.ts";
import { type Grid, gridOf } from "../bind/cell.ts";
import type { CatalogEntry } from "../catalog/entry.ts";
import type { Kind } from "../catalog/kinds.ts";
import { unitShown } from "./measures.ts";

/** Units that are told, by argument; of money, the currency that a text names before any other. */
export function withCurrencies(
  units: ReadonlyMap<string, string>,
  { params }: CatalogEntry,
  args: readonly unknown[],
): ReadonlyMap<string, string> {
  const named = params.flatMap(({ kind, name }, i): [string, string][] => {
    const mark = kind === "money" ? markIn(gridOf(args[i])) : undefined;
    return mark === undefined ? [] : [[name, mark]];
  });
  return new Map([...units, ...named]);
}

/** The sign or code of the first text that names a currency. */
export function markIn(cells: Grid): string | undefined {
  for (const row of cells) {
    for (const cell of row) {
      const mark = typeof cell === "string" ? moneyIn(cell)?.mark : undefined;
      if (mark !== undefined) return mark;
    }
  }
  return undefined;
}

const IN_A_UNIT: ReadonlySet<Kind> = new Set(["amount", "weight", "volume", "number"]);

/** "Batch (g)" tells g, a number shown as $0.00 tells $, and one shown as 0.0% tells %. */
export function unitIn(kind: Kind, labels: readonly string[], format: string): string | undefined {
  const words = labels.map((label) => inBrackets(label) ?? "");
  if (kind === "money") return currencyIn([...words, format].join(" "));
  if (kind === "number" && (words.includes("%") || format.includes("%"))) return "%";
  if (!IN_A_UNIT.has(kind)) return undefined;
  return unitShown(words.find((word) => UNIT_WORDS.has(unitWord(word))));
}

/** What a label ends with in brackets. */
export function inBrackets(label: string): string | undefined {
  return /\(([^()]+)\)\s*$/.exec(label)?.[1];
}

/** The sign of a currency in a label or a format, which names the place after it: [$€-407]. */
export function currencyIn(text: string): string | undefined {
  return /[$€£¥₹]/.exec(text.replace("[$", "["))?.[0];
}
