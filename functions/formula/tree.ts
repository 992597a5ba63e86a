/** A formula as a tree: as @borgar/fx reads it, with exact types. */
import type {
  BinaryOperator,
  ErrorLiteral,
  Identifier,
  Literal,
  ReferenceIdentifier,
  UnaryOperator,
} from "@borgar/fx/xlsx";

/** A value that is typed in a formula. */
export type Constant = string | number | boolean;

export interface ArrayConstant {
  type: "ArrayExpression";
  elements: Node[][];
}

export interface Unary {
  type: "UnaryExpression";
  operator: UnaryOperator;
  arguments: [Node];
}

export interface Binary {
  type: "BinaryExpression";
  operator: BinaryOperator;
  arguments: [Node, Node];
}

/** A call by the name of a function, or of what another call gives: LAMBDA(x,x+1)(2). */
export interface Call {
  type: "CallExpression";
  callee: Identifier | Node;
  arguments: ArgumentNode[];
}

export type Node =
  ReferenceIdentifier | Literal | ErrorLiteral | ArrayConstant | Unary | Binary | Call;

/** An argument that was left out is null. */
export type ArgumentNode = Node | null;

/** What stands within a node: its operands or arguments, and a LAMBDA that it calls. */
export function childrenOf(node: Node): ArgumentNode[] {
  if (!("arguments" in node)) return [];
  if (node.type !== "CallExpression" || node.callee.type === "Identifier") return node.arguments;
  return [node.callee, ...node.arguments];
}

/** What a formula may come to: itself, or either branch of an IF. */
export function branchesOf(node: Node): Node[] {
  if (node.type !== "CallExpression" || calleeOf(node) !== "IF") return [node];
  return node.arguments.slice(1).flatMap((branch) => (branch ? branchesOf(branch) : []));
}

/** The node with something else in place of what stands within it. */
export function withChildren(node: Node, change: (child: Node) => Node): Node {
  switch (node.type) {
    case "UnaryExpression":
      return { ...node, arguments: [change(node.arguments[0])] };
    case "BinaryExpression": {
      const [left, right] = node.arguments;
      return { ...node, arguments: [change(left), change(right)] };
    }
    case "CallExpression": {
      const callee = node.callee.type === "Identifier" ? node.callee : change(node.callee);
      return { ...node, callee, arguments: node.arguments.map((arg) => arg && change(arg)) };
    }
  }
  return node;
}

/** The name of a called function in capitals, without prefixes; "" for a call by no name. */
export function calleeOf({ callee }: Call): string {
  return callee.type === "Identifier" ? plainName(callee.name) : "";
}

/** The name of a function without what files put before newer ones and those of add-ins. */
export function plainName(name: string): string {
  return name.toUpperCase().replace(/^(_XLFN\.|_XLWS\.|_XLUDF\.|_XLDUDF_)+/, "");
}

/** A number, a percent or a word that is typed in the formula itself. */
export function constantOf(node: Node): Constant | undefined {
  if (node.type === "Literal") return node.value;
  if (node.type !== "UnaryExpression") return undefined;
  const inner = constantOf(node.arguments[0]);
  if (typeof inner !== "number") return undefined;
  if (node.operator === "%") return inner / 100;
  return node.operator === "-" ? -inner : node.operator === "+" ? inner : undefined;
}

/** A literal or a list of them, as cells; null for anything else. */
export function constantsOf(node: Node): Constant[][] | null {
  const elements = node.type === "ArrayExpression" ? node.elements : [[node]];
  const rows = elements.map((row) => row.map(constantOf).filter((cell) => cell !== undefined));
  return rows.flat().length === elements.flat().length ? rows : null;
}
