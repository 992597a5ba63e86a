/**
 * The chance of so much agreement where nobody agrees, counted: each way in which a person's own
 * ranks can fall on the samples is as likely as any other.
 *
 * Ranks are doubled, so that ties at a half stay whole. The samples are alike to chance, so one
 * person's ranks may stay where they are, and of the sums of ranks only the sizes count, not their
 * order.
 */
import { at } from "../lists.ts";

/** Most samples and ways that are counted, and most steps that it may take: well under a second. */
const MOST_SAMPLES = 20;
const MOST_WAYS = 1e15;
const MOST_STEPS = 1e6;

interface Budget {
  steps: number;
}

/**
 * Chance of sums of ranks as far apart as these or farther; undefined where the ways are too many.
 */
export function exactChance(ranks: readonly (readonly number[])[]): number | undefined {
  // Who finds all alike adds the same to every sum.
  const telling = ranks.filter((row) => row.some((rank) => rank !== row[0]));
  // Those with the most ways are the one that stays and the one that is only counted.
  const people = telling.map((row) => row.map((rank) => Math.round(2 * rank)).sort(bySize));
  people.sort((a, b) => waysOf(b) - waysOf(a));
  const [first, last, ...others] = people;
  if (!first || !last) return 1;
  const ways = [last, ...others].reduce((all, row) => all * waysOf(row), 1);
  if (ways > MOST_WAYS || first.length > MOST_SAMPLES) return undefined;
  const seen = squares(first.map((_, j) => telling.reduce((all, row) => all + 2 * at(row, j), 0)));
  const budget = { steps: MOST_STEPS };
  let sums = new Map([[keyOf(first), 1]]);
  for (const row of others) sums = added(sums, row, budget);
  let far = 0;
  for (const [key, count] of sums) {
    const before = sumsOf(key);
    const need = (seen - squares(before) - squares(last)) / 2;
    far += count * waysToReach(before, last, need, budget);
  }
  return budget.steps < 0 ? undefined : far / ways;
}

/** The sums after one more person, and in how many ways each comes about. */
function added(sums: Map<string, number>, row: number[], budget: Budget): Map<string, number> {
  const next = new Map<string, number>();
  budget.steps -= sums.size * waysOf(row);
  if (budget.steps < 0) return next;
  const arrangements = arrangementsOf(row);
  for (const [key, count] of sums) {
    const before = sumsOf(key);
    for (const ranks of arrangements) {
      const after = keyOf(before.map((sum, j) => sum + at(ranks, j)));
      next.set(after, (next.get(after) ?? 0) + count);
    }
  }
  return next;
}

/** In how many ways these ranks, given to the sums, bring their products to what is needed. */
function waysToReach(sums: number[], ranks: number[], need: number, budget: Budget): number {
  if (budget.steps-- < 0) return 0;
  // Most where large ranks meet large sums, least where they meet small ones.
  const most = ranks.reduce((all, rank, i) => all + rank * at(sums, i), 0);
  if (most < need) return 0;
  const least = ranks.reduce((all, rank, i) => all + rank * at(sums, sums.length - 1 - i), 0);
  if (least >= need) return waysOf(ranks);
  const [sum = 0, ...others] = sums;
  return ranks.reduce((all, rank, i) => {
    if (rank === ranks[i - 1]) return all;
    return all + waysToReach(others, without(ranks, i), need - sum * rank, budget);
  }, 0);
}

/** Each way in which one person's ranks, by size, can fall. */
function arrangementsOf(row: number[]): number[][] {
  if (row.length === 0) return [[]];
  return row.flatMap((rank, i) => {
    if (rank === row[i - 1]) return [];
    return arrangementsOf(without(row, i)).map((others) => [rank, ...others]);
  });
}

/** How many there are; ties are alike. */
function waysOf(row: readonly number[]): number {
  let run = 0;
  return row.reduce((ways, rank, i) => {
    run = rank === row[i - 1] ? run + 1 : 1;
    return Math.round((ways * (i + 1)) / run);
  }, 1);
}

const bySize = (a: number, b: number) => a - b;
const without = (row: number[], at: number) => row.filter((_, i) => i !== at);
const squares = (sums: readonly number[]) => sums.reduce((all, sum) => all + sum * sum, 0);
const keyOf = (sums: number[]) => String.fromCharCode(...sums.sort(bySize));
const sumsOf = (key: string) => Array.from(key, (letter) => letter.charCodeAt(0));
