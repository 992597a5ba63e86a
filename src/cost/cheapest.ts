/** The cheapest way to cover a need with packs, freight counted. Exact. */
import { cheapestFreeOfFreight } from "./free-of-freight.ts";
import {
  NOTHING,
  type WholePack,
  type Plan,
  type Rules,
  add,
  baseOf,
  giveUp,
  isBetter,
  leastPrice,
  search,
  timesIn,
} from "./partial-plans.ts";

export interface Order {
  need: number;
  packs: WholePack[];
  freight: number;
  /** Goods from this sum on travel free; 0 where they never do. All money is in one whole unit. */
  freeover: number;
}

/** So many partial plans are looked at before the search gives up, about a second's work. */
const PATIENCE = 1_000_000;

/**
 * How many of each pack to buy. The cheapest goods may stay below the sum from which freight is
 * free, and a larger order reach it for less than goods and freight together.
 */
export function cheapest({ need, packs, freight, freeover }: Order): number[] {
  if (need <= 0) return packs.map(() => 0);
  const goods = cheapestGoods(need, packs);
  const landed = { ...goods, price: goods.price + freight };
  const mayPay = freight > 0 && goods.price < freeover && freeover <= landed.price;
  const larger = mayPay ? cheapestFreeOfFreight(need, packs, freeover, landed.price) : undefined;
  const best = larger && isBetter(larger, landed) ? larger : goods;
  return packs.map((pack) => timesIn(best, pack));
}

/** The cheapest goods that cover the need, freight aside. */
function cheapestGoods(need: number, packs: readonly WholePack[]): Plan {
  const single = packs.map((pack) => add(NOTHING, pack, Math.ceil(need / pack.size)));
  let best = single.reduce((a, b) => (isBetter(b, a) ? b : a));
  const useful = packs.filter((pack) => pack.price <= best.price);
  const base = baseOf(useful);
  const largest = Math.max(...useful.map((pack) => pack.size));
  const rules: Rules = {
    ...inSizesOf(base),
    isWorth: (plan) => {
      const bound = leastPrice(plan, need, base);
      if (bound !== best.price || best.size > need) return bound <= best.price;
      // Only fewer packs could still be better.
      return plan.count + Math.max(0, need - plan.size) / largest < best.count;
    },
    complete: (plan) => {
      const whole = add(plan, base, Math.max(0, Math.ceil((need - plan.size) / base.size)));
      if (isBetter(whole, best)) best = whole;
      return plan.size < need;
    },
  };
  const others = useful.filter((pack) => pack !== base);
  const isProven =
    search(others, rules, PATIENCE) || leastPrice(NOTHING, need, base) === best.price;
  return isProven ? best : giveUp();
}

/**
 * Partial plans whose sizes differ by whole bases: the one that is no larger and, with the bases
 * made up, no dearer serves as well.
 */
function inSizesOf(base: WholePack): Pick<Rules, "key" | "serves"> {
  const bases = (plan: Plan) => Math.floor(plan.size / base.size);
  return {
    key: (plan) => plan.size % base.size,
    serves: (a, b) => {
      if (a.size > b.size) return false;
      const more = bases(b) - bases(a);
      const price = a.price + more * base.price;
      return price < b.price || (price === b.price && a.count + more <= b.count);
    },
  };
}
