import type { Cells } from "../cells";
import { judge } from "./worth";

/**
 * The smallest change of one weight that changes the winner.
 *
 * @remarks One weight moves and the others stay; the weights are taken in proportion afterwards, which changes no place. If a small change tips the result, the result is not firm. Weights do not go below zero. Where several already win, no change is needed and 0 comes back; where no single weight can tip it, it says so.
 * @customfunction TIPPOINT
 * @topic trial
 * @need How firm is that winner?
 * @param scores (number) A table: a row for each candidate, a column for each criterion.
 * @param weights (number) One row or column with a weight for each criterion, zero or more.
 * @param [directions] (label) One row or column: "up" or "down" for each criterion (default: all on one scale, more is better).
 * @returns (label) Three cells: change of the weight, number of the criterion, number of the candidate that then draws level.
 * @throws value - weights or directions are not as many as criteria
 * @working totals: score times weight, over the weights = weighed(scores, weights, directions)
 * @working tip: the least change of one weight that draws level, found among all = tip(scores, weights, directions)
 * @source By hand: where two weighted sums cross.
 * @example TIPPOINT({4, 2; 3, 4}, {0.7, 0.3}) // => {about 0.05, 2, 2}
 */
export function tipPoint(scores: number[][], weights: number[][], directions?: Cells): Cells {
  const { worth, weights: now, winners } = judge(scores, weights, directions);
  const [winner, second] = winners;
  if (second !== undefined) return [[0, "tie", second + 1]];
  const turns = worth.flatMap((rival, candidate) => {
    if (candidate === winner) return [];
    const leads = worth[winner].map((each, i) => each - rival[i]);
    const lead = leads.reduce((total, each, i) => total + each * now[i], 0);
    return leads.flatMap((each, criterion) => {
      const change = -lead / each;
      const isPossible = each !== 0 && now[criterion] + change >= -1e-12;
      return isPossible ? [{ change, criterion, candidate }] : [];
    });
  });
  if (turns.length === 0) return [["no single weight", "", ""]];
  const least = turns.reduce((a, b) => (Math.abs(b.change) < Math.abs(a.change) ? b : a));
  return [[least.change, least.criterion + 1, least.candidate + 1]];
}
