import type { Cell, Cells } from "../cells.ts";
import { show } from "../errors.ts";
import { type Fade, fitFade, isFlat, isSteep } from "./fade.ts";
import { type TrialMarks, marksOf } from "./marks.ts";

/** Stand in a cell where an interval has no end: a number would be infinite, or nothing. */
export const NO_LOW = "no lower end";
export const NO_HIGH = "no upper end";

/** What hours are that no number tells. */
export const over = (hour: number): string => `over ${show(hour)}`;
export const under = (hour: number): string => `under ${show(hour)}`;

/**
 * Half-life of a scent's strength from hourly scores, with its 95 % interval.
 *
 * @remarks The curve score = start x 2^(-hours / half-life) that leaves the least squares of the
 * scores themselves. A zero is a score like any other; blank cells and dashes are gaps. The
 * interval is that of the likelihood: all half-lives whose curve leaves little more than the best,
 * by Student's t; a zero where the curve is next to nothing tells half as much of the scatter.
 * Marks on a scale are rounded, and the interval allows for it: whole scores by 1, others by the
 * least that you tell. A scent that does not fade within the hours is told as over the last hour,
 * one that is gone by the second as under the time until it. Scores are one nose's opinion: keep
 * the same load, cloth, distance and nose.
 * @customfunction FADEHALF
 * @topic trial
 * @need How fast does this scent fade?
 * @words fade, wear off, half life, scent throw, longevity, weaker, smell, still there,
 * evaporates, evaporation
 * @param hours (hours) One row or column: hours since spraying.
 * @param scores (score) One row or column as long as hours: strength as scored, zero or more, on
 * one scale.
 * @param [least] (score) The least score above zero on your scale, which scores are rounded to
 * (default: 1 where all scores are whole, else not rounded).
 * @returns (hours) Three cells: half-life in hours, and the low and high of its 95 % interval;
 * words where no number tells it.
 * @throws value - fewer than three scores, or none above zero
 * @throws value - all scores of one hour
 * @working rate ("halvings an hour"): how fast the scent fades, by the curve that lies nearest to
 * the scores, = faderate(hours, scores, least)
 * @working squares (number): how far the scores lie from that curve (squares added up) =
 * fadesquares(hours, scores, least)
 * @working most (number): how far they may lie from a curve that is still believed =
 * fademost(hours, scores, least)
 * @working half (half-life: hours; low: hours; high: hours): hours for one halving, by that curve
 * and by the fastest and the slowest that are still believed = fadelives(hours, scores, least)
 * @source First-order decay by least squares with the interval of the profile likelihood (Bates and
 * Watts 1988), from memory; example after OpenStax Chemistry 12.4 (hydrogen peroxide).
 * @example FADEHALF({0, 6, 12, 18, 24}, {1, 0.5, 0.25, 0.125, 0.0625}) // => {6, about 6.000, about
 * 6.000}
 * @example FADEHALF({0, 1, 2, 4, 8}, {7, 5, 6, 7, 6}) // => {"over 8", about 7.7734, "no upper
 * end"}
 */
export function fadeHalf(hours: Cells, scores: Cells, least?: number): Cells {
  const marks = marksOf(hours, scores, least);
  return [halfLife(marks, fitFade(marks))];
}

/** Half-life, low and high: numbers where there are any, else words. */
function halfLife(marks: TrialMarks, { best, slow, fast }: Fade): Cell[] {
  const gap = marks.second - marks.first;
  const life = (rate: number): Cell => {
    if (isFlat(marks, rate)) return over(marks.last);
    return isSteep(marks, rate) ? under(gap) : 1 / rate;
  };
  const half = life(best.rate);
  const low = fast === Number.POSITIVE_INFINITY ? NO_LOW : life(fast);
  const high = isFlat(marks, slow) ? NO_HIGH : life(slow);
  // Beside words, a number beyond them would only puzzle.
  const isBeyond = half === over(marks.last) && Number(low) > marks.last;
  const isBelow = half === under(gap) && Number(high) < gap;
  return [half, isBeyond ? half : low, isBelow ? half : high];
}
