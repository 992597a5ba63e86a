/**
 * The blind odd-one-out test: of three samples two are alike, and a guess is right one time in
 * three. Counted in whole numbers, so that the chance at a limit falls on its right side.
 */
import { CalcError, amount, show } from "../errors.ts";

/** Most tests that are counted: a panel, not a census. */
const MOST = 1000;

/** A whole number of tests. */
export function wholeTests(argument: string, value: number): number {
  const tests = amount(argument, value);
  if (Number.isInteger(tests) && tests <= MOST) return tests;
  throw new CalcError(`${argument} must be a whole number up to ${MOST}, got ${show(tests)}`);
}

/** Chance to be right at least so often by guessing alone. */
export function chanceOfAtLeast(correct: number, tests: number): number {
  // Of 3^tests ways to answer, those with k right are C(tests, k) 2^(tests - k).
  let ways = 1n;
  let enough = 0n;
  for (let right = tests; right >= correct; right--) {
    enough += ways * 2n ** BigInt(tests - right);
    ways = (ways * BigInt(right)) / BigInt(tests - right + 1);
  }
  return ratio(enough, 3n ** BigInt(tests));
}

/** A quotient of whole numbers too long for Number, to 17 digits. */
function ratio(part: bigint, whole: bigint): number {
  const scale = 10n ** 340n;
  const digits = ((part * scale) / whole).toString();
  return Number(`${digits.slice(0, 20)}e${digits.length - Math.min(20, digits.length) - 340}`);
}
