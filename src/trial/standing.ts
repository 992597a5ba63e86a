import type { Cells } from "../cells.ts";
import { judge, placesOf } from "./worth.ts";
import { at } from "../lists.ts";

/**
 * Weighted score of each candidate, and its place.
 *
 * @remarks Sum of score x weight, the weights taken in proportion. Without directions all scores
 * are on one scale, more being better. With directions (up where more is better, down where less
 * is, as with a price) each criterion is first laid between 0 for the worst candidate and 1 for the
 * best. A tie is said: sums that differ by no more than a billionth of the largest score are alike.
 * A row with nothing in it is no candidate.
 * @customfunction STANDING
 * @topic trial
 * @need Which base or oil comes out best on all counts?
 * @words best, winner, compare, rank, score, choose, decide, favourite, pros and cons,
 * ratings, average rating, points, overall
 * @param scores (number) A table: a row for each candidate, a column for each criterion.
 * @param weights (number) One row or column with a weight for each criterion, zero or more.
 * @param [directions] (label) One row or column: "up" or "down" for each criterion (default: all on
 * one scale, more is better).
 * @returns (label) Two columns: weighted score, and place, tied places said.
 * @throws value - a score, a weight or a direction is blank beside others
 * @throws value - weights or directions are not as many as criteria
 * @working totals (number): each candidate's scores times the weights, divided by all weights =
 * weighed(scores, weights, directions)
 * @working bound (number): the least difference that is no tie = tiebound(scores, weights,
 * directions)
 * @working places (score: number; place: label): each with its place = withplace(totals, bound)
 * @source Weighted sum model (Triantaphyllou's worked example); scaling between worst and best,
 * common practice.
 * @example STANDING({25, 20, 15, 30; 10, 30, 20, 30; 30, 10, 30, 10}, {0.2, 0.15, 0.4, 0.25}) // =>
 * {21.5, "3"; 22, "1 tied"; 22, "1 tied"}
 */
export function standing(scores: number[][], weights: number[][], directions?: Cells): Cells {
  const { totals, rows, bound } = judge(scores, weights, directions);
  const places = withPlaces(totals, bound);
  const lines: Cells = scores.map(() => ["", ""]);
  rows.forEach((row, i) => (lines[row] = at(places, i)));
  return lines;
}

/** Scores with their places, ties said. */
export function withPlaces(totals: readonly number[], bound: number): Cells {
  const placed: Cells = [];
  let place = 1;
  for (const group of placesOf(totals, bound)) {
    for (const i of group)
      placed[i] = [at(totals, i), `${place}${group.length > 1 ? " tied" : ""}`];
    place += group.length;
  }
  return placed;
}
