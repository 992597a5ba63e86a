/**
 * Formulas that differ only in the cells that they read, as those of a filled column do: one is
 * worked on, and what became of it is told of all, each with its own cells.
 */
import { tokenize } from "@borgar/fx/xlsx";
import { sizeOfRange } from "./native-formula.ts";

/** A formula without its cells: equal for all that become the same but for them. */
export interface Pattern {
  key: string;
  /** The ranges as they stand in the formula, each once. */
  ranges: string[];
}

/** A formula with gaps for its ranges: texts, and the places of ranges in a pattern's list. */
export type Gapped = readonly (string | number)[];

/** No formula holds it, as no XML does. */
const MARK = "\u0000";

/**
 * The pattern of a formula. What else there is to know of a reference, beside its size, is told by
 * `more`.
 */
export function patternOf(formula: string, more: (reference: string) => string): Pattern {
  const ranges: string[] = [];
  const key = tokensOf(formula).map(({ type, value }) => {
    if (!isReference(type)) return value;
    if (!isRange(type)) return value + MARK + more(value);
    const size = sizeOfRange(value);
    return [MARK, placeIn(ranges, value), size?.rows, size?.columns, more(value)].join();
  });
  return { key: key.join(""), ranges };
}

/** A formula that was made from one, with gaps; null where it reads what that one does not. */
export function gapped(made: string, { ranges }: Pattern): Gapped | null {
  const parts = tokensOf(made).map(({ type, value }) =>
    isRange(type) ? ranges.indexOf(value) : value,
  );
  return parts.includes(-1) ? null : joined(parts);
}

/** The formula with its gaps filled, by the ranges of another that is alike. */
export function filled(parts: Gapped, { ranges }: Pattern): string {
  return parts.map((part) => (typeof part === "number" ? (ranges[part] ?? "") : part)).join("");
}

function tokensOf(formula: string) {
  return tokenize(formula, { negativeNumbers: false });
}

/** Cells, whole columns and rows. */
function isRange(type: string): boolean {
  return type === "range" || type === "range_beam" || type === "range_ternary";
}

function isReference(type: string): boolean {
  return isRange(type) || type === "range_named" || type === "structured";
}

function placeIn(list: string[], text: string): number {
  const place = list.indexOf(text);
  return place < 0 ? list.push(text) - 1 : place;
}

/** The texts between two ranges as one. */
function joined(parts: Gapped): Gapped {
  const found: (string | number)[] = [];
  for (const part of parts) {
    const last = found.at(-1);
    if (typeof part === "string" && typeof last === "string") found[found.length - 1] = last + part;
    else found.push(part);
  }
  return found;
}
