/** Rows or columns put in or taken out of a sheet: where places, ranges and formulas then are. */
import { stringifyA1Ref, tokenize } from "@borgar/fx/xlsx";
import { rangeIn } from "../formula/references";

export interface Edit {
  /** The name of the sheet. */
  sheet: string;
  dimension: "row" | "column";
  /** Put in before this one, from zero; or those that are taken out. */
  at?: number;
  add?: number;
  remove?: number[];
}

/** Where a row or a column is after an edit; null where it is gone. */
export function shiftIndex(index: number, { at = 0, add = 0, remove }: Edit): number | null {
  if (!remove) return index >= at ? index + add : index;
  return remove.includes(index) ? null : index - remove.filter((each) => each < index).length;
}

/** Where a stretch of them is; null where all of it is gone. */
export function shiftStretch(first: number, last: number, edit: Edit): [number, number] | null {
  if (!edit.remove) return [shiftIndex(first, edit) as number, shiftIndex(last, edit) as number];
  const below = (index: number) => edit.remove?.filter((each) => each < index).length ?? 0;
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
  const placed =
    edit.dimension === "row"
      ? { ...found.range, top: from, bottom: to }
      : { ...found.range, left: from, right: to };
  return stringifyA1Ref({ ...found, range: placed });
}

/** A list of ranges after an edit: those that are left. */
export function shiftRanges(ranges: string, edit: Edit): string {
  const moved = ranges.split(/\s+/).map((range) => shiftRange(range, edit));
  return moved.filter((range) => range !== null).join(" ");
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
      ? `'${to.replaceAll("'", "''")}'!${reference.slice(cut + 1)}`
      : reference;
  });
}

function mapReferences(formula: string, change: (reference: string) => string): string {
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) => (/^range/.test(type) ? change(value) : value))
    .join("");
}
