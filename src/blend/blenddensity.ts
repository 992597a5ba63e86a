import { BlankError, amount, density, isBlankNumber } from "../errors.ts";
import { askedWhere, at, flat, list, sameLength, sum, usedIn } from "../lists.ts";

/**
 * Density of a mixture, its volumes taken as additive.
 *
 * @remarks Total weight over the sum of weight / density. An estimate: real volumes shrink or swell
 * a little, alcohol with water by more than 3 %. Where it matters, weigh a known volume and use
 * DENSITYOF. A line of no weight may leave its density blank; one with a density and no weight is
 * refused, as unknown.
 * @customfunction BLENDDENSITY
 * @topic blend
 * @need What is the density of base and oil together?
 * @words mix, combined, weight of a mixture
 * @param weights (weight) One row or column: weight of each part, zero or more, all in one unit.
 * @param densities (density) One row or column as long as weights: g/mL of each part.
 * @returns (density) Estimated g/mL.
 * @throws value - weights and densities are of unlike length
 * @throws value - a part has a weight and no density, or a density and no weight
 * @needs samelength(weights, densities)
 * @needs weights >= 0
 * @needs filled(weights) or not filled(densities)
 * @needs densities >= 0 and (weights == 0 or densities > 0)
 * @needs weights == 0 or densities <= 3
 * @needs [or blank] sum(weights) > 0
 * @working volumes (number): the volume of each part, its weight divided by its density =
 * over(weights, densities)
 * @working volume (number): the sum of these volumes, an estimate, = sum(volumes)
 * @working density (density): all the weight divided by all the volume = sum(weights) / volume
 * @source By hand: volumes are additive in an ideal mixture.
 * @example BLENDDENSITY({95; 5}, {0.85; 0.95}) // => about 0.854497
 */
export function blendDensity(weights: number[][], densities: number[][]): number {
  const given = flat(densities);
  sameLength("weights", flat(weights), "densities", given);
  const isPart = (i: number) => !isBlankNumber(at(given, i));
  const each = list("weights", weights, askedWhere(isPart, amount));
  const gml = list("densities", densities, askedWhere(usedIn(each), density, amount));
  const whole = sum(each);
  if (whole === 0) throw new BlankError("the sum of weights");
  return whole / sum(each.map((weight, i) => (weight ? weight / at(gml, i) : 0)));
}
