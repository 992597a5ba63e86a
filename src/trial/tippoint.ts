import type { Cells } from "../cells.ts";
import { at, products, sum } from "../lists.ts";
import { type Judgement, NEAR, judge, placesOf } from "./worth.ts";

interface Tip {
  change: number;
  criterion: number;
  candidate: number;
}

/**
 * The smallest change of one weight that changes the winner.
 *
 * @remarks One weight moves and the others stay; the weights are taken in proportion afterwards,
 * which changes no place. If a small change tips the result, the result is not firm. Weights do not
 * go below zero, and never all to zero. Where several already win, by the rule of STANDING, no
 * change is needed and 0 comes back; where no single weight can tip it, it says so.
 * @customfunction TIPPOINT
 * @topic trial
 * @need How firm is that winner?
 * @words how sure, close call, winner, decide, matter more
 * @param scores (number) A table: a row for each candidate, a column for each criterion.
 * @param weights (number) One row or column with a weight for each criterion, zero or more.
 * @param [directions] (label) One row or column: "up" or "down" for each criterion (default: all on
 * one scale, more is better).
 * @returns (label) Three cells: change of the weight, number of the criterion, number of the
 * candidate that then draws level.
 * @throws value - a score, a weight or a direction is blank beside others
 * @throws value - weights or directions are not as many as criteria
 * @working totals (number): each candidate's scores times the weights, divided by all weights =
 * weighed(scores, weights, directions)
 * @working tip (change of the weight: number; criterion number: count; candidate number: count):
 * the least change of one weight that draws another level with the first = tip(scores, weights,
 * directions)
 * @source By hand: where two weighted sums cross.
 * @example TIPPOINT({4, 2; 3, 4}, {0.7, 0.3}) // => {about 0.05, 2, 2}
 */
export function tipPoint(scores: number[][], weights: number[][], directions?: Cells): Cells {
  const judged = judge(scores, weights, directions);
  const { totals, rows, bound } = judged;
  const best = at(placesOf(totals, bound), 0);
  const [winner, second] = [at(best, 0), best[1]];
  if (second !== undefined) return [[0, "tie", at(rows, second) + 1]];
  let tip: Tip | undefined;
  totals.forEach((_, candidate) => {
    if (candidate === winner) return;
    for (const turn of turnsOf(judged, winner, candidate)) {
      if (!tip || Math.abs(turn.change) < Math.abs(tip.change)) tip = turn;
    }
  });
  if (!tip) return [["no single weight", "", ""]];
  return [[tip.change, tip.criterion + 1, at(rows, tip.candidate) + 1]];
}

/** The changes of one weight at which a candidate draws level with the winner. */
function turnsOf({ worth, weights, bound }: Judgement, winner: number, candidate: number): Tip[] {
  const theirs = at(worth, candidate);
  const leads = at(worth, winner).map((each, i) => each - at(theirs, i));
  const lead = sum(products(leads, weights));
  return leads.flatMap((each, criterion) => {
    // Alike in this criterion, no weight of it helps.
    if (Math.abs(each) <= bound) return [];
    const change = -lead / each;
    // A weight may fall to nothing and no further, and not the last of them; rounding is nothing.
    const [now, all] = [at(weights, criterion), sum(weights)];
    const isPossible = now + change >= -NEAR * now && all + change > NEAR * all;
    return isPossible ? [{ change: Math.max(change, -now), criterion, candidate }] : [];
  });
}
