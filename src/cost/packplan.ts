import { CalcError, amount, laidOutAs, list, positive, sameLength } from "../errors";
import { cheapest } from "./cheapest";
import { unitsFor, wholeNumbers } from "./whole-numbers";

/**
 * How many of each pack to buy for a need: the least cost, exact.
 *
 * @remarks Every pack may be bought many times. The order pays its freight once, unless its goods reach freeover. Of plans that cost the same, the one with the least left over, then the one with the fewest packs. Lines with neither size nor price are not on offer. Numbers count to 12 digits. The least cost is proven; where a free-freight order can be made up in more than 200,000 ways, the least left over is the best of those looked at.
 * @customfunction PACKPLAN
 * @topic cost
 * @need Which packs do I buy for what I need?
 * @param need (amount) Amount needed, zero or more.
 * @param sizes (amount) One row or column: what each pack holds, in the unit of need.
 * @param prices (money) One row or column as long as sizes: price of each pack.
 * @param [freight] (money) Freight of the order, zero or more (default 0).
 * @param [freeover] (money) Goods from this sum on travel free (default 0: freight is always charged).
 * @returns (count) Packs of each size, laid out as sizes are.
 * @throws value - a pack has a size and no price, or a price and no size: a blank price is never a free one
 * @throws value - nothing is on offer, and something is needed
 * @throws value - sizes and prices have so many digits that a second is not enough to plan exactly
 * @working plan: found by search among all plans, and proven the least = cheapestplan(need, sizes, prices, freight, freeover)
 * @working holds: what it holds = sum(plan .* sizes)
 * @working goods: what its goods cost = sum(plan .* prices)
 * @working bought: packs of each size = plan
 * @source By hand: unbounded covering knapsack with one fixed charge; example in the manner of Burkardt's change_making note, where taking the largest first fails.
 * @example PACKPLAN(50, {20; 25; 40}, {20; 25; 40}) // => {0; 2; 0}
 * @example PACKPLAN(7, {1, 4}, {2, 7}) // => {3, 1}
 * @example PACKPLAN(3, {1; 5}, {10; 40}, 15, 40) // => {4; 0}
 */
export function packPlan(
  need: number,
  sizes: number[][],
  prices: number[][],
  freight = 0,
  freeover = 0,
): number[][] {
  const holds = list("sizes", sizes, amount);
  const costs = list("prices", prices, (name, cost, i) =>
    holds[i] ? positive(name, cost) : amount(name, cost),
  );
  sameLength("sizes", holds, "prices", costs);
  list("sizes", sizes, (name, size, i) => (costs[i] ? positive(name, size) : size));
  const offered = holds.flatMap((size, i) => (size > 0 ? [i] : []));
  const wanted = amount("need", need);
  if (wanted > 0 && offered.length === 0) throw new CalcError("sizes and prices must hold a pack");
  const size = wholeNumbers(offered.map((i) => holds[i]));
  const charges = [amount("freight", freight), amount("freeover", freeover)];
  const money = wholeNumbers([...charges, ...offered.map((i) => costs[i])]);
  const packs = offered.map((_, i) => ({ size: size.values[i], price: money.values[i + 2] }));
  const [paid, free] = money.values;
  const counts = cheapest({
    need: unitsFor(wanted, size.unit),
    packs,
    freight: paid,
    freeover: free,
  });
  const plan = holds.map((_, i) => counts[offered.indexOf(i)] ?? 0);
  return laidOutAs(sizes, plan);
}
