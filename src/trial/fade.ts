/**
 * Scores that fall by the same part every hour, score = level x 2^(-rate x hour), fitted to the
 * scores themselves by least squares, zeros being scores like any other.
 *
 * For a rate the best level is plain arithmetic, so one number is sought: rates of all sizes are
 * looked at, falling and rising, and each valley is followed to its bottom. The interval is that of
 * the likelihood: all rates whose curves leave little more than the best one does.
 */
import jstat from "jstat";
import type { Hours, TrialMarks } from "./marks.ts";
import { at } from "../lists.ts";

/** Of all curves of one rate, that which leaves the least. */
export interface Curve {
  /** Halvings an hour. */
  rate: number;
  /** The hour at which its shape is 1 and nowhere more: the first, or the last where it rises. */
  top: number;
  /** Fitted score at that hour. */
  level: number;
  /** Sum of the squares that it leaves. */
  left: number;
  /** Sum of the squares of its shape. */
  weight: number;
  /** Above zero where a smaller rate would leave less. */
  pull: number;
}

export interface Fade {
  best: Curve;
  /** What a curve within the 95 % interval may leave. */
  most: number;
  /** The smallest and the largest rate of such a curve; infinite where there is none. */
  slow: number;
  fast: number;
}

/** Halvings in the whole row, at the least, and from the first hour to the second, at the most. */
const LEAST_FALL = 2 ** -10;
export const MOST_FALL = 64;

/** Rates that are looked at in each doubling. */
const LOOKS = 4;

export function fitFade(marks: TrialMarks): Fade {
  const rates = ratesFor(marks);
  const curves = rates.map((rate) => curveOf(marks, rate));
  const valleys = curves.slice(1).flatMap((curve, i) => {
    if (at(curves, i).pull >= 0 || curve.pull < 0) return [];
    const isDown = (rate: number) => curveOf(marks, rate).pull < 0;
    return [curveOf(marks, edge(isDown, at(curves, i).rate, curve.rate))];
  });
  const best = [...valleys, at(curves, 0), ...curves.slice(-1)].reduce((a, b) =>
    b.left < a.left ? b : a,
  );
  const most = best.left + slack(marks, best);
  const isWithin = (rate: number) => curveOf(marks, rate).left <= most;
  const within = [best.rate, ...rates.filter((_, i) => at(curves, i).left <= most)];
  const [low, high] = [Math.min(...within), Math.max(...within)];
  const [below] = rates.filter((rate) => rate < low).slice(-1);
  const above = rates.find((rate) => rate > high);
  const slow = below === undefined ? Number.NEGATIVE_INFINITY : edge(isWithin, low, below);
  const fast = above === undefined ? Number.POSITIVE_INFINITY : edge(isWithin, high, above);
  return { best, most, slow, fast };
}

/** Of all curves of this rate, that which leaves the least. In loops, as a fit tries hundreds. */
export function curveOf({ hours, scores, first, last }: TrialMarks, rate: number): Curve {
  const top = rate < 0 ? last : first;
  const shape = hours.map((hour) => 2 ** (-rate * (hour - top)));
  let [weight, product] = [0, 0];
  for (let i = 0; i < shape.length; i++) {
    weight += at(shape, i) * at(shape, i);
    product += at(shape, i) * at(scores, i);
  }
  const level = product / weight;
  let [left, pull] = [0, 0];
  for (let i = 0; i < shape.length; i++) {
    const off = at(scores, i) - level * at(shape, i);
    left += off * off;
    pull += off * at(shape, i) * (at(hours, i) - top);
  }
  return { rate, top, level, left, weight, pull };
}

/** Fitted score at an hour. */
export function heightOf({ rate, top, level }: Curve, hour: number): number {
  return level * 2 ** (-rate * (hour - top));
}

/** True for a rate so high that the second hour tells nothing more of it. */
export function isSteep({ first, second }: Hours, rate: number): boolean {
  return rate * (second - first) > MOST_FALL * 0.999;
}

/** True for a rate that is no fall: level but for rounding, or rising. */
export function isFlat({ first, last }: Hours, rate: number): boolean {
  return rate * (last - first) <= 1e-9;
}

/** The rates that are looked at, from the fastest rise to the fastest fall. */
function ratesFor({ first, second, last }: TrialMarks): number[] {
  const [least, most] = [LEAST_FALL / (last - first), MOST_FALL / (second - first)];
  const looks = Math.ceil(LOOKS * Math.log2(most / least));
  const falls = Array.from({ length: looks + 1 }, (_, i) => least * (most / least) ** (i / looks));
  return [...falls.map((rate) => -rate).reverse(), 0, ...falls];
}

/** The last number for which it holds, from one towards another for which it does not. */
function edge(holds: (at: number) => boolean, inside: number, outside: number): number {
  let [last, out] = [inside, outside];
  for (;;) {
    const middle = (last + out) / 2;
    if (middle === last || middle === out) return last;
    if (holds(middle)) last = middle;
    else out = middle;
  }
}

/**
 * How much more than the best a curve of the interval may leave: Student's t squared times the
 * scatter. A zero where the curve is next to nothing cannot have missed downwards, so it tells half
 * as much of the scatter as another score. Marks that are rounded to a step are scattered by that
 * at least.
 */
function slack({ hours, scores, step }: TrialMarks, best: Curve): number {
  const least = step || scores.reduce((a, b) => (b > 0 && b < a ? b : a), Number.POSITIVE_INFINITY);
  const silent = scores.filter(
    (score, i) => score === 0 && heightOf(best, at(hours, i)) < least / 2,
  );
  const degrees = Math.max(1, scores.length - 2 - silent.length / 2);
  const scatter = jstat.studentt.inv(0.975, degrees) ** 2 * (best.left / degrees);
  // Rounding is known and not guessed from the row, so it has the normal 1.96 and not Student's t.
  return Math.max(scatter, 1.96 ** 2 * (step ** 2 / 12));
}
