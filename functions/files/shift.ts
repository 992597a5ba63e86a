/** Rows or columns put in or taken out of a sheet: where places, ranges and formulas then are. */
import { MAX_COLS, MAX_ROWS, stringifyA1Ref, tokenize } from "@borgar/fx/xlsx";
import { rangeIn } from "../formula/references.ts";
import { inQuotes } from "../formula/sheet-names.ts";

export interface Edit {
  /** The name of the sheet. */
  sheet: string;
  dimension: "row" | "column";
  /** Put in before this one, from zero; or those that are taken out. */
  at?: number;
  add?: number;
  remove?: number[];
}

/** The last row and column that a sheet has, from zero. */
const FOOT = { row: MAX_ROWS, column: MAX_COLS };

/**
 * Where a row or a column is after an edit; null where it is gone. The last of all is pushed
 * nowhere.
 */
export function shiftIndex(index: number, edit: Edit): number | null {
  const { at = 0, add = 0, remove } = edit;
  if (remove)
    return remove.includes(index) ? null : index - remove.filter((each) => each < index).length;
  const foot = FOOT[edit.dimension];
  if (index < at || index === foot) return index;
  return index + add < foot ? index + add : null;
}

/** Where a stretch of them is; null where all of it is gone. */
export function shiftStretch(first: number, last: number, edit: Edit): [number, number] | null {
  const { remove } = edit;
  if (!remove) {
    const foot = FOOT[edit.dimension];
    const [start, end] = [shiftIndex(first, edit), shiftIndex(last, edit) ?? foot];
    if (start !== null) return [start, end];
    return last === foot ? [foot, foot] : null;
  }
  const below = (index: number) => remove.filter((each) => each < index).length;
  const from = first - below(first);
  const to = last - below(last + 1);
  return to < from ? null : [from, to];
}

/** A range, A1:B3 or C2, after an edit of its sheet; null where it is gone. */
export function shiftRange(range: string, edit: Edit): string | null {
  const found = rangeIn(range);
  if (!found) return range;
  const { top, left, bottom, right } = found.range;
  const [first, last] = edit.dimension === "row" ? [top, bottom] : [left, right];
  if (typeof first !== "number" || typeof last !== "number") return range;
  const moved = shiftStretch(first, last, edit);
  if (!moved) return null;
  const [from, to] = moved;
  if (from === first && to === last) return range;
  const placed =
    edit.dimension === "row"
      ? { ...found.range, top: from, bottom: to }
      : { ...found.range, left: from, right: to };
  return stringifyA1Ref({ ...found, range: placed });
}

/** A list of ranges after an edit: those that are left. */
export function shiftRanges(ranges: string, edit: Edit): string {
  const moved = ranges.split(/\s+/).map((range) => shiftRange(range, edit));
  return moved.flatMap((range) => (range === null ? [] : [byCells(range)])).join(" ");
}

/**
 * Whole columns and rows, B:C and 2:3, by their first and last cells, as places on a sheet are
 * written.
 */
function byCells(range: string): string {
  return range
    .replace(/^([A-Z]+):([A-Z]+)$/, "$11:$21048576")
    .replace(/^(\d+):(\d+)$/, "A$1:XFD$2");
}

/**
 * A formula whose ranges end where a sheet ends: those of the local sheet's engine may reach
 * further.
 */
export function withinSheet(formula: string): string {
  if (!formula.includes(":") || !/\d{7}|[A-Z]{3}\$?\d/.test(formula)) return formula;
  const parts = formula.split('"');
  // Every second part stands inside quotes.
  return parts.map((part, i) => (i % 2 ? part : part.replace(LAST_CORNER, ended))).join('"');
}

const LAST_CORNER = /(?<=:\$?)([A-Z]{1,3})(\$?)(\d+)(?![\w.(])/g;

function ended(_: string, letters: string, hold: string, digits: string): string {
  const column = letters.length === 3 && letters > "XFD" ? "XFD" : letters;
  return column + hold + String(Math.min(Number(digits), MAX_ROWS + 1));
}

/** A formula that stands on a sheet, after an edit of that sheet or of another. */
export function shiftFormula(formula: string, own: string, edit: Edit): string {
  return mapReferences(formula, (reference) => {
    const found = rangeIn(reference);
    if (!found || found.workbookName) return reference;
    const sheet = found.sheetName || own;
    if (sheet.toLowerCase() !== edit.sheet.toLowerCase()) return reference;
    return shiftRange(reference, edit) ?? "#REF!";
  });
}

/** A formula after a sheet got another name. */
export function renameInFormula(formula: string, from: string, to: string): string {
  return mapReferences(formula, (reference) => {
    const cut = reference.lastIndexOf("!");
    if (cut < 0) return reference;
    const sheet = reference.slice(0, cut).replace(/^'|'$/g, "").replaceAll("''", "'");
    return sheet.toLowerCase() === from.toLowerCase()
      ? `${inQuotes(to)}!${reference.slice(cut + 1)}`
      : reference;
  });
}

/** The references of a formula to cells of its workbook. */
export function referencesIn(formula: string) {
  return tokenize(formula, { negativeNumbers: false }).flatMap(({ type, value }) => {
    const found = /^range/.test(type) ? rangeIn(value) : null;
    return found && !found.workbookName ? [found] : [];
  });
}

function mapReferences(formula: string, change: (reference: string) => string): string {
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) => (/^range/.test(type) ? change(value) : value))
    .join("");
}
