import { CalcError, amount, positive, share, show } from "../errors.ts";
import { askedWhere, at, list, orZero, sameLength, usedIn } from "../lists.ts";
import { checkWhole } from "./whole.ts";

/** Cells that an answer may have: a whole column of ingredients for four sizes. */
const MOST_CELLS = 5_000_000;

/**
 * What to weigh of each ingredient for each bottle size.
 *
 * @remarks One row for each ingredient, one column for each size: share x fill x count. Shares that
 * sum to 100 % within 0.1 % are first divided by their sum, so that each column sums to its fills
 * exactly.
 * @customfunction SIZERUN
 * @topic load
 * @need What do I weigh for several bottle sizes?
 * @words scale up a recipe, scale down, multiply, resize, make many bottles, double the batch,
 * several sizes
 * @param shares (share) One row or column: each ingredient's share of the finished batch, together
 * 100 %; a blank is none.
 * @param fills (amount) One row or column: what goes into one bottle of each size, in any unit of
 * weight.
 * @param [counts] (count) One row or column as long as fills: whole bottles of each size (default 1
 * of each); 0 where none are filled.
 * @returns (amount) Ingredient x size grid, in the unit of fills.
 * @throws value - shares do not sum to 100 %: the text gives their sum
 * @throws value - counts and fills are of unlike length, or a count is not whole
 * @throws value - a size that is to be filled is blank or zero, or its count is blank
 * @needs shares >= 0 and shares <= 1
 * @needs fills >= 0
 * @needs [counts given] counts >= 0 and counts == floor(counts)
 * @needs [counts given] samelength(fills, counts)
 * @needs [counts given] fills == 0 or filled(counts)
 * @needs [or blank, counts given] counts == 0 or fills > 0
 * @needs [or blank, counts not given] fills > 0
 * @needs abs(sum(shares) - 1) <= 0.001 * (1 + 1e-9)
 * @working whole (share): the sum of all shares = sum(shares)
 * @working [counts given] amounts (fills): all bottles of each size together = fills .* counts
 * @working [counts not given] amounts (fills): one bottle of each size = fills
 * @working grid (size: fills): each ingredient's share of each size = column(shares / whole) *
 * row(amounts)
 * @source By hand: mass is conserved.
 * @example SIZERUN({0.95; 0.05}, {60, 120}) // => {57, 114; 3, 6}
 * @example SIZERUN({0.95; 0.05}, {60, 120}, {10, 2}) // => {570, 228; 30, 12}
 * @example SIZERUN({0.95; 0.05}, 60, 0) // => {0; 0}
 */
export function sizeRun(shares: number[][], fills: number[][], counts?: number[][]): number[][] {
  const parts = list("shares", shares, orZero(share));
  const sizes = list("fills", fills, orZero(amount));
  // A size whose bottles are not counted is unknown; one that has neither is spare.
  const asked = askedWhere(usedIn(sizes), wholeCount);
  const bottles = counts ? list("counts", counts, asked) : sizes.map(() => 1);
  sameLength("fills", sizes, "counts", bottles);
  // A bottle that is to be filled has a size.
  list("fills", fills, (name, fill, i) => (at(bottles, i) > 0 ? positive(name, fill) : fill));
  const whole = checkWhole(parts);
  const cells = parts.length * sizes.length;
  if (cells > MOST_CELLS) {
    throw new CalcError(
      `shares and fills must be shorter: the answer would have ${show(cells)} cells`,
    );
  }
  return parts.map((part) => sizes.map((fill, i) => (part / whole) * fill * at(bottles, i)));
}

function wholeCount(argument: string, value: number): number {
  if (Number.isInteger(amount(argument, value))) return value;
  throw new CalcError(`${argument} must be a whole number of bottles, got ${show(value)}`);
}
