/**
 * Whether the goods of an order reach the sum from which they travel free.
 *
 * 2.6 x 4 and 13.2 x 3 are 50, but 49.99999999999999 in binary fractions. So sums of money are
 * compared in whole millionths, which is far finer than the cent, the mill, or a unit price of four
 * decimals, and far coarser than such a hair for sums up to 100 million. A copy says the same as
 * ROUND(sum, 6).
 */
import { unitsFor } from "./whole-numbers.ts";

const MILLIONTHS = 1e6;

/** True where goods of that sum travel free. From zero on means never. */
export function travelsFree(goods: number, freeover: number): boolean {
  return freeover > 0 && millionths(goods) >= millionths(freeover);
}

/** The least whole number of units, such as cents, that travels free; 0 where none does. */
export function leastFree(freeover: number, unit: number): number {
  if (freeover <= 0) return 0;
  // Half a millionth less still rounds up to it.
  return Math.max(1, unitsFor((millionths(freeover) - 0.5) / MILLIONTHS, unit));
}

function millionths(money: number): number {
  return Math.round(money * MILLIONTHS);
}
