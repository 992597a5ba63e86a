import { amount } from "../errors.ts";
import { blendShare } from "./blendshare.ts";

/**
 * Amounts of two lots that make a total at a target value.
 *
 * @remarks The total split by the share that BLENDSHARE gives; the two amounts sum to the total.
 * Exact by weight. By volume it takes volumes as additive, which alcohol and water are not.
 * @customfunction BLENDSPLIT
 * @topic blend
 * @need How much of each of two strengths do I mix?
 * @words mix two bases, combine, dilute with another, ratio, how much of each
 * @param total (amount) Amount wanted in all, zero or more.
 * @param valuea (number) Value of the first lot: strength, price or the like.
 * @param valueb (number) Value of the second lot, in the same unit.
 * @param target (number) Value wanted, between the two, in the same unit.
 * @returns (amount) Two cells: amount of the first lot and of the second, in the unit of total.
 * @throws value - the target does not lie between the two values, or they are equal
 * @needs total >= 0
 * @needs valuea != valueb
 * @needs target >= min(valuea, valueb) and target <= max(valuea, valueb)
 * @working share (share): the first lot's part, the step from {valueb} to {target} divided by that
 * to {valuea}, = (target - valueb) / (valuea - valueb)
 * @working split (first lot: total; second lot: total): that part of {total}, and the rest = [total
 * * share, total - total * share]
 * @source Alligation alternate; example from a published pharmacy exercise (50 % and 100 % to 20 mL
 * of 70 %).
 * @example BLENDSPLIT(20, 50%, 100%, 70%) // => {12, 8}
 */
export function blendSplit(
  total: number,
  valuea: number,
  valueb: number,
  target: number,
): number[][] {
  const first = amount("total", total) * blendShare(valuea, valueb, target);
  return [[first, total - first]];
}
