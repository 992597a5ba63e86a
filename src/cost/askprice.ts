import { CalcError, amount, positive, share, showShare } from "../errors.ts";

/**
 * Price that leaves a margin after fees.
 *
 * @remarks Margin is on the price: of a price of 20 with a margin of 50 %, 10 are kept. It is not
 * markup on cost: a markup of 50 % on cost is a margin of 33.3 % on price, and margin = markup / (1 +
 * markup). Fees are the part of the price that a marketplace or card takes, and a fixed sum for
 * each sale. Price = (cost + feefixed) / (1 - margin - feerate).
 * @customfunction ASKPRICE
 * @topic cost
 * @need What do I ask for a bottle to keep a margin?
 * @words charge, price, sell, selling price, markup, profit, margin, fees, marketplace,
 * retail, wholesale, charge enough, price too low
 * @param cost (money) Cost of one bottle, above zero.
 * @param margin (share) Part of the price that is kept, 0 % and below 100 %.
 * @param [feerate] (share) Part of the price that goes in fees, 0 % to 100 % (default 0 %).
 * @param [feefixed] (money) Fee for each sale, zero or more (default 0).
 * @returns (money) Price, not rounded.
 * @throws value - margin and feerate together leave nothing for the cost
 * @throws value - margin is typed as 40 instead of 40 %
 * @needs [or blank] cost > 0
 * @needs feefixed >= 0
 * @needs margin >= 0 and margin <= 1
 * @needs feerate >= 0 and feerate <= 1
 * @needs margin + feerate < 1 - 1e-9
 * @working left (share): what of the price is left for the cost, after the margin of {margin} and
 * fees of {feerate}, = 1 - margin - feerate
 * @working price (money): the price of which {left} pays the cost of {cost} and the fixed fee of
 * {feefixed} = (cost + feefixed) / left
 * @source By hand, from the definition of margin on price.
 * @example ASKPRICE(10, 50%) // => 20
 * @example ASKPRICE(10, 50%, 10%, 0.4) // => 26
 */
export function askPrice(cost: number, margin: number, feerate = 0, feefixed = 0): number {
  const spent = positive("cost", cost) + amount("feefixed", feefixed);
  const taken = share("margin", margin) + share("feerate", feerate);
  // A rounding error short of the whole is the whole: no price is a million times its cost.
  if (taken < 1 - 1e-9) return spent / (1 - taken);
  throw new CalcError(`margin and feerate together must be below 100 %, got ${showShare(taken)}`);
}
