/** Shares of a recipe make a whole. */
import { CalcError, showShare } from "../errors.ts";
import { sum } from "../lists.ts";

/** How far they may sum from 100 %: room for percents rounded to two digits. */
const TOLERANCE = 0.001;

/** The sum of the shares, which must be 100 % within 0.1 %. Divide by it, and they are exact. */
export function checkWhole(shares: readonly number[]): number {
  const whole = sum(shares);
  if (Math.abs(whole - 1) <= TOLERANCE * (1 + 1e-9)) return whole;
  throw new CalcError(`shares must sum to 100 % within 0.1 %, got ${showShare(whole)}`);
}
