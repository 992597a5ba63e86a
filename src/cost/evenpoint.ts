import { CalcError, amount, positive, share, show } from "../errors.ts";

/**
 * Bottles to sell before the fixed costs are earned back.
 *
 * @remarks Fixed / (price - cost - price x feerate), rounded up to whole bottles. Fixed costs are
 * those that do not change with the number of bottles: a stall, a test, a course, a share of the
 * rent. A fixed fee for each sale belongs into cost.
 * @customfunction EVENPOINT
 * @topic cost
 * @need How many bottles until I break even?
 * @words break even, profit, how many to sell, pay back, investment, worth it, market stall
 * @param fixed (money) Fixed costs to earn back, zero or more.
 * @param price (money) Price of one bottle, above zero.
 * @param cost (money) Cost of one bottle, zero or more.
 * @param [feerate] (share) Part of the price that goes in fees, 0 % to 100 % (default 0 %).
 * @returns (count) Bottles, rounded up.
 * @throws value - the price does not cover cost and fees, so no number of bottles is enough
 * @needs [or blank] price > 0
 * @needs cost >= 0
 * @needs feerate >= 0 and feerate <= 1
 * @needs price - (cost + price * feerate) > 1e-12 * price
 * @needs fixed >= 0
 * @working left (money): what one bottle leaves, {price} less its cost of {cost} and fees of
 * {feerate}, = price - cost - price * feerate
 * @working bottles ("bottles"): how many bottles at {left} earn {fixed} back, rounded up, =
 * ceil(fixed / left * (1 - 1e-12))
 * @source Break-even in units of managerial accounting; example from a textbook exercise (price 30,
 * variable 14.50, fixed 13268).
 * @example EVENPOINT(13268, 30, 14.5) // => 856
 * @example EVENPOINT(100, 20, 8, 10%) // => 10
 */
export function evenPoint(fixed: number, price: number, cost: number, feerate = 0): number {
  const asked = positive("price", price);
  const spent = amount("cost", cost) + asked * share("feerate", feerate);
  const left = asked - spent;
  if (left <= 1e-12 * asked) {
    throw new CalcError(`price must be above cost and fees, ${show(spent)}, got ${show(asked)}`);
  }
  const bottles = amount("fixed", fixed) / left;
  // A whole number that rounding has pushed up a hair is that number.
  return Math.ceil(bottles * (1 - 1e-12));
}
