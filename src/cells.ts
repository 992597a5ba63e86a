/** Ranges whose cells may be numbers or words, such as the limits on a certificate. */
import { BlankError, CalcError, positiveShare, showShare, squeeze } from "./errors.ts";
import { cellsOf } from "./lists.ts";

/** A number or a word; a blank cell is an empty word. */
export type Cell = number | string;

/** A range of them. */
export type Cells = Cell[][];

/** True for a cell with nothing in it; a zero is alike. */
export function isBlank(cell: Cell): boolean {
  return cell === 0 || squeeze(String(cell)) === "";
}

/**
 * A limit as certificates print it: a percent, "not limited", which is 100 %, or "not approved" or
 * "none", which is nothing at all. A blank is neither.
 */
export function limitOf(name: string, cell: Cell): number {
  if (isBlank(cell))
    throw new BlankError(name, 'blank: type a percent, "not limited" or "not approved"');
  if (typeof cell === "number") return positiveShare(name, cell);
  const word = squeeze(cell);
  if (word === "notlimited") return 1;
  if (word === "notapproved" || word === "none") return 0;
  const percent = /^(\d+(?:\.\d+)?)%$/.exec(word);
  if (percent) return positiveShare(name, Number(`${percent[1]}e-2`));
  throw new CalcError(`${name} must be a percent, "not limited" or "not approved", got "${cell}"`);
}

/** From here on a limit is said in words: most are below 1 %, and .98 for 0.98 % is 98 %. */
const LARGE = 0.5;

/**
 * The limits that were typed as large numbers, as they are read: "cell 2: limit 98 %". It is for a
 * reader, who knows what the certificate says; no number comes of it.
 */
export function largeLimits(argument: string, limits: Cells): string {
  const said = cellsOf(argument, limits).flatMap(({ cell }, i) =>
    typeof cell === "number" && cell > LARGE ? [`cell ${i + 1}: limit ${showShare(cell)}`] : [],
  );
  return said.length > 0 ? said.join("; ") : `none is above ${showShare(LARGE)}`;
}

/**
 * Yes or no, as a word, as 1, or as TRUE or FALSE. A blank is neither, nor a 0, which may be a
 * blank.
 */
export function yesOrNo(name: string, cell: Cell): boolean {
  if (isBlank(cell)) throw new BlankError(name, "blank: type yes or no");
  const word = squeeze(String(cell));
  if (["yes", "1", "true"].includes(word)) return true;
  if (["no", "false"].includes(word)) return false;
  throw new CalcError(`${name} must be yes or no, got "${cell}"`);
}

/** Yes or no for each line. One that the product has nothing of may leave it blank. */
export function flagsOf(
  argument: string,
  range: Cells,
  isUsed: (line: number) => boolean,
): boolean[] {
  return cellsOf(argument, range).map(
    ({ cell }, i) => isUsed(i) && yesOrNo(`line ${i + 1} of ${argument}`, cell),
  );
}
