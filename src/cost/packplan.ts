import { CalcError, amount, isBlankNumber, positive, show } from "../errors.ts";
import { at, flat, laidOutAs, list, sameLength } from "../lists.ts";
import { type Order, cheapest } from "./cheapest.ts";
import { leastFree } from "./money.ts";
import { unitsFor, wholeNumbers } from "./whole-numbers.ts";

/** Packs on offer for one need: more are a column too many, not a choice. */
const MOST_OFFERS = 1000;

/**
 * How many of each pack to buy for a need: the least cost, exact.
 *
 * @remarks Every pack may be bought many times. The order pays its freight once, unless its goods
 * reach freeover. Of plans that cost the same, the one with the least left over, then the one with
 * the fewest packs. Lines with neither size nor price, both blank or zero, are not on offer.
 * Numbers count to 12 digits, and sums of money to a millionth, as in LANDED. The least cost is
 * proven; where a free-freight order can be made up in more than 200,000 ways, the least left over
 * is the best of those looked at.
 * @customfunction PACKPLAN
 * @topic cost
 * @need Which packs do I buy for what I need?
 * @words what to buy, order, shopping, bulk, big or small packs, stock up, cheapest way
 * @param need (amount) Amount needed, zero or more.
 * @param sizes (amount) One row or column: what each pack holds, in the unit of need.
 * @param prices (money) One row or column as long as sizes: price of each pack.
 * @param [freight] (money) Freight of the order, zero or more (default 0).
 * @param [freeover] (money) Goods from this sum on travel free (default 0, and so is a zero:
 * freight is always charged).
 * @returns (count) Packs of each size, laid out as sizes are.
 * @throws value - a pack has a size and no price, or a price and no size: a blank price is never a
 * free one
 * @throws value - nothing is on offer, and something is needed; or more than 1000 packs are
 * @throws value - sizes and prices have so many digits that a second is not enough to plan
 * exactly
 * @working plan (count): the cheapest of all ways to buy {need}, packs of each size =
 * cheapestplan(need, sizes, prices, freight, freeover)
 * @working held (sizes): what these packs hold = plan .* sizes
 * @working holds (need): the sum of these = sum(held)
 * @working spent (money): what these packs cost, without freight = plan .* prices
 * @working goods (money): the sum of these = sum(spent)
 * @working bought (count): packs of each size = plan
 * @source By hand: unbounded covering knapsack with one fixed charge; example in the manner of
 * Burkardt's change_making note, where taking the largest first fails.
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
  const wanted = amount("need", need);
  const offers = offersOf(sizes, prices);
  if (wanted > 0 && offers.length === 0) throw new CalcError("sizes and prices must hold a pack");
  const charges = [amount("freight", freight), amount("freeover", freeover)] as const;
  const counts = wanted > 0 ? cheapest(orderOf(wanted, offers, charges)) : [];
  const plan = flat(sizes).map(() => 0);
  counts.forEach((count, i) => (plan[at(offers, i).line] = count));
  return laidOutAs(sizes, plan);
}

interface Offer {
  line: number;
  size: number;
  price: number;
}

/** The lines on offer; one that has a size has a price, and the other way round. */
function offersOf(sizes: number[][], prices: number[][]): Offer[] {
  const [allSizes, allPrices] = [flat(sizes), flat(prices)];
  const isFilled = (value: number) => !isBlankNumber(value) && value !== 0;
  const onOffer = (name: string, value: number, i: number) =>
    isFilled(at(allSizes, i)) || isFilled(at(allPrices, i)) ? positive(name, value) : 0;
  sameLength("sizes", allSizes, "prices", allPrices);
  const holds = list("sizes", sizes, onOffer);
  const costs = list("prices", prices, onOffer);
  const offers = holds.flatMap((size, line) =>
    size > 0 ? [{ line, size, price: at(costs, line) }] : [],
  );
  if (offers.length <= MOST_OFFERS) return offers;
  throw new CalcError(
    `sizes must hold at most ${MOST_OFFERS} packs on offer, got ${offers.length}`,
  );
}

/** The order in whole units of size and of money. */
function orderOf(
  wanted: number,
  offers: Offer[],
  [freight, freeover]: readonly [number, number],
): Order {
  const size = wholeNumbers(offers.map((offer) => offer.size));
  const money = wholeNumbers([freight, ...offers.map((offer) => offer.price)]);
  const [paid = 0, ...prices] = money.values;
  const need = unitsFor(wanted, size.unit);
  const packs = size.values.map((each, i) => ({ size: each, price: at(prices, i) }));
  const ofOnePack = packs.map((pack) => Math.ceil(need / pack.size) * pack.price);
  if (!Number.isSafeInteger(need) || !Number.isSafeInteger(Math.min(...ofOnePack) + paid)) {
    throw new CalcError(
      `need must be smaller beside these sizes and prices to be planned exactly, got ${show(wanted)}`,
    );
  }
  return { need, packs, freight: paid, freeover: leastFree(freeover, money.unit) };
}
