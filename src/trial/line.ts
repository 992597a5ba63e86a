/** Least squares for a straight line, with the standard errors of what it finds. */
import { at, sum } from "../lists.ts";

export interface FittedLine {
  slope: number;
  intercept: number;
  slopeError: number;
  interceptError: number;
  /** Part of the scatter that the line explains. */
  rSquared: number;
  /** Mean square of what it leaves. */
  meanSquare: number;
  points: number;
  /** Centre and spread of x, for the error of the line anywhere. */
  centre: number;
  spread: number;
}

/**
 * Fits y = intercept + slope x. Sums are taken about the means, so that large numbers lose no
 * digits.
 */
export function fitLine(xs: readonly number[], ys: readonly number[]): FittedLine {
  const points = xs.length;
  const [centre, level] = [sum(xs) / points, sum(ys) / points];
  const across = xs.map((x) => x - centre);
  const up = ys.map((y) => y - level);
  const spread = sum(across.map((x) => x * x));
  const slope = sum(across.map((x, i) => x * at(up, i))) / spread;
  const intercept = level - slope * centre;
  const left = sum(up.map((y, i) => (y - slope * at(across, i)) ** 2));
  const all = sum(up.map((y) => y * y));
  const meanSquare = points > 2 ? left / (points - 2) : 0;
  return {
    slope,
    intercept,
    slopeError: Math.sqrt(meanSquare / spread),
    interceptError: Math.sqrt(meanSquare * (1 / points + centre ** 2 / spread)),
    rSquared: all === 0 ? 1 : 1 - left / all,
    meanSquare,
    points,
    centre,
    spread,
  };
}
