/** References in expressions, made to mean the same wherever they stand. */
import { parseA1Ref, parseStructRef, stringifyA1Ref } from "@borgar/fx/xlsx";
import { type Node, childrenOf, readFormula, writeFormula } from "./reader";

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

/** The cells of a table's own row that an expression reads: Packs[@Price]; the table may go without saying. */
export function thisRow(expression: string): { text: string; table: string; column: string }[] {
  return structured(readFormula(expression)).flatMap((text) => {
    const found = parseStructRef(text);
    const isRow = (found?.sections as string[] | undefined)?.includes("this row");
    const [column] = found?.columns ?? [];
    return found && isRow && column ? [{ text, table: found.table ?? "", column }] : [];
  });
}

function structured(node: Node): string[] {
  if (node.type === "ReferenceIdentifier") return node.kind === "table" ? [node.value] : [];
  return childrenOf(node).flatMap((child) => (child ? structured(child) : []));
}

/** An expression with every cell held in place and on its sheet; some references as cells of it. */
export function absoluteAll(
  expression: string,
  sheet: string,
  cells: ReadonlyMap<string, string>,
): string {
  return writeFormula(readFormula(expression), (node) => {
    if (node.type !== "ReferenceIdentifier") return null;
    const text = cells.get(node.value) ?? node.value;
    const found = parseA1Ref(text);
    if (!found || !("range" in found)) return null;
    const range = { ...found.range, $top: true, $left: true, $bottom: true, $right: true };
    return {
      text: stringifyA1Ref({ ...found, sheetName: found.sheetName || sheet, range }),
      rank: 9,
    };
  });
}
