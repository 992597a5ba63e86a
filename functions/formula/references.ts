/** Ranges in formulas, and references made to mean the same wherever they stand. */
import {
  MAX_COLS,
  MAX_ROWS,
  type ReferenceA1Xlsx,
  parseA1Ref,
  stringifyA1Ref,
} from "@borgar/fx/xlsx";
import { RANK } from "./precedence.ts";
import { readFormula } from "./reader.ts";
import { writeFormula } from "./writer.ts";

/** A cell, cells, whole columns or whole rows: A1, Sheet1!A1:B3, A:A, 2:3. */
export type Range = ReferenceA1Xlsx;

/** The range that a text is; null for a name, and for anything that is more than a range. */
export function rangeIn(text: string): Range | null {
  const found = parseA1Ref(text);
  return found && "range" in found ? found : null;
}

/** The first and last row and column of a range; whole columns end where a sheet does. */
export function edgesOf({ range: { top, left, bottom, right } }: Range) {
  return { top: top ?? 0, left: left ?? 0, bottom: bottom ?? MAX_ROWS, right: right ?? MAX_COLS };
}

/** True for whole columns and whole rows. */
export function isWhole({ range: { top, left } }: Range): boolean {
  return top === null || left === null;
}

/** True for a range of this workbook and nothing else. */
export function isRange(expression: string): boolean {
  const found = rangeIn(expression);
  return found !== null && !found.workbookName;
}

/** A range as its sheet and its address on it. */
export function absolute(expression: string, sheet: string): { sheet: string; address: string } {
  const found = rangeIn(expression);
  if (!found) throw new Error(`${expression} is no range`);
  const address = stringifyA1Ref({ ...found, sheetName: "" });
  return { sheet: found.sheetName || sheet, address: address.replaceAll("$", "") };
}

/** An expression with every cell held in place and on its sheet. */
export function absoluteAll(expression: string, sheet: string): string {
  return writeFormula(readFormula(expression), (node) => {
    const found = node.type === "ReferenceIdentifier" ? rangeIn(node.value) : null;
    if (!found) return null;
    const range = { ...found.range, $top: true, $left: true, $bottom: true, $right: true };
    const text = stringifyA1Ref({ ...found, sheetName: found.sheetName || sheet, range });
    return { text, rank: RANK.atom };
  });
}
