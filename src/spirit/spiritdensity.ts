import { choice, share } from "../errors.ts";
import {
  USUAL_CELSIUS,
  densityOfMixture,
  refuseFrozen,
  temperature,
  weightShare,
} from "./mixture.ts";

export type Measure = "volume" | "weight";

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
 * @working [by is volume] byweight: the strength by weight, from the volumes at 20 C =
 * weightshare(strength, 20)
 * @working [by is weight] byweight: the strength by weight = strength
 * @working density: OIML R 22 formula, kg/m3 over 1000 = oiml(byweight, celsius) / 1000
 * @source OIML R 22 (1975), general formula, 54 coefficients; freezing points from Engineering
 * ToolBox, to about one degree.
 * @example SPIRITDENSITY(40%) // => about 0.948045
 * @example SPIRITDENSITY(90%, "weight", 10) // => about 0.82649
 */
export function spiritDensity(strength: number, by: Measure = "volume", celsius = 20): number {
  const given = share("strength", strength);
  const measure = choice("by", by, ["volume", "weight"] as const);
  const byWeight = measure === "weight" ? given : weightShare(given, USUAL_CELSIUS);
  refuseFrozen("celsius", byWeight, temperature("celsius", celsius));
  return densityOfMixture(byWeight, celsius) / 1000;
}
