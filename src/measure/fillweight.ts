import { density as checkDensity, positive, share } from "../errors.ts";
import { toMillilitres, volumeUnit } from "../units.ts";

/**
 * Grams to weigh into one bottle.
 *
 * @remarks Grams = volume in mL x density x (1 + overfill). Filling by weight keeps every bottle
 * alike; the density is that of the finished spray, at the temperature of filling.
 * @customfunction FILLWEIGHT
 * @topic measure
 * @need How many grams go into one bottle?
 * @words fill by weight, what fits in a jar, fill level, overfill, headspace, pour into bottle,
 * how heavy, weight of a full bottle
 * @param volume (volume) Volume that the label states, above zero.
 * @param unit (unit) Unit of the volume.
 * @param density (density) g/mL of the finished spray; DENSITYOF finds it.
 * @param [overfill] (share) Poured over the stated volume, 0 % to 100 % (default 0 %).
 * @returns (weight) Grams.
 * @throws value - volume or density is blank or zero
 * @throws value - unit is a weight
 * @needs [or blank] volume > 0
 * @needs isunit(unit) and not isweight(unit)
 * @needs [or blank] density > 0
 * @needs density <= 3
 * @needs overfill >= 0 and overfill <= 1
 * @working millilitres (mL): the stated {volume} in millilitres = volume * per(unit)
 * @working grams (g): what to weigh in, {millilitres} at {density} and {overfill} more, =
 * millilitres * density * (1 + overfill)
 * @source By hand: weight = volume x density.
 * @example FILLWEIGHT(100, "mL", 0.85) // => 85
 * @example FILLWEIGHT(4, "floz", 0.9, 2%) // => about 108.5940
 */
export function fillWeight(volume: number, unit: string, density: number, overfill = 0): number {
  const stated = toMillilitres("volume", positive("volume", volume), volumeUnit("unit", unit));
  return stated * checkDensity("density", density) * (1 + share("overfill", overfill));
}
