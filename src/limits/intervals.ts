/**
 * Compositions that are known only as ranges.
 *
 * A safety data sheet gives each component a low and a high. The shares sum to 100 %, so not every
 * choice within the ranges is possible; the least and the most that a mixture can have of something is
 * found by pouring what the lows leave over into the components that have least, or most, of it. That
 * is the exact answer of the linear programme.
 */
import { CalcError, list, share, showShare, sum } from "../errors";
import { checkWhole } from "../load/whole";

export interface Intervals {
  lows: number[];
  highs: number[];
  /** True where a low and a high were given, so that the answer has both. */
  isRange: boolean;
}

/**
 * One value for each component, or a low and a high: two columns side by side, or two long rows one
 * above the other.
 */
export function intervalsOf(argument: string, range: number[][]): Intervals {
  const [rows, columns] = [range.length, range[0]?.length ?? 0];
  const read = (name: string, cells: number[]) => list(name, [cells], share);
  if (rows === 1 || columns === 1) {
    const values = list(argument, range, share);
    return { lows: values, highs: values, isRange: false };
  }
  if (rows !== 2 && columns !== 2) {
    throw new CalcError(
      `${argument} must be one column, or two (low and high), got ${rows} x ${columns} cells`,
    );
  }
  const [low, high] = columns === 2 ? [0, 1].map((i) => range.map((row) => row[i])) : range;
  const lows = read(`low of ${argument}`, low);
  const highs = read(`high of ${argument}`, high);
  return { ...checkOrder(argument, lows, highs), isRange: true };
}

/** Highs are not below their lows. */
export function checkOrder(argument: string, lows: number[], highs: number[]) {
  const wrong = lows.findIndex((low, i) => low > highs[i]);
  if (wrong < 0) return { lows, highs };
  throw new CalcError(
    `${argument}, line ${wrong + 1}, must have a high of at least ${showShare(lows[wrong])}, ` +
      `got ${showShare(highs[wrong])}`,
  );
}

/** Rounding that a sum of printed percents may have. */
const NEAR = 1e-9;

/** Shares of a whole: points sum to 100 % within 0.1 %, ranges can sum to it. */
export function compositionOf(argument: string, range: number[][]): Intervals {
  const parts = intervalsOf(argument, range);
  if (parts.isRange) return canBeWhole(argument, parts);
  const whole = checkWhole(parts.lows);
  const exact = parts.lows.map((part) => part / whole);
  return { lows: exact, highs: exact, isRange: false };
}

/** Refuses ranges that no composition of 100 % lies within. */
export function canBeWhole<T extends { lows: number[]; highs: number[] }>(
  argument: string,
  parts: T,
): T {
  const [least, most] = [sum(parts.lows), sum(parts.highs)];
  if (least <= 1 + NEAR && most >= 1 - NEAR) return parts;
  throw new CalcError(
    `${argument} must be able to sum to 100 %: the lows sum to ${showShare(least)}, ` +
      `the highs to ${showShare(most)}`,
  );
}

/** The composition within the ranges that has most of what the weights say. */
export function richest({ lows, highs }: Intervals, weights: readonly number[]): number[] {
  const shares = [...lows];
  let left = 1 - sum(lows);
  const order = weights.map((_, i) => i).sort((a, b) => weights[b] - weights[a]);
  for (const i of order) {
    const more = Math.min(Math.max(0, left), highs[i] - lows[i]);
    shares[i] += more;
    left -= more;
  }
  return shares;
}

/** The most that the mixture can have of something, each component having so much of it. */
export function mostOf(parts: Intervals, weights: readonly number[]): number {
  return sum(richest(parts, weights).map((part, i) => part * weights[i]));
}

/** One cell, or a low and a high. */
export function lowHigh(isRange: boolean, low: number, high: number): number[][] {
  return isRange ? [[low, high]] : [[high]];
}
