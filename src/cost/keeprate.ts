import { amount, positive, share } from "../errors.ts";

/**
 * Margin on price that a price leaves, after fees.
 *
 * @remarks (Price - cost - fees) / price. Below zero, each bottle loses money. To read a markup on
 * cost: price = cost x (1 + markup), so a markup of 50 % on a cost of 10 is a price of 15 and keeps
 * 33.3 %.
 * @customfunction KEEPRATE
 * @topic cost
 * @need What part of the price do I keep?
 * @words profit, margin, earn, make on each sale, fees, take home
 * @param price (money) Price of one bottle, above zero.
 * @param cost (money) Cost of one bottle, zero or more.
 * @param [feerate] (share) Part of the price that goes in fees, 0 % to 100 % (default 0 %).
 * @param [feefixed] (money) Fee for each sale, zero or more (default 0).
 * @returns (share) Margin on price; below zero where the bottle loses.
 * @throws value - price is blank or zero
 * @throws value - feerate is typed as 5 instead of 5 %
 * @needs [or blank] price > 0
 * @needs feerate >= 0 and feerate <= 1
 * @needs feefixed >= 0
 * @needs cost >= 0
 * @working fees (money): what one sale costs in fees, {feerate} of {price} and {feefixed}, = price
 * * feerate + feefixed
 * @working kept (share): what is kept of the price of {price}, after the cost of {cost} and fees of
 * {fees}, = (price - cost - fees) / price
 * @source By hand, from the definition of margin on price.
 * @example KEEPRATE(20, 10) // => 50%
 * @example KEEPRATE(15, 10) // => about 33.3333%
 * @example KEEPRATE(26, 10, 10%, 0.4) // => 50%
 */
export function keepRate(price: number, cost: number, feerate = 0, feefixed = 0): number {
  const asked = positive("price", price);
  const fees = asked * share("feerate", feerate) + amount("feefixed", feefixed);
  return (asked - amount("cost", cost) - fees) / asked;
}
