import type { Cell, Cells } from "../cells.ts";
import { choice, positive } from "../errors.ts";
import { NO_HIGH, NO_LOW, over, under } from "./fadehalf.ts";
import { type Lasts, lastsByLogs, lastsByScores } from "./lasts.ts";
import { type Hours, type TrialMarks, marksOf } from "./marks.ts";

/** What the curve is fitted to. */
export type Fit = "scores" | "logs";

/**
 * Hours until the fitted strength falls to a floor, with a 95 % interval.
 *
 * @remarks Where the fitted curve is at the floor. With a fit of scores it is the curve of
 * FADEHALF, with its interval: for marks on a scale and for zeros. With a fit of logs it is a
 * straight line through the logarithms, with Fieller's interval: for readings above zero whose
 * error grows with them; the logarithms of small whole scores lead it astray. Only falling curves
 * are in the interval. An end before the start is 0; an end that there is not is told in words. A
 * scent that does not fade within the hours is told as over the last hour. Beyond the last hour
 * scored a number is a guess by the curve.
 * @customfunction LASTSFOR
 * @topic trial
 * @need How many hours until this scent is too weak?
 * @words how long does it last, lasting, longevity, wear off, hours, scent throw, staying power,
 * smell, still there next day, evaporates, evaporation, gone
 * @param hours (hours) One row or column: hours since spraying.
 * @param scores (score) One row or column as long as hours: strength as scored, zero or more, on
 * one scale.
 * @param floor (score) The score that is too weak, above zero, on the same scale.
 * @param [least] (score) The least score above zero on your scale, as in FADEHALF (default: 1 where
 * all scores are whole, else not rounded).
 * @param [fit] (choice) "scores" or "logs": what the curve is fitted to (default: "logs" where no
 * score is zero and least is left out, else "scores").
 * @returns (hours) Three cells: hours until the floor, and the low and high of its 95 % interval;
 * words where no number tells it.
 * @throws value - floor is blank or zero, or not below the fitted score at the start
 * @throws value - fewer than three scores, or none above zero
 * @throws value - a fit of logs, and a score is zero
 * @working fitted (label): what the curve is fitted to = fadefit(hours, scores, least, fit)
 * @working start (score): the score at the start, by the curve that lies nearest to the scores, =
 * fadestart(hours, scores, least, fitted)
 * @working rate ("halvings an hour"): how fast the scent fades, by that curve, = faderate(hours,
 * scores, least, fitted)
 * @working lasts (hours: hours; low: hours; high: hours): hours until it has faded from {start} to
 * {floor}, and its 95 % interval = fadelasts(hours, scores, floor, least, fitted)
 * @source Inverse prediction, with the interval of the profile likelihood for a fit of scores and
 * Fieller's for one of logs, from memory; example by hand, on the decay of OpenStax Chemistry 12.4.
 * @example LASTSFOR({0, 6, 12, 18, 24}, {1, 0.5, 0.25, 0.125, 0.0625}, 0.125) // => {18, about
 * 18.000, about 18.000}
 * @example LASTSFOR({0, 1, 2, 4}, {4, 3, 3, 1}, 3) // => {about 1.1538, 0, about 3.45400}
 */
export function lastsFor(
  hours: Cells,
  scores: Cells,
  floor: number,
  least?: number,
  fit?: Fit,
): Cells {
  const weak = positive("floor", floor);
  const marks = marksOf(hours, scores, least);
  const isLogs = fitOf(marks, least, fit) === "logs";
  return [told(marks, isLogs ? lastsByLogs(marks, weak) : lastsByScores(marks, weak))];
}

/** What it is fitted to. Zeros have no logarithms, and a scale that is told has steps. */
export function fitOf({ scores }: TrialMarks, least?: number, fit?: Fit): Fit {
  if (fit !== undefined) return choice("fit", fit, ["scores", "logs"]);
  return least === undefined && !scores.includes(0) ? "logs" : "scores";
}

/** Hours, low and high: numbers where there are any, else words. */
function told({ second, last }: Hours, { until, low, high, isSteep }: Lasts): Cell[] {
  const isEndless = high === Number.POSITIVE_INFINITY;
  const from = low === Number.NEGATIVE_INFINITY && isEndless ? NO_LOW : Math.max(0, low);
  if (until === Number.POSITIVE_INFINITY) {
    return [over(last), Number(from) > last ? over(last) : from, NO_HIGH];
  }
  const to = isEndless ? NO_HIGH : high;
  if (!isSteep) return [until, from, to];
  return [under(second), from, Number(to) < second ? under(second) : to];
}
