/** Trees written as formulas, and our functions by the names that are typed or stored. */
import { tokenize } from "@borgar/fx/xlsx";
import { NAMESPACE } from "../catalog/entry.ts";
import { functionNamed } from "./ours.ts";
import { RANK, rankOf } from "./precedence.ts";
import { plainArrays } from "./reader.ts";
import type { ArgumentNode, Constant, Node } from "./tree.ts";

/** A part of a formula, and how tightly it holds together (RANK). */
export interface Written {
  text: string;
  rank: number;
}

/** A value as it is typed in a formula. */
export function literal(value: Constant): Written {
  const rank = RANK.atom;
  if (typeof value === "string") return { text: `"${value.replaceAll('"', '""')}"`, rank };
  const text = String(value).toUpperCase();
  return { text, rank: text.startsWith("-") ? RANK.add : rank };
}

/** What a node may be written as instead of its own text. */
export type Substitute = (node: Node) => Written | null;

/** A tree as a formula without its =; nodes may be written as something else. */
export function writeFormula(node: Node, substitute: Substitute = () => null): string {
  const write = (child: ArgumentNode, least: number = RANK.union): string => {
    if (child === null) return "";
    const { text, rank } = substitute(child) ?? { text: plain(child), rank: rankOf(child) };
    return rank < least ? `(${text})` : text;
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
        return `${name}(${each.arguments.map((arg) => write(arg, RANK.compare)).join(",")})`;
      }
      case "ArrayExpression":
        return `{${each.elements.map((row) => row.map((each) => write(each)).join()).join(";")}}`;
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
