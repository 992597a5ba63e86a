import { share } from "../errors.ts";
import { refuseFrozen, temperature, weightShare } from "./mixture.ts";

/**
 * Strength by weight of a strength by volume.
 *
 * @remarks Labels and suppliers tell alcohol by volume; weighing, safety data sheets and VOC rules
 * ask for it by weight. 95 % by volume is 92.4 % by weight.
 * @customfunction SPIRITBYWEIGHT
 * @topic spirit
 * @need My alcohol is 95 % by volume: what is that by weight?
 * @words abv, proof, alcohol percent, vodka, ethanol
 * @param abv (share) Ethanol by volume, 0 % to 100 %.
 * @param [celsius] (celsius) Temperature at which the strength by volume is told, -20 to 40
 * (default 20; United States gauging tables use 15.56).
 * @returns (share) Ethanol by weight.
 * @throws value - abv is typed as 95 instead of 95 %
 * @throws value - celsius is out of range, or the mixture has begun to freeze there
 * @working byweight (share): the ethanol's part of the weight, where it is {abv} of the volume at
 * {celsius}, = weightshare(abv, celsius)
 * @source OIML R 22 (1975), general formula, inverted to the last digit.
 * @example SPIRITBYWEIGHT(95%) // => about 92.40761%
 * @example SPIRITBYWEIGHT(30%, 15.56) // => about 24.67%
 */
export function spiritByWeight(abv: number, celsius = 20): number {
  const byWeight = weightShare(share("abv", abv), temperature("celsius", celsius));
  refuseFrozen("celsius", byWeight, celsius);
  return byWeight;
}
