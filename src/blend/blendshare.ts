import { CalcError, number, show } from "../errors.ts";

/**
 * Share of the first of two lots that gives a target value.
 *
 * @remarks Share of a = (target - value of b) / (value of a - value of b) (alligation alternate).
 * The target lies between the two values.
 * @customfunction BLENDSHARE
 * @topic blend
 * @need What part of each of two strengths gives the one I want?
 * @words mix two bases, ratio, parts, half and half, combine, proportion
 * @param valuea (number) Value of the first lot: strength, price or the like.
 * @param valueb (number) Value of the second lot, in the same unit.
 * @param target (number) Value wanted, between the two, in the same unit.
 * @returns (share) Share of the first lot, 0 % to 100 %.
 * @throws value - the target does not lie between the two values, or they are equal
 * @needs valuea != valueb
 * @needs target >= min(valuea, valueb) and target <= max(valuea, valueb)
 * @working share (share): the first lot's part, the step from {valueb} to {target} divided by that
 * to {valuea}, = (target - valueb) / (valuea - valueb)
 * @source Alligation alternate; example from a published pharmacy exercise (70 % and 0 % to 25 %).
 * @example BLENDSHARE(100%, 50%, 70%) // => 40%
 * @example BLENDSHARE(70%, 0%, 25%) // => about 35.7143%
 */
export function blendShare(valuea: number, valueb: number, target: number): number {
  const a = number("valuea", valuea);
  const b = number("valueb", valueb);
  const t = number("target", target);
  if (a === b) {
    throw new CalcError(`valuea and valueb must differ, got ${show(a)} twice`);
  }
  if (t < Math.min(a, b) || t > Math.max(a, b)) {
    const [low, high] = [a, b].sort((x, y) => x - y).map(show);
    throw new CalcError(`target must be from ${low} to ${high}, got ${show(t)}`);
  }
  return (t - b) / (a - b);
}
