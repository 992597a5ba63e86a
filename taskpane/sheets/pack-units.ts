/** The units that a pack may be sold in, for drop-downs: the closed list of src/units.ts. */
import { VOLUME_UNITS, WEIGHT_UNITS, toGrams, weightUnit } from "../../src/units.ts";

export const PACK_UNITS: string[] = [...WEIGHT_UNITS, ...VOLUME_UNITS];

/** An amount of a unit of weight in grams. */
export const gramsOf = (amount: number, unit: string): number =>
  toGrams("amount", amount, weightUnit("unit", unit));
