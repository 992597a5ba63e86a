/**
 * Errors that a cell can show, and the guards that raise them.
 *
 * Only CalcError leaves src. Its text says which argument, the limit, and what came:
 * `load must be from 0 % to 100 %, got 500 %: type 5 %`.
 */
export class CalcError extends Error {
  override name = "CalcError";
}

/**
 * An input that must be filled and is not. A line with nothing on it at all shows blank instead.
 */
export class BlankError extends CalcError {
  override name = "BlankError";
  constructor(argument: string, what = "blank or zero") {
    super(`${argument} is ${what}`);
  }
}

/** A number as a person reads it: 12 digits at most, so 0.1 + 0.2 reads 0.3. */
export function show(value: number): string {
  // As far as numbers reach; a share of more comes here a hundred times as large.
  if (Math.abs(value) === Infinity) return value > 0 ? "over 1.79e308" : "under -1.79e308";
  return String(Number(value.toPrecision(12)));
}

/** A share as a person reads it: 0.05 reads 5 %. */
export function showShare(value: number): string {
  return `${show(value * 100)} %`;
}

/** How a cell with nothing in it reaches a function that asks for a number: unknown, never zero. */
export const BLANK = Number.NaN;

/** True for a number that was left blank. */
export function isBlankNumber(value: number): boolean {
  return Number.isNaN(value);
}

/** Any ordinary number: not text, not infinite. A blank is none. */
export function number(argument: string, value: number): number {
  if (isBlankNumber(value)) throw new BlankError(argument, "blank");
  if (typeof value !== "number" || !Number.isFinite(value)) {
    throw new CalcError(`${argument} must be a number, got ${String(value)}`);
  }
  return value;
}

/** Zero or more: a weight, a volume, money, a number of drops. */
export function amount(argument: string, value: number): number {
  if (number(argument, value) < 0) {
    throw new CalcError(`${argument} must be zero or more, got ${show(value)}`);
  }
  return value;
}

/** More than zero: a price, a pack size, a density. A blank never passes for a number here. */
export function positive(argument: string, value: number): number {
  if (amount(argument, value) === 0) throw new BlankError(argument);
  return value;
}

/**
 * A fraction shown as percent, 0 to 1. 5 in place of 5 % is refused, and the text says what to
 * type.
 */
export function share(argument: string, value: number): number {
  if (number(argument, value) >= 0 && value <= 1) return value;
  const mend = value > 1 && value <= 100 ? `: type ${show(value)} %` : "";
  throw new CalcError(`${argument} must be from 0 % to 100 %, got ${showShare(value)}${mend}`);
}

/** A share that cannot be zero. */
export function positiveShare(argument: string, value: number): number {
  if (share(argument, value) === 0) throw new BlankError(argument);
  return value;
}

/** What is left of a whole once a share of it, below 100 %, is taken off. */
export function rest(argument: string, value: number): number {
  if (share(argument, value) < 1) return 1 - value;
  throw new CalcError(`${argument} must be below 100 %, got 100 %`);
}

/** A whole number above zero: of readings, of strokes. */
export function whole(argument: string, value: number): number {
  if (Number.isInteger(positive(argument, value))) return value;
  throw new CalcError(`${argument} must be a whole number, got ${show(value)}`);
}

/** The most that a density can be, g/mL: above all that goes into a spray or a candle. */
const DENSEST = 3;

/**
 * Grams per millilitre. 8.5 is pounds per US gallon, of which 3785.411784 / 453.59237 are 1 g/mL,
 * and 850 kilograms per cubic metre: both are refused.
 */
export function density(argument: string, value: number): number {
  if (positive(argument, value) <= DENSEST) return value;
  throw new CalcError(
    `${argument} must be from 0 to ${DENSEST} g/mL, got ${show(value)}: ` +
      `pounds per US gallon are 8.345 times g/mL, kg per cubic metre 1000 times`,
  );
}

/** A word from a short list, case and spaces ignored. */
export function choice<T extends string>(argument: string, value: string, words: readonly T[]): T {
  const asWritten = words.find((word) => word === value);
  if (asWritten !== undefined) return asWritten;
  const key = squeeze(value);
  if (key === "") throw new BlankError(argument, "blank");
  const found = words.find((word) => squeeze(word) === key);
  if (found !== undefined) return found;
  const list = words.map((word) => `"${word}"`).join(" or ");
  throw new CalcError(`${argument} must be ${list}, got "${value}"`);
}

/** Text without case and spaces, for comparing words. */
export function squeeze(text: string | number | null | undefined): string {
  return String(text ?? "")
    .replace(/\s+/g, "")
    .toLowerCase();
}
