/** Cells as Excel takes them in a sum or a comparison. */
import { type CellValue, type Fault, type Grid, isFault } from "../../functions/bind/cell.ts";

/** Thrown where it cannot be told here what an expression gives. */
export class Untold extends Error {}

export function fault(code: string): Fault {
  return { fault: code };
}

/** A cell as a number: a blank is 0. Whether a text is one depends on the computer's language. */
export function number(value: CellValue): number {
  if (typeof value === "number") return value;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value === null) return 0;
  throw new Untold();
}

export function isTrue(value: CellValue): boolean {
  return number(value) !== 0;
}

/** The cell of a grid for a line: single cells, rows and columns stretch; past the end is #N/A. */
export function at(grid: Grid, row: number, column: number): CellValue {
  const cells = grid[grid.length === 1 ? 0 : row];
  const value = cells?.[cells.length === 1 ? 0 : column];
  return value === undefined ? fault("#N/A") : value;
}

/** Numbers go before texts, texts before TRUE and FALSE; capitals make no difference. */
export function sameOrLess(a: CellValue, b: CellValue): number {
  const [x, y] = [filled(a, b), filled(b, a)];
  const order = (value: CellValue) => ["number", "string", "boolean"].indexOf(typeof value);
  if (order(x) !== order(y)) return order(x) - order(y);
  if (typeof x === "string" && typeof y === "string") {
    const [p, q] = [x.toLowerCase(), y.toLowerCase()];
    if (p === q) return 0;
    // Which of two words comes first depends on the language.
    if (/^[a-z0-9 ]*$/.test(p + q)) return p < q ? -1 : 1;
    throw new Untold();
  }
  const digits = (value: CellValue) => Number(Number(value).toPrecision(15));
  return digits(x) - digits(y);
}

/** Written in another way, or with what is not seen: whether Excel takes them for the same is not sure. */
const ALIKE = new Intl.Collator("en", { sensitivity: "accent" });

/** Equal, as = has it. */
export function isSame(a: CellValue, b: CellValue): boolean {
  const [x, y] = [filled(a, b), filled(b, a)];
  if (typeof x !== typeof y) return false;
  if (typeof x !== "string" || typeof y !== "string") return sameOrLess(x, y) === 0;
  const [p, q] = [x.toLowerCase(), y.toLowerCase()];
  if (p !== q && ALIKE.compare(p, q) === 0) throw new Untold();
  return p === q;
}

/** A cell as a text. A whole number reads alike in every language; others may have a comma or a point. */
export function text(value: CellValue): string {
  if (value === null) return "";
  if (typeof value === "string") return value;
  if (typeof value === "number" && Number.isInteger(value) && Math.abs(value) < 1e11)
    return String(value);
  throw new Untold();
}

/** A blank beside a text is an empty text, beside anything else nothing. */
function filled(value: CellValue, other: CellValue): CellValue {
  if (value !== null) return value;
  if (typeof other === "string") return "";
  return typeof other === "boolean" ? false : 0;
}

/** An answer that a cell can hold. */
export function tidy(value: CellValue): CellValue {
  if (isFault(value) || typeof value !== "number") return value;
  if (!Number.isFinite(value)) return fault("#NUM!");
  return value === 0 ? 0 : value;
}
