/**
 * A formula that a file does not store as one for several cells: of a range that it reckons with, Excel takes the
 * cell in its own row or column (ECMA-376 part 1, 18.17.2.7, implicit intersection). Ranges within calls are left
 * to the functions.
 */
import { cellName, readCellName } from "../formula/addresses.ts";
import { RANK } from "../formula/precedence.ts";
import { readFormula } from "../formula/reader.ts";
import { rangeIn } from "../formula/references.ts";
import type { Node } from "../formula/tree.ts";
import { type Written, writeFormula } from "../formula/writer.ts";

const RANGE = /[A-Z\d]:\$?[A-Z\d]/i;

/** A formula without its texts and calls, as far as that is seen at a glance: reading it takes a hundred times as long. */
function withoutCalls(formula: string): string {
  const bare = formula.replaceAll(/"[^"]*"|'[^']*'/g, "_");
  const less = bare.replaceAll(/[\w.]\([^()]*\)/g, "_");
  return less === bare ? bare : withoutCalls(less);
}

export function intersected(formula: string, cell: string): string {
  if (!RANGE.test(formula) || !RANGE.test(withoutCalls(formula))) return formula;
  try {
    return writeFormula(readFormula(formula), (node) => intersection(node, cell));
  } catch {
    return formula;
  }
}

function intersection(node: Node, cell: string): Written | null {
  if (node.type === "CallExpression" || node.type === "ArrayExpression")
    return { text: writeFormula(node), rank: RANK.atom };
  const found = node.type === "ReferenceIdentifier" ? rangeIn(node.value) : null;
  if (!found) return null;
  const { row, column } = readCellName(cell);
  const { top, left, bottom, right } = found.range;
  const isColumn = left !== null && left === right && (top === null || top !== bottom);
  const isRow = top !== null && top === bottom && (left === null || left !== right);
  const isBeside = isColumn && row >= (top ?? 0) && row <= (bottom ?? Infinity);
  const isBelow = isRow && column >= (left ?? 0) && column <= (right ?? Infinity);
  if (!isBeside && !isBelow) return null;
  const sheet = node.type === "ReferenceIdentifier" ? node.value.replace(/[^!]*$/, "") : "";
  const name = isBeside ? cellName(row, left) : cellName(top ?? 0, column);
  return { text: sheet + name, rank: RANK.atom };
}
