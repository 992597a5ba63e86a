/** The unit that a cell tells by itself: in brackets in its label, or by how its number is shown. */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import type { Kind } from "../../functions/catalog/kinds.ts";
import { unitShown } from "../../functions/working/measures.ts";

const IN_A_UNIT: ReadonlySet<Kind> = new Set(["amount", "weight", "volume", "number"]);

/** "Batch (g)" tells g, a number shown as $0.00 tells $, and one shown as 0.0% tells %. */
export function unitIn(kind: Kind, label: string, format: string): string | undefined {
  const [, word = ""] = /\(([^()]+)\)\s*$/.exec(label) ?? [];
  if (kind === "money") return /[$€£¥₹]/.exec(`${word} ${format.replace(/\[\$-/g, "")}`)?.[0];
  if (kind === "number" && (word === "%" || format.includes("%"))) return "%";
  return IN_A_UNIT.has(kind) && UNIT_WORDS.has(unitWord(word)) ? unitShown(word) : undefined;
}
