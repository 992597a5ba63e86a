/**
 * The order that is made larger to travel free: the least money from a sum on whose goods still
 * cover the need. Money and size change places: partial plans are compared where their prices
 * differ by whole bases, and the one with more for it serves as well.
 */
import {
  type WholePack,
  type Plan,
  type Rules,
  add,
  baseOf,
  giveUp,
  isSmaller,
  leastPrice,
  search,
} from "./partial-plans.ts";

/** Partial plans looked at for the least money, and then for the least left over at that money. */
const PATIENCE = 1_000_000;
const PATIENCE_FOR_TIES = 200_000;

/**
 * The cheapest goods of a price from one sum up to another that cover the need, if there are any.
 */
export function cheapestFreeOfFreight(
  need: number,
  packs: readonly WholePack[],
  from: number,
  upTo: number,
): Plan | undefined {
  const useful = packs.filter((pack) => pack.price <= upTo);
  const base = baseOf(useful);
  const others = useful.filter((pack) => pack !== base);
  let best: Plan | undefined;
  // Only less money counts here; what is left over is looked at when the least is known.
  const most = () => (best ? best.price - 1 : upTo);
  const rules: Rules = {
    key: (plan) => plan.price % base.price,
    serves: (a, b) => a.price <= b.price && sizeBeside(a, base) >= sizeBeside(b, base),
    isWorth: (plan) =>
      most() >= from && plan.price <= most() && leastPrice(plan, need, base) <= most(),
    complete: (plan) => {
      const forMoney = Math.ceil((from - plan.price) / base.price);
      const forNeed = Math.ceil((need - plan.size) / base.size);
      const whole = add(plan, base, Math.max(0, forMoney, forNeed));
      if (whole.price <= most()) best = whole;
      return plan.price < from || plan.size < need;
    },
  };
  const isProven = search(others, rules, PATIENCE) || best?.price === from;
  if (!isProven) giveUp();
  return best && leastLeftOver(best, need, base, others);
}

/** Of all plans at the price of one, the smallest that covers the need, then the fewest packs. */
function leastLeftOver(
  found: Plan,
  need: number,
  base: WholePack,
  others: readonly WholePack[],
): Plan {
  const { price } = found;
  const dearest = Math.max(base.price, ...others.map((pack) => pack.price));
  let best = found;
  const rules: Rules = {
    // Two plans of one price and size, but for bases: the one with fewer packs serves.
    key: (plan) => `${plan.price % base.price} ${sizeBeside(plan, base)}`,
    serves: (a, b) => a.price <= b.price && a.count - bases(a, base) <= b.count - bases(b, base),
    isWorth: (plan) => {
      if (plan.price > price || leastPrice(plan, need, base) > price) return false;
      return best.size > need || plan.count + (price - plan.price) / dearest < best.count;
    },
    complete: (plan) => {
      const times = (price - plan.price) / base.price;
      const whole = Number.isInteger(times) ? add(plan, base, times) : found;
      if (whole.size >= need && isSmaller(whole, best)) best = whole;
      return plan.price < price;
    },
  };
  // When patience runs out the price is the least all the same, and the rest as good as was found.
  search(others, rules, PATIENCE_FOR_TIES);
  return best;
}

/** Whole bases that the money of a plan would buy. */
function bases(plan: Plan, base: WholePack): number {
  return Math.floor(plan.price / base.price);
}

/** Size of a plan less that of the bases its money would buy. */
function sizeBeside(plan: Plan, base: WholePack): number {
  return plan.size - bases(plan, base) * base.size;
}
