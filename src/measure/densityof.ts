import { positive } from "../errors.ts";
import { toGrams, toMillilitres, volumeUnit, weightUnit } from "../units.ts";

/**
 * Density found by weighing a known volume.
 *
 * @remarks Density = weight / volume. Weigh the empty vessel first, fill it to a mark, and use the
 * difference. Warm liquid is lighter: note the temperature.
 * @customfunction DENSITYOF
 * @topic measure
 * @need What is the density of my base or oil?
 * @words specific gravity, weigh a cup, heavier or lighter than water
 * @param weight (weight) Weight of the liquid, above zero.
 * @param weightunit (unit) Unit of the weight.
 * @param volume (volume) Volume of the same liquid, above zero.
 * @param volumeunit (unit) Unit of the volume.
 * @returns (density) g/mL.
 * @throws value - weight or volume is blank or zero
 * @throws value - the units stand the wrong way round
 * @needs [or blank] weight > 0
 * @needs isunit(weightunit) and isweight(weightunit)
 * @needs isunit(volumeunit) and not isweight(volumeunit)
 * @needs [or blank] volume > 0
 * @working grams (g): {weight} in grams = weight * per(weightunit)
 * @working millilitres (mL): {volume} in millilitres = volume * per(volumeunit)
 * @working density (density): what one millilitre weighs, {grams} divided by {millilitres}, = grams
 * / millilitres
 * @source Definition of density; example from US Army MD0802, Pharmaceutical Calculations, par.
 * 2-2.
 * @example DENSITYOF(8.5, "g", 10, "mL") // => 0.85
 * @example DENSITYOF(7.1, "lb", 1, "gal") // => about 0.85077
 */
export function densityOf(
  weight: number,
  weightunit: string,
  volume: number,
  volumeunit: string,
): number {
  const grams = toGrams("weight", positive("weight", weight), weightUnit("weightunit", weightunit));
  const unit = volumeUnit("volumeunit", volumeunit);
  return grams / toMillilitres("volume", positive("volume", volume), unit);
}
