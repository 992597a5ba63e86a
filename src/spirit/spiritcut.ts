import { CalcError, positive, positiveShare, showShare } from "../errors.ts";
import { volumeUnit } from "../units.ts";
import { densityOfMixture, refuseFrozen, temperature, weightShare } from "./mixture.ts";

/**
 * Water to add to bring alcohol down to a strength, and the volume that results.
 *
 * @remarks Ethanol is conserved by weight; the mixture shrinks, so the two volumes do not add up to
 * the result. Add the water slowly, let it cool, and check with a hydrometer. Only ethanol and
 * water: an estimate where the alcohol is denatured, and no use where it holds glycol or fragrance
 * oil.
 * @customfunction SPIRITCUT
 * @topic spirit
 * @need How much water brings my alcohol down to a strength?
 * @words dilute, water down, thin, proof, vodka, grain alcohol, ethanol, add water
 * @param volume (volume) Alcohol before cutting, above zero, at the temperature given.
 * @param unit (unit) Unit of the volume.
 * @param abv (share) Its ethanol by volume, above 0 % and up to 100 %.
 * @param targetabv (share) Ethanol by volume wanted, above 0 % and not over abv.
 * @param [celsius] (celsius) Temperature of all volumes and strengths, -20 to 40 (default 20;
 * United States gauging tables use 15.56).
 * @returns (volume) Two cells: water to add and the volume that results, both in the unit given.
 * @throws value - targetabv is over abv: water cannot make it stronger
 * @throws value - unit is a weight
 * @working strong (share): {abv} by volume, told by weight, = weightshare(abv, celsius)
 * @working weak (share): {targetabv} by volume, told by weight, = weightshare(targetabv, celsius)
 * @working before ("kg/m3"): what a cubic metre weighs before = oiml(strong, celsius)
 * @working cut ("kg/m3"): what a cubic metre weighs after = oiml(weak, celsius)
 * @working water ("kg/m3"): what a cubic metre of water weighs = oiml(0, celsius)
 * @working after (volume): the volume that results, as the ethanol stays the same, = volume * abv /
 * targetabv
 * @working add (volume): water to add, by the weight that is lacking, = (after * cut - volume *
 * before) / water
 * @working answer (water to add: volume; volume that results: volume): both = [add, after]
 * @source OIML R 22 (1975), general formula; ethanol conserved by weight.
 * @example SPIRITCUT(1000, "mL", 95%, 70%) // => {about 391.16, about 1357.14}
 * @example SPIRITCUT(100, "gal", 56%, 50%, 15.56) // => {about 12.4, 112}
 */
export function spiritCut(
  volume: number,
  unit: string,
  abv: number,
  targetabv: number,
  celsius = 20,
): number[][] {
  const before = positive("volume", volume);
  volumeUnit("unit", unit);
  const [from, to] = [positiveShare("abv", abv), positiveShare("targetabv", targetabv)];
  if (to > from) {
    throw new CalcError(`targetabv must be at most ${showShare(from)}, got ${showShare(to)}`);
  }
  const warmth = temperature("celsius", celsius);
  const [strong, weak] = [weightShare(from, warmth), weightShare(to, warmth)];
  refuseFrozen("celsius", weak, celsius);
  refuseFrozen("celsius", 0, celsius);
  // The ethanol stays, so its volume over the strength is the new volume.
  const after = (before * from) / to;
  const weight = (byWeight: number, amount: number) => amount * densityOfMixture(byWeight, celsius);
  const water = weight(weak, after) - weight(strong, before);
  return [[from === to ? 0 : water / densityOfMixture(0, celsius), after]];
}
