/**
 * The cheapest goods by what is still missing: for each amount the least money that leaves just so
 * much, from the whole need down to nothing. It takes longer for a large need, or a finely measured
 * one.
 */
import { at } from "../lists.ts";
import { LeastTable } from "./least-table.ts";
import { NOTHING, type Plan, type WholePack, add, isBetter, leastPrice } from "./partial-plans.ts";

/** So many amounts, and amounts times packs, are gone through at most: half a second's work. */
const MOST_AMOUNTS = 5_000_000;
const MOST_STEPS = 40_000_000;

/** The best plan, where one that covers the need is known; undefined where it takes too long. */
export function bestByAmount(
  known: Plan,
  need: number,
  packs: readonly WholePack[],
  base: WholePack,
): Plan | undefined {
  if (need > MOST_AMOUNTS) return undefined;
  const table = new LeastTable(need + 1, need);
  let best = known;
  let steps = 0;
  for (let missing = need; missing > 0; missing--) {
    const soFar = {
      price: table.price(missing),
      size: need - missing,
      count: table.count(missing),
    };
    if (leastPrice(soFar, need, base) > best.price) continue;
    steps += packs.length;
    if (steps > MOST_STEPS) return undefined;
    for (const [i, pack] of packs.entries()) {
      const plan = add(soFar, pack);
      const left = need - plan.size;
      if (left > 0) table.keepsIfLess(left, plan.price, plan.count, i);
      else if (isBetter(plan, best)) best = add(planThatLeaves(missing, need, packs, table), pack);
    }
  }
  return best;
}

function planThatLeaves(
  missing: number,
  need: number,
  packs: readonly WholePack[],
  table: LeastTable,
): Plan {
  let plan = NOTHING;
  while (plan.size < need - missing) plan = add(plan, at(packs, table.pack(missing + plan.size)));
  return plan;
}
