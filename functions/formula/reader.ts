/**
 * Formulas as trees, read with @borgar/fx: finding the calls of our functions, and writing a tree back.
 *
 * A call is typed MIST.OILFOR(...) and stored _xldudf_MIST_OILFOR(...); other programs keep the name with a
 * prefix of their own. All are known.
 */
import {
  type AstExpression,
  type CallExpression,
  type Identifier,
  parse as parseTokens,
  tokenize,
} from "@borgar/fx/xlsx";
import { catalog } from "../catalog/catalog";
import { type CatalogEntry, NAMESPACE } from "../catalog/entry";
import { RANK, RANKS } from "../native/piece";

export type Node = AstExpression;

/** An argument that was left out is null. */
export type Argument = Node | null;

const OURS = new RegExp(`^(?:_xldudf_|_xlfn\\.|_xludf\\.)*${NAMESPACE}[._]([A-Z0-9]+)$`, "i");
const MAY_BE_OURS = new RegExp(`${NAMESPACE}[._][A-Z0-9]+\\(`, "i");
const BY_ID = new Map(catalog.map((entry) => [entry.id, entry]));

/** True where a text may hold a call of ours: a quick look before it is read. */
export function mentionsUs(formula: string): boolean {
  return MAY_BE_OURS.test(formula);
}

const ARRAY_OR_TEXT = /"(?:[^"]|"")*"|\{(?:"(?:[^"]|"")*"|[^{}"])*\}/g;
const TEXT_OR_PERCENT = /"(?:[^"]|"")*"|(\d+(?:\.\d+)?)%/g;

/** The formula with {5%} as {0.05}: the local sheet takes a percent in an array, Excel and its files do not. */
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
  return asCalls(parseTokens(tokenize(plain, { negativeNumbers: false })) as Node);
}

/** LET and LAMBDA as calls like any other, as they are where a file stores them. */
function asCalls(node: Node): Node {
  const call = (name: string, parts: (Node | Identifier | null)[]): Node => {
    const args = parts.map((part) => {
      if (part?.type !== "Identifier") return part && asCalls(part);
      return { type: "ReferenceIdentifier", value: part.name, kind: "name" };
    });
    return {
      type: "CallExpression",
      callee: { type: "Identifier", name },
      arguments: args,
    } as Node;
  };
  if (node.type === "LetExpression") {
    const declared = node.declarations.flatMap(({ id, init }) => [id, init as Node | null]);
    return call("LET", [...declared, node.body as Node]);
  }
  if (node.type === "LambdaExpression") return call("LAMBDA", [...node.params, node.body as Node]);
  if (!("arguments" in node)) return node;
  const args = (node.arguments as Argument[]).map((arg) => arg && asCalls(arg));
  return { ...node, arguments: args } as Node;
}

/** The formula with the names that LET gives put back in: each as what it stands for. */
export function withoutLets(node: Node, names: ReadonlyMap<string, Node> = new Map()): Node {
  if (node.type === "ReferenceIdentifier") {
    return (node.kind === "name" && names.get(letName(node.value))) || node;
  }
  if (!("arguments" in node)) return node;
  const args = node.arguments as Argument[];
  if (node.type !== "CallExpression" || !/^(_xlfn\.)?LET$/i.test(calleeOf(node))) {
    return { ...node, arguments: args.map((arg) => arg && withoutLets(arg, names)) } as Node;
  }
  const inner = new Map(names);
  for (let i = 0; i + 1 < args.length; i += 2) {
    const [name, value] = [args[i], args[i + 1]];
    if (name?.type === "ReferenceIdentifier" && value)
      inner.set(letName(name.value), withoutLets(value, inner));
  }
  return withoutLets(args[args.length - 1] as Node, inner);
}

function letName(name: string): string {
  return name.replace(/^_xlpm\./i, "").toLowerCase();
}

/** The function that a call is of; null for any other function or node. */
export function ourFunction(node: Node): CatalogEntry | null {
  if (node.type !== "CallExpression") return null;
  const match = OURS.exec(calleeOf(node));
  return (match && BY_ID.get(match[1].toUpperCase())) ?? null;
}

/** The name of a called function, prefixes of newer functions taken off. */
export function calleeOf(node: CallExpression): string {
  const { callee } = node;
  return callee.type === "Identifier" ? callee.name : "";
}

export function childrenOf(node: Node): Argument[] {
  if (node.type === "CallExpression") return node.arguments as Argument[];
  if (node.type === "UnaryExpression" || node.type === "BinaryExpression")
    return node.arguments as Node[];
  return [];
}

/** A number, a percent or a word that is written in the formula itself. */
export function constantOf(node: Node): string | number | boolean | undefined {
  if (node.type === "Literal") return node.value;
  if (node.type !== "UnaryExpression") return undefined;
  const inner = constantOf(node.arguments[0] as Node);
  if (typeof inner !== "number") return undefined;
  if (node.operator === "%") return inner / 100;
  return node.operator === "-" ? -inner : node.operator === "+" ? inner : undefined;
}

/** A literal or a list of them, as cells; null for anything else. */
export function constantsOf(node: Node): (string | number | boolean)[][] | null {
  if (node.type !== "ArrayExpression") {
    const value = constantOf(node);
    return value === undefined ? null : [[value]];
  }
  const cells = node.elements.map((row) => row.map((cell) => constantOf(cell as Node)));
  return cells.flat().includes(undefined) ? null : (cells as (string | number | boolean)[][]);
}

/** All calls of ours in a formula, the innermost first. */
export function ourCalls(node: Node): CallExpression[] {
  const inner = childrenOf(node).flatMap((child) => (child ? ourCalls(child) : []));
  return ourFunction(node) ? [...inner, node as CallExpression] : inner;
}

/** How strongly a node's parts hold together: as in native formulas; a range most, a union least. */
const NODE_RANKS: Record<string, number> = { ...RANKS, ",": 0, " ": 8, ":": 8 };

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
    switch (each.type) {
      case "Literal":
      case "ErrorLiteral":
        return each.raw;
      case "ReferenceIdentifier":
        return each.value;
      case "UnaryExpression": {
        const [inner] = each.arguments as Node[];
        const rank = rankOf(each);
        const isAfter = each.operator === "%" || each.operator === "#";
        return isAfter ? write(inner, rank) + each.operator : each.operator + write(inner, rank);
      }
      case "BinaryExpression": {
        const [left, right] = each.arguments as Node[];
        const rank = rankOf(each);
        return write(left, rank) + each.operator + write(right, rank + 1);
      }
      case "CallExpression": {
        const inside = (each.arguments as Argument[]).map((arg) => write(arg, 1));
        const { callee } = each;
        const name =
          callee.type === "Identifier" ? callee.name : `(${write(callee as unknown as Node)})`;
        return `${name}(${inside.join(",")})`;
      }
      case "ArrayExpression":
        return `{${each.elements.map((row) => row.map((cell) => write(cell as Node)).join(",")).join(";")}}`;
    }
    throw new Error(`cannot write ${each.type}`);
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
      const id = type === "func" ? OURS.exec(value)?.[1].toUpperCase() : undefined;
      return id && BY_ID.has(id) ? nameOf(id) : value;
    })
    .join("");
}

/** A formula as a person types it: our own names, no prefixes of the file. */
export function typedFormula(tree: Node): string {
  const typed = (node: Node): string =>
    writeFormula(node, (each) => {
      const entry = ourFunction(each);
      if (!entry || each.type !== "CallExpression") return null;
      const args = (each.arguments as Argument[]).map((arg) => (arg ? typed(arg) : ""));
      return { text: `${NAMESPACE}.${entry.id}(${args.join(",")})`, rank: 9 };
    });
  return `=${typed(tree).replace(/_xlfn\.(_xlws\.)?|_xlpm\./g, "")}`;
}
