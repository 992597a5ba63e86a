/**
 * Searching the ways to buy packs, each of which may be bought many times.
 *
 * One pack, the base, has the most for its money; any plan is some other packs and then bases. So
 * only the choice of the others is searched, as partial plans, and two facts keep them few:
 *
 * - What is still missing costs at least what it would at the base's rate. A partial plan that
 *   cannot reach the best plan found so far is dropped.
 * - Of two partial plans that differ by whole bases, one may serve wherever the other does. The
 *   other is dropped.
 *
 * Sizes and prices are whole numbers, so equal is equal.
 */
import { CalcError } from "../errors.ts";
import { at } from "../lists.ts";

export interface WholePack {
  size: number;
  price: number;
}

/** Packs bought: their size, price and number together, and which. */
export interface Plan {
  size: number;
  price: number;
  count: number;
  last?: { pack: WholePack; times: number; rest: Plan };
}

export const NOTHING: Plan = { size: 0, price: 0, count: 0 };

export interface Rules {
  /** Partial plans with one key are compared. */
  key: (plan: Plan) => number | string;
  /** True when a partial plan serves wherever the other, with the same key, does. */
  serves: (plan: Plan, other: Plan) => boolean;
  /** False when no plan that begins so can be the best. */
  isWorth: (plan: Plan) => boolean;
  /** Completes a partial plan with bases; false when adding to it is no use. */
  complete: (plan: Plan) => boolean;
}

/** Steps for each partial plan that patience allows: most of what is tried is dropped at once. */
const STEPS = 20;

/** Goes through the partial plans of some packs. False when there are more than patience allows. */
export function search(packs: readonly WholePack[], rules: Rules, patience: number): boolean {
  const { key, serves, isWorth, complete } = rules;
  const kept = new Map<number | string, Plan[]>([[key(NOTHING), [NOTHING]]]);
  const open = [NOTHING];
  let steps = 0;
  complete(NOTHING);
  // The best for the money first: good plans found early drop more of the others.
  for (const pack of [...packs].sort((a, b) => a.price / a.size - b.price / b.size)) {
    // The list grows while it is gone through: a pack is added to plans that hold it already.
    for (let i = 0; i < open.length; i++) {
      const plan = add(at(open, i), pack);
      if (++steps > patience * STEPS) return false;
      if (!isWorth(plan)) continue;
      const rivals = kept.get(key(plan)) ?? [];
      steps += rivals.length;
      if (rivals.some((rival) => serves(rival, plan)) || !complete(plan)) continue;
      if (open.length >= patience) return false;
      kept.set(key(plan), [...rivals.filter((rival) => !serves(plan, rival)), plan]);
      open.push(plan);
    }
  }
  return true;
}

/** A plan with some more of a pack. */
export function add(rest: Plan, pack: WholePack, times = 1): Plan {
  if (times === 0) return rest;
  return {
    size: rest.size + pack.size * times,
    price: rest.price + pack.price * times,
    count: rest.count + times,
    last: { pack, times, rest },
  };
}

/** How often a pack is in a plan. */
export function timesIn(plan: Plan, pack: WholePack): number {
  let times = 0;
  for (let at = plan.last; at; at = at.rest.last) if (at.pack === pack) times += at.times;
  return times;
}

/** Least money, then least size, then fewest packs. */
export function isBetter(a: Plan, b: Plan): boolean {
  return a.price < b.price || (a.price === b.price && isSmaller(a, b));
}

/** Least size, then fewest packs. */
export function isSmaller(a: Plan, b: Plan): boolean {
  return a.size < b.size || (a.size === b.size && a.count < b.count);
}

/** The pack with the most for its money; of equals the largest, which makes the fewest packs. */
export function baseOf(packs: readonly WholePack[]): WholePack {
  return packs.reduce((best, pack) => {
    // Products of whole numbers this large need BigInt to be compared exactly.
    const ours = BigInt(pack.price) * BigInt(best.size);
    const theirs = BigInt(best.price) * BigInt(pack.size);
    return ours < theirs || (ours === theirs && pack.size > best.size) ? pack : best;
  });
}

/** The least that a plan can cost that begins with this one and covers the need. */
export function leastPrice(plan: Plan, need: number, base: WholePack): number {
  const bound = plan.price + (base.price / base.size) * Math.max(0, need - plan.size);
  // Prices are whole; the last digit of a quotient is not to be trusted.
  return Math.ceil(bound * (1 - 1e-13) - 1e-9);
}

export function giveUp(): never {
  throw new CalcError(
    "these sizes and prices are too finely graded to plan exactly: round them to fewer digits",
  );
}
