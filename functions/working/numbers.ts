/** An expression with the call's own numbers in it, and their units. */
import {
  type FunctionNode,
  type MathNode,
  isConstantNode,
  isFunctionNode,
  isOperatorNode,
  isSymbolNode,
} from "mathjs";
import { unitOf } from "../../src/units.ts";
import { type Measure, unitShown } from "./measures.ts";
import { phrase, written } from "./written.ts";

/** What an expression is told with. */
export interface Numbers {
  scope: Readonly<Record<string, unknown>>;
  measureOf: (name: string) => Measure;
  isShare: (name: string) => boolean;
  shown: (value: unknown, measure: Measure) => string;
}

/** Functions of single numbers that are told with their arguments. */
const TOLD = new Set(["ceil", "exp", "max", "min", "round", "sqrt", "down"]);

const NUMBER: Measure = { kind: "number" };

/** Undefined where there are no numbers to see: of a list, a search, or a name alone. */
export function inNumbers(node: MathNode, numbers: Numbers): string | undefined {
  const isCall = isFunctionNode(node) && isToldWithArguments(node, numbers);
  if (!isOperatorNode(node) && !isCall) return undefined;
  if (typeof valueOf(node, numbers) !== "number" || hasList(node, numbers)) return undefined;
  return told(withoutOnes(node, numbers), numbers);
}

/** Grams are grams: 8 g times 1 g per g is 8 g. */
function withoutOnes(node: MathNode, numbers: Numbers): MathNode {
  const bare = node.map((part) => withoutOnes(part, numbers));
  if (!isOperatorNode(bare)) return bare;
  const [first, second] = bare.args;
  const isOne =
    isFunctionNode(second) && second.fn.name === "per" && valueOf(second, numbers) === 1;
  return first && isOne ? first : bare;
}

function told(node: MathNode, numbers: Numbers): string {
  const { scope, measureOf, isShare, shown } = numbers;
  return written(node, isShare, (part) => {
    if (isConstantNode(part)) return shown(part.value, NUMBER);
    if (isFunctionNode(part)) return called(part, numbers);
    if (!isSymbolNode(part)) return undefined;
    const value = scope[part.name];
    const text = shown(value, measureOf(part.name));
    return typeof value === "number" && value < 0 ? `(${text})` : text;
  });
}

function called(node: FunctionNode, numbers: Numbers): string {
  // mathjs's types leave out that a function is called by a name.
  const { name } = node.fn as { name: string };
  const value = valueOf(node, numbers);
  if (name === "per") return sizeOfUnit(value, valueOf(node.args[0], numbers), numbers);
  if (isToldWithArguments(node, numbers))
    return phrase(
      name,
      node.args.map((arg) => told(arg, numbers)),
    );
  // A sum is measured as what is added up.
  const [first] = node.args;
  return numbers.shown(value, isSymbolNode(first) ? numbers.measureOf(first.name) : NUMBER);
}

/** 29.5735 mL per fl oz */
function sizeOfUnit(size: unknown, unit: unknown, { shown }: Numbers): string {
  const { measures } = unitOf("unit", String(unit));
  const base = measures === "weight" ? "g" : "mL";
  return shown(size, { kind: "number", unit: base, per: unitShown(unit) });
}

function isToldWithArguments({ fn, args }: FunctionNode, numbers: Numbers): boolean {
  return TOLD.has(fn.name) && !args.some((arg) => Array.isArray(valueOf(arg, numbers)));
}

/** True where a list stands in it that is not made one number. */
function hasList(node: MathNode, numbers: Numbers): boolean {
  if (isSymbolNode(node)) return Array.isArray(numbers.scope[node.name]);
  if (isFunctionNode(node)) return Array.isArray(valueOf(node, numbers));
  let found = false;
  node.forEach((part) => (found ||= hasList(part, numbers)));
  return found;
}

function valueOf(node: MathNode | undefined, { scope }: Numbers): unknown {
  return node?.compile().evaluate({ ...scope });
}
