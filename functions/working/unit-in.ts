/** The unit that a cell tells by itself: in brackets in a label, or by how its number is shown. */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import type { Kind } from "../catalog/kinds.ts";
import { unitShown } from "./measures.ts";

const IN_A_UNIT: ReadonlySet<Kind> = new Set(["amount", "weight", "volume", "number"]);

/** "Batch (g)" tells g, a number shown as $0.00 tells $, and one shown as 0.0% tells %. */
export function unitIn(kind: Kind, labels: readonly string[], format: string): string | undefined {
  const words = labels.map((label) => /\(([^()]+)\)\s*$/.exec(label)?.[1] ?? "");
  // A format names the place after its currency: [$€-407].
  if (kind === "money") return /[$€£¥₹]/.exec([...words, format.replace("[$", "[")].join(" "))?.[0];
  if (kind === "number" && (words.includes("%") || format.includes("%"))) return "%";
  if (!IN_A_UNIT.has(kind)) return undefined;
  return unitShown(words.find((word) => UNIT_WORDS.has(unitWord(word))));
}
