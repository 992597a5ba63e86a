/**
 * Compositions that are known only as ranges.
 *
 * A safety data sheet gives each component a low and a high. The shares sum to 100 %, so not every
 * choice within the ranges is possible; the least and the most that a mixture can have of something
 * is found by pouring what the lows leave over into the components that have least, or most, of it.
 * That is the exact answer of the linear programme.
 */
import { CalcError, isBlankNumber, share, showShare } from "../errors.ts";
import { at, flat, list, products, sameLength, sum } from "../lists.ts";
import { checkWhole } from "../load/whole.ts";

export interface Intervals {
  lows: number[];
  highs: number[];
  /** True where a low and a high were given, so that the answer has both. */
  isRange: boolean;
}

/**
 * True for a line of which the cells, one or a low and a high, may be blank: then they are zero.
 */
type MayBeBlank = (cells: number[], line: number) => boolean;

/** A line with nothing on it at all, which has nothing of what is asked. */
const isSpare: MayBeBlank = (cells) => cells.every(isBlankNumber);

/**
 * One value for each component, or a low and a high: two columns side by side, or two long rows one
 * above the other.
 */
export function intervalsOf(
  argument: string,
  range: number[][],
  mayBeBlank: MayBeBlank = isSpare,
): Intervals {
  const [rows, columns] = [range.length, range[0]?.length ?? 0];
  if (rows === 1 || columns === 1) {
    const values = list(argument, range, (name, value, i) =>
      isBlankNumber(value) && mayBeBlank([value], i) ? 0 : share(name, value),
    );
    return { lows: values, highs: values, isRange: false };
  }
  if (rows !== 2 && columns !== 2) {
    throw new CalcError(
      `${argument} must be one column, or two (low and high), got ${rows} x ${columns} cells`,
    );
  }
  const side = (i: number) => (columns === 2 ? range.map((row) => at(row, i)) : at(range, i));
  const names = [`low of ${argument}`, `high of ${argument}`] as const;
  return { ...lowsAndHighs(argument, names, [[side(0)], [side(1)]], mayBeBlank), isRange: true };
}

/** Lows and highs from a row or column each; of one line neither or both may be blank. */
export function lowsAndHighs(
  argument: string,
  names: readonly [string, string],
  [low, high]: readonly [number[][], number[][]],
  mayBeBlank: MayBeBlank = isSpare,
): { lows: number[]; highs: number[] } {
  const cells = [flat(low), flat(high)];
  const read = (name: string, range: number[][]) =>
    list(name, range, (cell, value, i) =>
      isBlankNumber(value) &&
      mayBeBlank(
        cells.flatMap((side) => side.slice(i, i + 1)),
        i,
      )
        ? 0
        : share(cell, value),
    );
  const [lows, highs] = [read(names[0], low), read(names[1], high)];
  sameLength(names[0], lows, names[1], highs);
  return checkOrder(argument, lows, highs);
}

/** Highs are not below their lows. */
function checkOrder(argument: string, lows: number[], highs: number[]) {
  const wrong = lows.findIndex((low, i) => low > at(highs, i));
  if (wrong < 0) return { lows, highs };
  throw new CalcError(
    `${argument}, line ${wrong + 1}, must have a high of at least ${showShare(at(lows, wrong))}, ` +
      `got ${showShare(at(highs, wrong))}`,
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
  const shares = lows.slice();
  let left = 1 - sum(lows);
  for (const i of byWorth(weights, (each) => at(highs, each) > at(lows, each))) {
    const more = Math.min(Math.max(0, left), at(highs, i) - at(lows, i));
    shares[i] = at(shares, i) + more;
    left -= more;
  }
  return shares;
}

/** The lines that count, those of most worth first. Of a long list most are points or blank. */
export function byWorth(worth: readonly number[], counts: (line: number) => boolean): number[] {
  return worth
    .map((_, i) => i)
    .filter(counts)
    .sort((a, b) => at(worth, b) - at(worth, a));
}

/** The most that the mixture can have of something, each component having so much of it. */
export function mostOf(parts: Intervals, weights: readonly number[]): number {
  return sum(products(richest(parts, weights), weights));
}

/** One cell, or a low and a high. */
export function lowHigh(isRange: boolean, low: number, high: number): number[][] {
  return isRange ? [[low, high]] : [[high]];
}
