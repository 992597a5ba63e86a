import { CalcError, share } from "../errors";
import { compositionOf, intervalsOf, lowHigh, mostOf } from "./intervals";

/**
 * VOC of a product by weight.
 *
 * @remarks Sum of share x VOC part, less the fragrance that the rule exempts: the smaller of the fragrance in the product and the exemption. All by weight; alcohol by volume is another number. Which substances count, and which are of low vapour pressure (LVP) and do not, the rule of your place says. Where a component is a range, give low and high in two columns: the answer is the least and the most that any composition within the ranges can have.
 * @customfunction VOCSHARE
 * @topic limits
 * @need How much VOC is in my spray, by weight?
 * @param shares (share) One column, or two for low and high: each ingredient's share of the product by weight, together 100 %.
 * @param vocshares (share) One column, or two for low and high: the part of each ingredient that counts as VOC, by weight.
 * @param [fragrance] (share) Fragrance in the product that is counted in vocshares, 0 % to 100 % (default 0 %).
 * @param [exempt] (share) Most fragrance that the rule exempts, as a share of the product, 0 % to 100 % (default 0 %).
 * @returns (share) VOC by weight; two cells, low and high, where ranges were given.
 * @throws value - shares cannot sum to 100 %: the text gives their sums
 * @throws value - vocshares has not as many lines as shares
 * @needs shares >= 0 and shares <= 1
 * @needs abs(sum(shares) - 1) <= 0.001 * (1 + 1e-9)
 * @needs vocshares >= 0 and vocshares <= 1
 * @needs samelength(shares, vocshares)
 * @needs fragrance >= 0 and fragrance <= 1
 * @needs exempt >= 0 and exempt <= 1
 * @working waived: fragrance that is not counted = min(fragrance, exempt)
 * @working least: least that a composition can have = leastof(shares, vocshares)
 * @working most: most that a composition can have = mostof(shares, vocshares)
 * @working [isrange(shares, vocshares)] voc: least and most, less what is not counted = [max(0, least - waived), max(0, most - waived)]
 * @working [not isrange(shares, vocshares)] voc: less what is not counted = max(0, most - waived)
 * @source By hand from the definition in 40 CFR 59 subpart C and 17 CCR 94508 to 94510; bounds are those of the linear programme.
 * @example VOCSHARE({0.2; 0.03; 0.05; 0.72}, {1; 1; 0; 0}, 3%, 2%) // => 21%
 * @example VOCSHARE({0.6, 0.8; 0.2, 0.4}, {1; 0}) // => {60%, 80%}
 */
export function vocShare(
  shares: number[][],
  vocshares: number[][],
  fragrance = 0,
  exempt = 0,
): number[][] {
  const parts = compositionOf("shares", shares);
  const voc = intervalsOf("vocshares", vocshares);
  if (voc.lows.length !== parts.lows.length) {
    const counts = `${voc.lows.length} and ${parts.lows.length}`;
    throw new CalcError(`vocshares must have as many lines as shares, got ${counts}`);
  }
  const waived = Math.min(share("fragrance", fragrance), share("exempt", exempt));
  const most = mostOf(parts, voc.highs);
  const least = -mostOf(
    parts,
    voc.lows.map((part) => -part),
  );
  const counted = (part: number) => Math.max(0, part - waived);
  return lowHigh(parts.isRange || voc.isRange, counted(least), counted(most));
}
