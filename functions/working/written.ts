/**
 * Expressions as they are written on paper: × and ÷, 100 % for the whole of a share, and words for
 * what is more than arithmetic.
 */
import {
  ConstantNode,
  type MathNode,
  SymbolNode,
  isConstantNode,
  isFunctionNode,
  isOperatorNode,
  isParenthesisNode,
  isSymbolNode,
} from "mathjs";
import { unitShown } from "./measures.ts";
import { MEANINGS } from "./meanings.ts";

/** What a part of an expression is told as; undefined where its own parts are to be told. */
export type Telling = (part: MathNode) => string | undefined;

/** A hair that an expression leaves for rounding errors is nothing to a reader. */
const HAIR = 1e-9;

const SIGNS: readonly [RegExp, string][] = [
  [/ \.?\* /g, " × "],
  [/ \.?\/ /g, " ÷ "],
  [/ - /g, " − "],
  [/ \.?\^ 2/g, "²"],
  [/ \.?\^ 3/g, "³"],
  [/ == /g, " is "],
  [/ >= /g, " ≥ "],
  [/ <= /g, " ≤ "],
];

/** Marks that no expression has: what is told stands between them until the signs are written. */
const MARKED = /\u2039(\d+)\u203a/g;

export function written(node: MathNode, isShare: (name: string) => boolean, telling: Telling) {
  const told: string[] = [];
  const tell = (part: MathNode, text: string | undefined) => {
    if (text === undefined) return part;
    told.push(text);
    return new SymbolNode(`\u2039${told.length - 1}\u203a`);
  };
  const share = (part: MathNode): boolean => {
    if (isSymbolNode(part)) return isShare(part.name);
    if (isParenthesisNode(part)) return share(part.content);
    return isOperatorNode(part) && part.fn !== "divide" && part.args.some(share);
  };
  const walked = (part: MathNode): MathNode => {
    const text = telling(part);
    if (text !== undefined) return tell(part, text);
    if (isOperatorNode(part) && /pow/i.test(part.fn)) return raised(part);
    if (isOperatorNode(part) && part.args.some(share) && isSum(part.fn))
      return part.map((arg) => (isWhole(arg) ? tell(arg, "100 %") : walked(arg)));
    return part.map(walked);
  };
  /** A power: its exponent stays a sign, and a number with its unit stands in brackets. */
  const raised = (power: MathNode): MathNode =>
    power.map((part, path) => {
      if (path === "args[1]" && isConstantNode(part)) return part;
      const text = telling(part);
      return text?.includes(" ") ? tell(part, `(${text})`) : walked(part);
    });
  const plainly = walked(withoutHairs(node)).toString({ parenthesis: "auto" });
  return SIGNS.reduce((text, [sign, on]) => text.replace(sign, on), plainly).replace(
    MARKED,
    (_, place: string) => told[Number(place)] ?? "",
  );
}

/** An expression with its names in it, and words for its calls. */
export function inNames(node: MathNode, isShare: (name: string) => boolean): string {
  return written(node, isShare, (part) => {
    if (!isFunctionNode(part)) return undefined;
    const args = part.args.map((arg) =>
      // A unit, without its quotes.
      isConstantNode(arg) && typeof arg.value === "string"
        ? (unitShown(arg.value) ?? "")
        : inNames(arg, isShare),
    );
    return phrase(part.fn.name, args);
  });
}

/** What a call gives, in words. */
export function phrase(name: string, args: readonly string[]): string {
  const words = MEANINGS[name] ?? name;
  const told = args.length > 1 ? words : words.replace(" and {1}", "");
  return told.replace(/\{(\d)\}/g, (_, place: string) => args[Number(place)] ?? "");
}

function isSum(fn: string): boolean {
  return fn === "add" || fn === "subtract";
}

function isWhole(node: MathNode): boolean {
  return isConstantNode(node) && node.value === 1;
}

function withoutHairs(node: MathNode): MathNode {
  const bare = node.map(withoutHairs);
  if (isParenthesisNode(bare) && isConstantNode(bare.content)) return bare.content;
  if (!isOperatorNode(bare)) return bare;
  const [first, second] = bare.args;
  if (!first || !second) return bare;
  if (isSum(bare.fn) && isConstantNode(second) && isHair(second)) return first;
  // What was one and a hair.
  return bare.fn === "multiply" && isWhole(second) ? first : bare;
}

function isHair({ value }: ConstantNode): boolean {
  return typeof value === "number" && value > 0 && value < HAIR;
}
