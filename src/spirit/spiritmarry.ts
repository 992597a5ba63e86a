import { BlankError, amount, share } from "../errors.ts";
import {
  densityOfMixture,
  refuseFrozen,
  temperature,
  volumeShare,
  weightShare,
} from "./mixture.ts";

/**
 * Volume and strength of two alcohols together.
 *
 * @remarks Ethanol and water are each conserved by weight, and the mixture shrinks: 50 mL of
 * alcohol and 50 mL of water are about 96.5 mL. A strength of 0 % is water. Only ethanol and water;
 * with glycols or fragrance oil in a base it is an estimate.
 * @customfunction SPIRITMARRY
 * @topic spirit
 * @need What do two alcohols of different strength make together?
 * @words mix two bases, mix alcohols, vodka, combine, abv
 * @param volumea (volume) Volume of the first, zero or more, in any unit of volume.
 * @param abva (share) Its ethanol by volume, 0 % to 100 %.
 * @param volumeb (volume) Volume of the second, in the same unit.
 * @param abvb (share) Its ethanol by volume, 0 % to 100 %.
 * @param [celsius] (celsius) Temperature of all volumes and strengths, -20 to 40 (default 20).
 * @returns (volume) Two cells: the volume together, in the unit given, and its ethanol by volume as
 * a share.
 * @throws value - both volumes are blank or zero
 * @throws value - a strength is typed as 95 instead of 95 %
 * @working first (share): the first one's strength, told by weight, = weightshare(abva, celsius)
 * @working second (share): the second one's strength, told by weight, = weightshare(abvb, celsius)
 * @working densitya ("kg/m3"): what a cubic metre of the first weighs = oiml(first, celsius)
 * @working densityb ("kg/m3"): what a cubic metre of the second weighs = oiml(second, celsius)
 * @working both (share): the strength of both together by weight = (first * volumea * densitya +
 * second * volumeb * densityb) / (volumea * densitya + volumeb * densityb)
 * @working densityboth ("kg/m3"): what a cubic metre of both together weighs = oiml(both, celsius)
 * @working pure ("kg/m3"): what a cubic metre of pure ethanol weighs = oiml(1, celsius)
 * @working volume (volumea): the volume of both, which shrinks a little, = (volumea * densitya +
 * volumeb * densityb) / densityboth
 * @working strength (share): its strength by volume = both * densityboth / pure
 * @working married (volume: volumea; strength: share): both = [volume, strength]
 * @source OIML R 22 (1975), general formula; ethanol and water conserved by weight.
 * @example SPIRITMARRY(40, 100%, 60, 0%) // => {about 96.70, about 41.4%}
 */
export function spiritMarry(
  volumea: number,
  abva: number,
  volumeb: number,
  abvb: number,
  celsius = 20,
): number[][] {
  const at = temperature("celsius", celsius);
  const a = lotOf(amount("volumea", volumea), weightShare(share("abva", abva), at), at);
  const b = lotOf(amount("volumeb", volumeb), weightShare(share("abvb", abvb), at), at);
  const weight = a.weight + b.weight;
  if (weight === 0) throw new BlankError("volumea and volumeb together");
  for (const lot of [a, b]) if (lot.volume > 0) refuseFrozen("celsius", lot.byWeight, at);
  const byWeight = (a.byWeight * a.weight + b.byWeight * b.weight) / weight;
  return [[weight / densityOfMixture(byWeight, at), volumeShare(byWeight, at)]];
}

function lotOf(volume: number, byWeight: number, celsius: number) {
  return { volume, byWeight, weight: volume * densityOfMixture(byWeight, celsius) };
}
