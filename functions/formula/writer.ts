/** Trees written as formulas, and our functions by the names that are typed or stored. */
import { type BinaryOperator, tokenize } from "@borgar/fx/xlsx";
import { NAMESPACE } from "../catalog/entry";
import { RANK, RANKS } from "../native/piece";
import { functionNamed } from "./ours";
import { plainArrays } from "./reader";
import type { Argument, Node } from "./tree";

/** How strongly each operator binds: as in native formulas; a range most, a union least. */
const NODE_RANKS: Record<BinaryOperator, number> = { ...RANKS, ",": 0, " ": 8, ":": 8 };

export function rankOf(node: Node): number {
  if (node.type === "BinaryExpression") return NODE_RANKS[node.operator];
  if (node.type === "UnaryExpression") return node.operator === "%" ? RANK.percent : RANK.sign;
  return RANK.atom;
}

/** What a node may be written as instead of its own text. */
export type Substitute = (node: Node) => { text: string; rank: number } | null;

/** A tree as a formula without its =; nodes may be written as something else. */
export function writeFormula(node: Node, substitute: Substitute = () => null): string {
  const write = (child: Argument, least = 0): string => {
    if (child === null) return "";
    const instead = substitute(child);
    const text = instead ? instead.text : plain(child);
    return (instead?.rank ?? rankOf(child)) < least ? `(${text})` : text;
  };
  const plain = (each: Node): string => {
    const rank = rankOf(each);
    switch (each.type) {
      case "Literal":
      case "ErrorLiteral":
        return each.raw;
      case "ReferenceIdentifier":
        return each.value;
      case "UnaryExpression": {
        const inner = write(each.arguments[0], rank);
        const isAfter = each.operator === "%" || each.operator === "#";
        return isAfter ? inner + each.operator : each.operator + inner;
      }
      case "BinaryExpression": {
        const [left, right] = each.arguments;
        return write(left, rank) + each.operator + write(right, rank + 1);
      }
      case "CallExpression": {
        const { callee } = each;
        const name = callee.type === "Identifier" ? callee.name : write(callee, RANK.atom);
        return `${name}(${each.arguments.map((arg) => write(arg, 1)).join(",")})`;
      }
      case "ArrayExpression":
        return `{${each.elements.map((row) => row.map((cell) => write(cell)).join(",")).join(";")}}`;
    }
  };
  return write(node);
}

/** The formula with our functions by the names that are typed, and nothing else changed. */
export function retypedFormula(formula: string): string {
  return renamed(formula, (id) => `${NAMESPACE}.${id}`);
}

/** The formula as Excel stores it. */
export function storedFormula(formula: string): string {
  return renamed(plainArrays(formula), (id) => `_xldudf_${NAMESPACE}_${id}`);
}

function renamed(formula: string, nameOf: (id: string) => string): string {
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) => {
      const entry = type === "func" ? functionNamed(value) : null;
      return entry ? nameOf(entry.id) : value;
    })
    .join("");
}

/** A formula as a person types it: our own names, no prefixes of the file. */
export function typedFormula(tree: Node): string {
  const typed = retypedFormula(writeFormula(tree));
  return `=${typed.replace(/_xlfn\.(_xlws\.)?|_xlpm\./g, "")}`;
}
