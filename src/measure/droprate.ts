import { density as checkDensity, positive } from "../errors.ts";
import { toGrams, weightUnit } from "../units.ts";

/**
 * Drops per mL of this liquid from this dropper.
 *
 * @remarks Count 50 or more drops onto a scale: rate = drops x density / weight. Thin alcohol bases
 * give more and smaller drops than water or heavy oils.
 * @customfunction DROPRATE
 * @topic measure
 * @need How many drops of this oil make a millilitre?
 * @words dropper, pipette, count drops
 * @param drops (drops) Drops counted, above zero.
 * @param weight (weight) What they weigh together, above zero.
 * @param unit (unit) Unit of the weight.
 * @param density (density) g/mL of this liquid; DENSITYOF finds it.
 * @returns (rate) Drops per mL.
 * @throws value - drops, weight or density is blank or zero
 * @needs [or blank] drops > 0
 * @needs isunit(unit) and isweight(unit)
 * @needs [or blank] weight > 0
 * @needs [or blank] density > 0
 * @needs density <= 3
 * @working grams (g): {weight} in grams = weight * per(unit)
 * @working rate (rate): how many drops make a millilitre, by {drops} that weigh {grams}, = drops *
 * density / grams
 * @source By hand: volume = weight / density; the counting is that of dropper calibration in
 * pharmacy practice.
 * @example DROPRATE(35, 2, "g", 1) // => 17.5
 * @example DROPRATE(60, 1.5, "g", 0.85) // => 34
 */
export function dropRate(drops: number, weight: number, unit: string, density: number): number {
  const counted = positive("drops", drops);
  const grams = toGrams("weight", positive("weight", weight), weightUnit("unit", unit));
  return (counted * checkDensity("density", density)) / grams;
}
