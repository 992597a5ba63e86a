/** Ranges whose cells may be numbers or words, such as the limits on a certificate. */
import { BlankError, CalcError, positiveShare, squeeze } from "./errors";

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

/** Yes or no, as a word, as 1 or 0, or as TRUE or FALSE. A blank is no. */
export function yesOrNo(name: string, cell: Cell): boolean {
  if (isBlank(cell)) return false;
  const word = squeeze(String(cell));
  if (["yes", "1", "true"].includes(word)) return true;
  if (["no", "false"].includes(word)) return false;
  throw new CalcError(`${name} must be yes or no, got "${cell}"`);
}
