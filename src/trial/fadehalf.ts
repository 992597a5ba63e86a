import type { Cell, Cells } from "../cells";
import { fitFade } from "./fade";

/** Stands in a cell where an interval has no end: a number would be infinite. */
export const NO_END = "no upper end";

/**
 * Half-life of a scent's strength from hourly scores, with its 95 % interval.
 *
 * @remarks Least squares on the logarithm of the scores: half-life = ln 2 / slope. A zero means at or below the least score: it pulls the curve down only where the curve would stand above that. Blank cells and dashes are gaps. The interval is Student's, for the slope; with few or scattered scores it is wide, and may have no upper end. Scores are one nose's opinion: keep the same load, cloth, distance and nose.
 * @customfunction FADEHALF
 * @topic trial
 * @need How fast does this scent fade?
 * @param hours (hours) One row or column: hours since spraying.
 * @param scores (score) One row or column as long as hours: strength as scored, zero or more, on one scale.
 * @param [least] (score) The least score above zero on your scale, which a zero is at or below (default: the least given).
 * @returns (hours) Three cells: half-life in hours, and the low and high of its 95 % interval.
 * @throws value - fewer than three scores above zero
 * @throws value - the scores are flat or rise: nothing fades
 * @working slope: of the logarithm of the scores, an hour = fadeslope(hours, scores, least)
 * @working error: its standard error = fadeerror(hours, scores, least)
 * @working t: Student for 95 % = fadet(hours, scores, least)
 * @working fast: fastest fall of the interval = -slope + t * error
 * @working slow: slowest fall of the interval = -slope - t * error
 * @working [slow > 0] half: half-life, low and high = [log(2) / -slope, log(2) / fast, log(2) / slow]
 * @working [slow <= 0] half: half-life, low, and no upper end = [log(2) / -slope, log(2) / fast, "no upper end"]
 * @source First-order decay by log-linear least squares; example after OpenStax Chemistry 12.4 (hydrogen peroxide). Zeros as one-sided points, by hand.
 * @example FADEHALF({0, 6, 12, 18, 24}, {1, 0.5, 0.25, 0.125, 0.0625}) // => {6, about 6.000, about 6.000}
 */
export function fadeHalf(hours: Cells, scores: Cells, least?: number): Cells {
  const { slope, slopeError, t } = fitFade(hours, scores, least);
  const [slow, fast] = [-slope - t * slopeError, -slope + t * slopeError];
  const high: Cell = slow > 0 ? Math.LN2 / slow : NO_END;
  return [[Math.LN2 / -slope, Math.LN2 / fast, high]];
}
