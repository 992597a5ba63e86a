/** Decimal numbers as whole ones, so that sums and comparisons are exact. */
import { CalcError } from "../errors.ts";

/** Digits that count: what a measuring person can mean, and more. */
const DIGITS = 12;

export interface Whole {
  /** The numbers as multiples of the unit. */
  values: number[];
  /** The largest amount that every number is a multiple of. */
  unit: number;
}

/**
 * The numbers as multiples of the largest unit that they share: 0.5 and 1.25 are 2 and 5 of 0.25.
 */
export function wholeNumbers(numbers: readonly number[]): Whole {
  const rounded = numbers.map((value) => Number(value.toPrecision(DIGITS)));
  const decimals = rounded.reduce((most, value) => Math.max(most, decimalsOf(value)), 0);
  const scaled = rounded.map((value) => Math.round(value * 10 ** decimals));
  if (!scaled.every(Number.isSafeInteger)) {
    throw new CalcError(
      "sizes and prices must have fewer digits to be planned exactly: round them",
    );
  }
  const divisor = scaled.reduce(greatestCommonDivisor, 0) || 1;
  return { values: scaled.map((value) => value / divisor), unit: divisor / 10 ** decimals };
}

/** How many units cover an amount: rounded up, but not for a rounding error. */
export function unitsFor(amount: number, unit: number): number {
  return Math.ceil(Number((amount / unit).toPrecision(15)));
}

function decimalsOf(value: number): number {
  const [digits = "", exponent = "0"] = String(value).split("e");
  return Math.max(0, (digits.split(".")[1]?.length ?? 0) - Number(exponent));
}

export function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
