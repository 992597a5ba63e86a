/** Least squares for a straight line, with what the errors of its points are worked out from. */
import { at, products, sum } from "../lists.ts";

export interface FittedLine {
  slope: number;
  intercept: number;
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
  const spread = sum(products(across, across));
  const slope = sum(products(across, up)) / spread;
  const intercept = level - slope * centre;
  const left = sum(up.map((y, i) => (y - slope * at(across, i)) ** 2));
  const meanSquare = points > 2 ? left / (points - 2) : 0;
  return { slope, intercept, meanSquare, points, centre, spread };
}
