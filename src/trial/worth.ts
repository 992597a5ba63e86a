/**
 * Candidates judged on several criteria, each with a weight: sums, places and ties by one rule.
 *
 * Scores and sums are alike where they differ by no more than one bound. A place is shared by all
 * that are alike to the best of them, from the top down.
 */
import type { Cells } from "../cells.ts";
import { BlankError, CalcError, amount, choice, isBlankNumber, number } from "../errors.ts";
import { at, cellsOf, list, sum } from "../lists.ts";

export interface Judgement {
  /** A row for each candidate: its scores, more being better. */
  worth: number[][];
  weights: number[];
  /** Weighted score of each candidate. */
  totals: number[];
  /**
   * Where each of these candidates stands in the table, from 0: rows with nothing in them are none.
   */
  rows: number[];
  /** Differences up to this are none. */
  bound: number;
}

/** The bound, as a part of the largest score. */
export const NEAR = 1e-9;

/**
 * Weighted sums. Without directions the scores count as they stand, more being better. With them,
 * each criterion is first laid between 0 for the worst and 1 for the best candidate, so that prices
 * and hours may stand side by side.
 */
export function judge(scores: number[][], weights: number[][], directions?: Cells): Judgement {
  const rows = scores.flatMap((row, i) => (row.every(isBlankNumber) ? [] : [i]));
  if (rows.length === 0) throw new BlankError("scores", "blank");
  const given = rows.map((i) =>
    at(scores, i).map((value, j) => number(`scores, row ${i + 1}, column ${j + 1},`, value)),
  );
  const shares = list("weights", weights, amount);
  holdCount("weights", shares.length, at(given, 0).length);
  const whole = sum(shares);
  if (whole === 0) throw new BlankError("the sum of weights");
  const worth = directions ? onOneScale(given, directions) : given;
  const totals = worth.map((row) => sum(row.map((each, i) => (each * at(shares, i)) / whole)));
  if (!totals.every(Number.isFinite)) {
    throw new CalcError("scores and weights are too large to be weighed: check their sizes");
  }
  return { worth, weights: shares, totals, rows, bound: boundOf(worth) };
}

/** The largest difference that is none. */
function boundOf(worth: readonly number[][]): number {
  return (
    NEAR * worth.reduce((most, row) => row.reduce((a, b) => Math.max(a, Math.abs(b)), most), 0)
  );
}

/** The candidates, from 0, in groups that share a place, best first. */
export function placesOf(totals: readonly number[], bound: number): number[][] {
  const groups: number[][] = [];
  const order = totals.map((_, i) => i).sort((a, b) => at(totals, b) - at(totals, a));
  for (const i of order) {
    const group = groups.at(-1);
    if (group && at(totals, at(group, 0)) - at(totals, i) <= bound) group.push(i);
    else groups.push([i]);
  }
  return groups;
}

function holdCount(argument: string, count: number, criteria: number) {
  if (count === criteria) return;
  throw new CalcError(
    `${argument} must have as many cells as scores has columns, got ${count} and ${criteria}`,
  );
}

function onOneScale(scores: number[][], directions: Cells): number[][] {
  const words = cellsOf("directions", directions).map(({ name, cell }) =>
    choice(name, String(cell), ["up", "down"] as const),
  );
  holdCount("directions", words.length, at(scores, 0).length);
  const scales = words.map((word, j) => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const row of scores) [low, high] = [Math.min(low, at(row, j)), Math.max(high, at(row, j))];
    const [worst, best] = word === "up" ? [low, high] : [high, low];
    return { worst, span: best - worst, isAlike: high - low <= boundOf([[low, high]]) };
  });
  return scores.map((row) =>
    row.map((value, j) => {
      const { worst, span, isAlike } = at(scales, j);
      return isAlike ? 1 : (value - worst) / span;
    }),
  );
}
