import { amount, positive, share } from "../errors.ts";
import {
  askedWhere,
  at,
  laidOutAs,
  list,
  orZero,
  products,
  sameLength,
  sum,
  usedIn,
} from "../lists.ts";
import { travelsFree } from "./money.ts";

/**
 * Landed price of each line of an order: its goods, its tax, and its part of the freight.
 *
 * @remarks Goods of a line = price x count; tax is charged on the goods. Freight is shared by the
 * value of the goods, or by weight where weights are given (weight of one pack x count). At or
 * above freeover, goods before tax, the freight is nothing; sums are compared to a millionth of the
 * currency's unit, so a rounding error never decides. A line whose count is blank is not ordered.
 * The lines sum to what the order costs. Where your place taxes freight too, add that tax to the
 * freight.
 * @customfunction LANDED
 * @topic cost
 * @need What does each line of an order cost with its part of the freight?
 * @words shipping, delivery, postage, freight, split over items, free shipping, tax, invoice, true
 * cost
 * @param prices (money) One row or column: price of one pack of each line.
 * @param counts (count) One row or column as long as prices: packs ordered, zero or more; a blank
 * is none.
 * @param freight (money) Freight of the whole order, zero or more; a blank is refused, as unknown.
 * @param [freeover] (money) Goods from this sum on travel free (default 0, and so is a zero:
 * freight is always charged).
 * @param [tax] (share) Tax on the goods, 0 % to 100 % (default 0 %).
 * @param [weights] (weight) One row or column as long as prices: weight of one pack; freight is
 * then shared by weight (no default: by value).
 * @returns (money) Landed price of each line, laid out as prices are.
 * @throws value - a line that is ordered has no price, or no weight where weights are given
 * @throws value - the ranges are of unlike length
 * @needs counts >= 0
 * @needs prices > 0 or (counts == 0 and prices >= 0)
 * @needs samelength(prices, counts)
 * @needs [weights given] weights > 0 or (counts == 0 and weights >= 0)
 * @needs [weights given] samelength(prices, weights)
 * @needs freight >= 0
 * @needs freeover >= 0
 * @needs tax >= 0 and tax <= 1
 * @working goods (money): what the goods of each line cost, price times packs = prices .* counts
 * @working free (yesno): the freight is free = sum(goods) == 0 or (freeover > 0 and
 * round(sum(goods), 6) >= round(freeover, 6))
 * @working [free] paid (money): the freight to pay = 0
 * @working [not free] paid (money): the freight to pay = freight
 * @working [weights given] keys (weights): what the freight is shared by, the weight of each line =
 * weights .* counts
 * @working [weights not given] keys (money): what the freight is shared by, the cost of each line's
 * goods = goods
 * @working freights (money): each line's part of the {paid} of freight = over(paid * keys,
 * sum(keys))
 * @working lines (money): each line with {tax} of tax on its goods, and its part of the freight =
 * goods * (1 + tax) + freights
 * @source By hand: freight apportioned by value or by weight, as cost accounting does.
 * @example LANDED({10; 20}, {2; 1}, 10) // => {25; 25}
 * @example LANDED({10; 20}, {2; 1}, 10, 40) // => {20; 20}
 * @example LANDED({2.6; 13.2}, {4; 3}, 12, 50) // => {10.4; 39.6}
 * @example LANDED({10; 20}, {2; 1}, 9, 0, 0%, {1; 4}) // => {23; 26}
 */
export function landed(
  prices: number[][],
  counts: number[][],
  freight: number,
  freeover = 0,
  tax = 0,
  weights?: number[][],
): number[][] {
  const ordered = list("counts", counts, orZero(amount));
  const needed = askedWhere(usedIn(ordered), positive, amount);
  const each = list("prices", prices, needed);
  sameLength("prices", each, "counts", ordered);
  const goods = products(each, ordered);
  const heavy = weights && list("weights", weights, needed);
  if (heavy) sameLength("prices", each, "weights", heavy);
  const keys = heavy ? products(heavy, ordered) : goods;
  const paid = freightFor(sum(goods), amount("freight", freight), amount("freeover", freeover));
  const rate = share("tax", tax);
  const whole = sum(keys);
  const lines = goods.map(
    (good, i) => good * (1 + rate) + (whole ? (paid * at(keys, i)) / whole : 0),
  );
  return laidOutAs(prices, lines);
}

/** What an order of goods pays for its journey. */
function freightFor(goods: number, freight: number, freeover: number): number {
  if (goods === 0) return 0;
  return travelsFree(goods, freeover) ? 0 : freight;
}
