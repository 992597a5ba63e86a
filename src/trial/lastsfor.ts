import type { Cells } from "../cells";
import { CalcError, positive, show } from "../errors";
import { type Fade, fitFade } from "./fade";
import { NO_END } from "./fadehalf";

/**
 * Hours until the fitted strength falls to a floor, with a 95 % interval.
 *
 * @remarks Where the curve of FADEHALF crosses the floor: (intercept - ln floor) / slope. The interval is Fieller's, which holds for such a quotient; with few or scattered scores it may have no upper end. Beyond the last hour scored it is a guess by the curve. Zeros and gaps as in FADEHALF.
 * @customfunction LASTSFOR
 * @topic trial
 * @need How many hours until this scent is too weak?
 * @param hours (hours) One row or column: hours since spraying.
 * @param scores (score) One row or column as long as hours: strength as scored, zero or more, on one scale.
 * @param floor (score) The score that is too weak, above zero, on the same scale.
 * @param [least] (score) The least score above zero on your scale, which a zero is at or below (default: the least given).
 * @returns (hours) Three cells: hours until the floor, and the low and high of its 95 % interval.
 * @throws value - floor is blank or zero, or not below the fitted score at the start
 * @throws value - fewer than three scores above zero, or scores that do not fall
 * @working slope: of the logarithm of the scores, an hour = fadeslope(hours, scores, least)
 * @working start: logarithm of the fitted score at the start = fadestart(hours, scores, least)
 * @working until: hours until the floor = (log(floor) - start) / slope
 * @working lasts: with its 95 % interval, Fieller = fadelasts(until, hours, scores, floor, least)
 * @source Inverse prediction with Fieller's interval; example by hand, on the decay of OpenStax Chemistry 12.4.
 * @example LASTSFOR({0, 6, 12, 18, 24}, {1, 0.5, 0.25, 0.125, 0.0625}, 0.125) // => {18, about 18.000, about 18.000}
 */
export function lastsFor(hours: Cells, scores: Cells, floor: number, least?: number): Cells {
  const weak = positive("floor", floor);
  const fade = fitFade(hours, scores, least);
  const height = Math.log(weak);
  if (fade.intercept <= height) {
    const start = show(Number(Math.exp(fade.intercept).toPrecision(3)));
    throw new CalcError(
      `floor must be below the fitted score at the start, ${start}, got ${show(weak)}`,
    );
  }
  const until = (height - fade.intercept) / fade.slope;
  const [low, high] = fieller(fade, height);
  return [[until, Math.max(0, low), high ?? NO_END]];
}

/** The hours at which the line's own 95 % band takes in the height. */
function fieller(fade: Fade, height: number): [low: number, high: number | undefined] {
  const { slope, intercept, centre, spread, meanSquare, points, t } = fade;
  const width = t * t * meanSquare;
  const level = intercept + slope * centre;
  // (level - height + slope d)^2 <= width (1/n + d^2 / spread), d being hours from the centre.
  const a = slope ** 2 - width / spread;
  const b = slope * (level - height);
  const c = (level - height) ** 2 - width / points;
  const root = Math.sqrt(Math.max(0, b * b - a * c));
  if (a > 0) return [centre + (-b - root) / a, centre + (-b + root) / a];
  // The slope itself may be nothing: the band never leaves the height on the far side.
  return [a === 0 ? centre - c / (2 * b) : centre + (-b + root) / a, undefined];
}
