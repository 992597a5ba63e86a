import type { Cells } from "../cells";
import { judge } from "./worth";

/**
 * Weighted score of each candidate, and its place.
 *
 * @remarks Sum of score x weight, the weights taken in proportion. Without directions all scores are on one scale, more being better. With directions (up where more is better, down where less is, as with a price) each criterion is first laid between 0 for the worst candidate and 1 for the best. A tie is said.
 * @customfunction STANDING
 * @topic trial
 * @need Which base or oil comes out best on all counts?
 * @param scores (number) A table: a row for each candidate, a column for each criterion.
 * @param weights (number) One row or column with a weight for each criterion, zero or more.
 * @param [directions] (label) One row or column: "up" or "down" for each criterion (default: all on one scale, more is better).
 * @returns (label) Two columns: weighted score, and place, tied places said.
 * @throws value - weights or directions are not as many as criteria
 * @working totals: score times weight, over the weights = weighed(scores, weights, directions)
 * @working places: each with its place = withplace(totals)
 * @source Weighted sum model (Triantaphyllou's worked example); scaling between worst and best, common practice.
 * @example STANDING({25, 20, 15, 30; 10, 30, 20, 30; 30, 10, 30, 10}, {0.2, 0.15, 0.4, 0.25}) // => {21.5, "3"; 22, "1 tied"; 22, "1 tied"}
 */
export function standing(scores: number[][], weights: number[][], directions?: Cells): Cells {
  const { totals } = judge(scores, weights, directions);
  return withPlaces(totals);
}

/** Scores with their places, ties said. */
export function withPlaces(totals: readonly number[]): Cells {
  return totals.map((total) => {
    const near = (other: number) => Math.abs(other - total) <= 1e-9 * Math.max(1, Math.abs(total));
    const place = totals.filter((other) => other > total && !near(other)).length + 1;
    return [total, `${place}${totals.filter(near).length > 1 ? " tied" : ""}`];
  });
}
