/**
 * The cheapest goods by what is left over when their size is divided by the base's: for each such
 * rest the least that makes it, where a base is taken back for each that a pack holds. It takes as
 * long for a large need as for a small one.
 */
import { at } from "../lists.ts";
import { LeastTable } from "./least-table.ts";
import { NOTHING, type Plan, type WholePack, add, isBetter } from "./partial-plans.ts";
import { greatestCommonDivisor } from "./whole-numbers.ts";

/** So many rests, and rests times packs, are gone through at most: about half a second's work. */
const MOST_RESTS = 600_000;
const MOST_STEPS = 55_000_000;

/**
 * The best plan; undefined where there are too many rests to go through, or where the need is so
 * small that more bases are taken back than bought. The base is the best for its money.
 */
export function bestByRest(
  need: number,
  base: WholePack,
  others: readonly WholePack[],
): Plan | undefined {
  const isTooLong = base.size > MOST_RESTS || base.size * others.length > MOST_STEPS;
  if (isTooLong) return undefined;
  // Prices and counts less those of the bases taken back.
  const table = new LeastTable(base.size, 0);
  others.forEach((pack, i) => addEverywhere(base, pack, i, table));
  const size = bestSize(need, base, table);
  let plan = NOTHING;
  // A plan that grows past the size has taken bases back.
  for (let rest = size % base.size; rest > 0; rest = (size - plan.size) % base.size) {
    plan = add(plan, at(others, table.pack(rest)));
  }
  const bases = (size - plan.size) / base.size;
  return bases < 0 ? undefined : add(plan, base, bases);
}

/** Adds a pack to all that was made, once and again, and keeps what is better. */
function addEverywhere(base: WholePack, pack: WholePack, place: number, table: LeastTable) {
  const more = pack.size % base.size;
  const back = (pack.size - more) / base.size;
  const circles = greatestCommonDivisor(more, base.size);
  const once = base.size / circles;
  for (let start = 0; start < circles; start++) {
    let from = start;
    for (let step = 1; step <= 2 * once; step++) {
      const over = from + more >= base.size ? 1 : 0;
      const to = from + more - over * base.size;
      const price = table.price(from) + pack.price - (back + over) * base.price;
      const count = table.count(from) + 1 - (back + over);
      // In the second round, all further on was looked at with the same before it.
      if (!table.keepsIfLess(to, price, count, place) && step > once) break;
      from = to;
    }
  }
}

/** The size of the best plan: of those that cover the need, the smallest for each rest. */
function bestSize(need: number, base: WholePack, table: LeastTable): number {
  let best = { size: 0, price: Infinity, count: 0 };
  for (let rest = 0; rest < base.size; rest++) {
    const bases = Math.ceil((need - rest) / base.size);
    const plan = {
      size: rest + bases * base.size,
      price: table.price(rest) + bases * base.price,
      count: table.count(rest) + bases,
    };
    if (isBetter(plan, best)) best = plan;
  }
  return best.size;
}
