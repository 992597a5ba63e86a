/** Formulas read as trees, with @borgar/fx. */
import {
  type AstExpression,
  type Identifier,
  type ReferenceIdentifier,
  type Token,
  parse,
  tokenize,
} from "@borgar/fx/xlsx";
import { at } from "../../src/lists.ts";
import { type ArgumentNode, type Call, type Node, calleeOf, withChildren } from "./tree.ts";

const ARRAY_OR_TEXT = /"(?:[^"]|"")*"|\{(?:"(?:[^"]|"")*"|[^{}"])*\}/g;
const TEXT_OR_PERCENT = /"(?:[^"]|"")*"|(\d+(?:\.\d+)?)%/g;

/** The formula with {5%} as {0.05}: the local sheet takes a percent in an array, Excel does not. */
export function plainArrays(formula: string): string {
  return formula.replace(ARRAY_OR_TEXT, (part) => {
    if (part.startsWith('"')) return part;
    return part.replace(TEXT_OR_PERCENT, (text: string, percent?: string) => {
      return percent === undefined ? text : String(Number(`${percent}e-2`));
    });
  });
}

/** A formula as a tree, with or without its =. Throws where it cannot be read. */
export function readFormula(formula: string): Node {
  const plain = plainArrays(formula.replace(/^=/, ""));
  return asTree(parse(signsInArrays(tokenize(plain, { negativeNumbers: false }))));
}

/** The sign of a number in an array, as in {-1,2}, is part of it; elsewhere it is an operator: -2^2. */
function signsInArrays(tokens: Token[]): Token[] {
  let isInArray = false;
  return tokens.flatMap((token, i) => {
    if (token.value === "{" || token.value === "}") isInArray = token.value === "{";
    const [before, next] = [tokens[i - 1], tokens[i + 1]];
    if (isInArray && isSign(token) && next?.type === NUMBER) return [];
    const sign = isInArray && token.type === NUMBER && before && isSign(before);
    return sign ? [{ ...token, value: before.value.replace("+", "") + token.value }] : [token];
  });
}

const NUMBER = "number";

function isSign({ type, value }: Token): boolean {
  return type === "operator" && /^[+-]$/.test(value);
}

/** The library's tree in our types; LET and LAMBDA as the calls that a file stores. */
function asTree(node: AstExpression): Node {
  switch (node.type) {
    case "UnaryExpression":
      return { ...node, arguments: [asTree(at(node.arguments, 0))] };
    case "BinaryExpression": {
      const [left, right] = [at(node.arguments, 0), at(node.arguments, 1)];
      return { ...node, arguments: [asTree(left), asTree(right)] };
    }
    case "ArrayExpression":
      return { ...node, elements: node.elements.map((row) => row.map(asTree)) };
    case "CallExpression": {
      // The library's types leave out a LAMBDA that is called where it stands.
      const callee = node.callee as Identifier | AstExpression;
      const called = callee.type === "Identifier" ? callee : asTree(callee);
      return { type: "CallExpression", callee: called, arguments: asArguments(node.arguments) };
    }
    case "LetExpression": {
      const declared = node.declarations.flatMap(({ id, init }) => [asName(id), init]);
      return callOf("LET", [...declared, node.body]);
    }
    case "LambdaExpression":
      return callOf("LAMBDA", [...node.params.map(asName), node.body]);
  }
  return node;
}

/** An argument that was left out is null, which the library's types do not say. */
function asArguments(args: readonly (AstExpression | null)[]): ArgumentNode[] {
  return args.map((arg) => arg && asTree(arg));
}

function callOf(name: string, args: readonly (AstExpression | null)[]): Call {
  const callee: Identifier = { type: "Identifier", name };
  return { type: "CallExpression", callee, arguments: asArguments(args) };
}

function asName({ name }: Identifier): ReferenceIdentifier {
  return { type: "ReferenceIdentifier", value: name, kind: "name" };
}

/** The formula without LET: each of its names as what it stands for. */
export function withoutLets(node: Node, names: ReadonlyMap<string, Node> = new Map()): Node {
  if (node.type === "ReferenceIdentifier")
    return (node.kind === "name" && names.get(letName(node.value))) || node;
  if (node.type !== "CallExpression" || calleeOf(node) !== "LET")
    return withChildren(node, (child) => withoutLets(child, names));
  const body = node.arguments.at(-1);
  const inner = new Map(names);
  for (let i = 0; i + 1 < node.arguments.length; i += 2) {
    const [name, value] = node.arguments.slice(i, i + 2);
    if (name?.type === "ReferenceIdentifier" && value)
      inner.set(letName(name.value), withoutLets(value, inner));
  }
  return body ? withoutLets(body, inner) : node;
}

function letName(name: string): string {
  return name.replace(/^_xlpm\./i, "").toLowerCase();
}
