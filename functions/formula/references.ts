/** References in expressions, made to mean the same wherever they stand. */
import { parseA1Ref, stringifyA1Ref } from "@borgar/fx/xlsx";
import { RANK } from "./precedence";
import { readFormula } from "./reader";
import { writeFormula } from "./writer";

/** True for a range or a cell and nothing else: A1, Sheet1!A1:B3, A:A. */
export function isRange(expression: string): boolean {
  const found = parseA1Ref(expression);
  return found !== undefined && "range" in found && !found.workbookName;
}

/** A range as its sheet and its address on it. */
export function absolute(expression: string, sheet: string): { sheet: string; address: string } {
  const found = parseA1Ref(expression);
  if (!found || !("range" in found)) throw new Error(`${expression} is no range`);
  const address = stringifyA1Ref({ ...found, sheetName: "" });
  return { sheet: found.sheetName || sheet, address: address.replaceAll("$", "") };
}

/** An expression with every cell held in place and on its sheet. */
export function absoluteAll(expression: string, sheet: string): string {
  return writeFormula(readFormula(expression), (node) => {
    if (node.type !== "ReferenceIdentifier") return null;
    const found = parseA1Ref(node.value);
    if (!found || !("range" in found)) return null;
    const range = { ...found.range, $top: true, $left: true, $bottom: true, $right: true };
    return {
      text: stringifyA1Ref({ ...found, sheetName: found.sheetName || sheet, range }),
      rank: RANK.atom,
    };
  });
}
