/** The expressions of @needs and @working lines as trees, in the language of mathjs. */
import {
  type MathNode,
  OperatorNode,
  isConstantNode,
  isFunctionNode,
  isOperatorNode,
  isParenthesisNode,
  isSymbolNode,
  parse,
} from "mathjs";
import type { Constant } from "../formula/tree.ts";

/**
 * An expression as a tree, the same for all ways to write it: without brackets, and with a constant
 * behind what it is compared with, so that 0 < volume is volume > 0.
 */
export function read(expression: string): MathNode {
  const known = trees.get(expression);
  if (known) return known;
  const tree = plain(parse(expression));
  trees.set(expression, tree);
  return tree;
}

/** Those that were read: a large workbook asks for the same few again and again. */
const trees = new Map<string, MathNode>();

function plain(node: MathNode): MathNode {
  return isParenthesisNode(node) ? plain(node.content) : constantLast(node.map(plain));
}

/** Each comparison with its sides changed over. */
const MIRRORED = {
  equal: ["equal", "=="],
  unequal: ["unequal", "!="],
  smaller: ["larger", ">"],
  smallerEq: ["largerEq", ">="],
  larger: ["smaller", "<"],
  largerEq: ["smallerEq", "<="],
} as const;

function constantLast(node: MathNode): MathNode {
  if (!isOperatorNode(node) || !isComparison(node.fn)) return node;
  const [left, right] = node.args;
  if (!left || !right || !isFixed(left) || isFixed(right)) return node;
  const [fn, sign] = MIRRORED[node.fn];
  return new OperatorNode(sign, fn, [right, left]);
}

function isComparison(fn: string): fn is keyof typeof MIRRORED {
  return fn in MIRRORED;
}

/** True where no name is in it. */
function isFixed(node: MathNode): boolean {
  return node.filter((part) => isSymbolNode(part)).length === 0;
}

/** A number or a text that stands in an expression. */
export function constantIn(node: MathNode): Constant | undefined {
  // The library's type knows numbers alone.
  return isConstantNode(node) ? node.value : undefined;
}

export function nameIn(node: MathNode | undefined): string | undefined {
  return isSymbolNode(node) ? node.name : undefined;
}

/** What an expression says to be above zero; undefined where it says something else. */
export function aboveZero(node: MathNode): MathNode | undefined {
  if (!isOperatorNode(node) || node.fn !== "larger") return undefined;
  const [what, limit] = node.args;
  return limit && constantIn(limit) === 0 ? what : undefined;
}

/** The parts of an expression that must all hold. */
export function partsOf(node: MathNode): MathNode[] {
  return isOperatorNode(node) && node.fn === "and" ? node.args.flatMap(partsOf) : [node];
}

/** The name that an expression calls a function of; undefined for any other expression. */
export function calledOn(node: MathNode | undefined, functionName: string): string | undefined {
  return isFunctionNode(node) && node.fn.name === functionName ? nameIn(node.args[0]) : undefined;
}

/** What an expression denies. */
export function denied(node: MathNode): MathNode | undefined {
  return isOperatorNode(node) && node.fn === "not" ? node.args[0] : undefined;
}

/** True where a function is called anywhere in an expression. */
export function callsAnywhere(node: MathNode, functionName: string): boolean {
  return node.filter((part) => isFunctionNode(part) && part.fn.name === functionName).length > 0;
}
