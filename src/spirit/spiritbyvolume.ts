import { share as checkShare } from "../errors.ts";
import { refuseFrozen, temperature, volumeShare } from "./mixture.ts";

/**
 * Strength by volume of a strength by weight.
 *
 * @remarks Share by volume = share by weight x density of the mixture / density of ethanol.
 * @customfunction SPIRITBYVOLUME
 * @topic spirit
 * @need The data sheet gives alcohol by weight: what is that by volume?
 * @words abv, proof, alcohol percent, alcohol content, vodka, ethanol
 * @param share (share) Ethanol by weight, 0 % to 100 %.
 * @param [celsius] (celsius) Temperature at which the strength by volume is told, -20 to 40
 * (default 20; United States gauging tables use 15.56).
 * @returns (share) Ethanol by volume.
 * @throws value - share is typed as 70 instead of 70 %
 * @throws value - celsius is out of range, or the mixture has begun to freeze there
 * @working mixture ("kg/m3"): what a cubic metre of the mixture weighs at {celsius} = oiml(share,
 * celsius)
 * @working ethanol ("kg/m3"): what a cubic metre of pure ethanol weighs at {celsius} = oiml(1,
 * celsius)
 * @working byvolume (share): the ethanol's part of the volume, {share} of the weight at these two
 * densities, = share * mixture / ethanol
 * @source OIML R 22 (1975), general formula.
 * @example SPIRITBYVOLUME(50%) // => about 57.8893%
 */
export function spiritByVolume(share: number, celsius = 20): number {
  refuseFrozen("celsius", checkShare("share", share), temperature("celsius", celsius));
  return volumeShare(share, celsius);
}
