/** The units that a pack may be sold in, for drop-downs: the closed list of src/units.ts, in any spelling of it. */
import {
  UNIT_WORDS,
  VOLUME_UNITS,
  WEIGHT_UNITS,
  toGrams,
  unitWord,
  weightUnit,
} from "../../src/units.ts";

export const PACK_UNITS: string[] = [...WEIGHT_UNITS, ...VOLUME_UNITS];

/** What is counted has no unit: bottles, labels. */
export const PIECE = "piece";

/** True for the words of a drop-down that are units. Excel may then not refuse others: formulas read every spelling. */
export function areUnits(words: readonly string[]): boolean {
  return words.every((word) => word === PIECE || UNIT_WORDS.has(unitWord(word)));
}

/** The word of a drop-down of units that is meant: lb for "pounds", piece for "Pieces"; undefined for none of them. */
export function listedUnit(typed: string, words: readonly string[]): string | undefined {
  const word = unitWord(typed);
  const name = UNIT_WORDS.get(word)?.name ?? word.replace(/s$/, "");
  return words.find((each) => each === name);
}

/** An amount of a unit of weight in grams. */
export const gramsOf = (amount: number, unit: string): number =>
  toGrams("amount", amount, weightUnit("unit", unit));
