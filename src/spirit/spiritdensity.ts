import { choice, share } from "../errors.ts";
import {
  USUAL_CELSIUS,
  densityOfMixture,
  refuseFrozen,
  temperature,
  weightShare,
} from "./mixture.ts";

export type StrengthBy = "volume" | "weight";

/**
 * Density of a mixture of ethanol and water.
 *
 * @remarks General formula of OIML R 22. A strength by volume is the one at 20 degrees Celsius,
 * whatever the temperature of the density. Only ethanol and water: glycols, isopropanol and
 * fragrance oil are not in the formula, and a denatured or perfumed base is denser or lighter than
 * this.
 * @customfunction SPIRITDENSITY
 * @topic spirit
 * @need What is the density of my alcohol at this strength and temperature?
 * @words weight of alcohol, ethanol, vodka, proof
 * @param strength (share) Ethanol in the mixture, 0 % to 100 %.
 * @param [by] (choice) "volume" (default) at 20 degrees Celsius, or "weight": how the strength is
 * told.
 * @param [celsius] (celsius) Temperature of the mixture, -20 to 40 (default 20); a mixture that has
 * begun to freeze is refused.
 * @returns (density) g/mL.
 * @throws value - strength is typed as 70 instead of 70 %
 * @throws value - celsius is out of range, or the mixture has begun to freeze there
 * @working [by is volume] byweight (share): {strength} by volume at 20 °C, told by weight, =
 * weightshare(strength, 20)
 * @working [by is weight] byweight (share): the strength by weight, as it was told, = strength
 * @working mixture ("kg/m3"): what a cubic metre of it weighs at {celsius} = oiml(byweight,
 * celsius)
 * @working density (density): the same in grams for a millilitre = mixture / 1000
 * @source OIML R 22 (1975), general formula, 54 coefficients; freezing points from Engineering
 * ToolBox, to about one degree.
 * @example SPIRITDENSITY(40%) // => about 0.948045
 * @example SPIRITDENSITY(90%, "weight", 10) // => about 0.82649
 */
export function spiritDensity(strength: number, by: StrengthBy = "volume", celsius = 20): number {
  const given = share("strength", strength);
  const measure = choice("by", by, ["volume", "weight"] as const);
  const byWeight = measure === "weight" ? given : weightShare(given, USUAL_CELSIUS);
  refuseFrozen("celsius", byWeight, temperature("celsius", celsius));
  return densityOfMixture(byWeight, celsius) / 1000;
}
