/** A formula with calls of ours as one without them, where that can be. */
import { type Given, type Spread, together } from "../native/given.ts";
import { type Native, nativeOf } from "../native/native.ts";
import { call, constant, written } from "../native/piece.ts";
import { TooMuch } from "../native/too-much.ts";
import { ourFunction } from "../formula/ours.ts";
import { type ArgumentNode, type Node, calleeOf, childrenOf, constantOf } from "../formula/tree.ts";
import { rankOf } from "../formula/precedence.ts";
import { edgesOf, rangeIn } from "../formula/references.ts";
import { writeFormula } from "../formula/writer.ts";

/**
 * What a name, a table's column or a spilled range stands for: its size, or null where that is not
 * known.
 */
export type SizeOf = (reference: string) => Spread | null;

/** Whether what a reference stands for has prices as texts. */
export type HasPriceText = (reference: string) => boolean;

/** The most characters that Excel takes in a formula. */
export const LONGEST = 8192;

/** Why there is none, where it would be longer. */
export const TOO_LONG = "the native formula would be longer than Excel takes";

export interface NativeFormula {
  text: string;
  /** It comes out right only in an array formula. */
  array: boolean;
  /** The size of its answer, where that is known. */
  shape: Spread | null;
}

/** The size of what a formula answers with, where that is known. */
export function shapeOfFormula(tree: Node, sizeOf: SizeOf): Spread | null {
  try {
    return new Sizer(sizeOf).shapeOf(tree);
  } catch (error) {
    if (error instanceof TooMuch) return null;
    throw error;
  }
}

/**
 * The formula with native ones in place of our calls. Throws TooMuch where one of them has none.
 */
export function nativeFormula(
  tree: Node,
  sizeOf: SizeOf,
  hasPriceText: HasPriceText = () => false,
): NativeFormula {
  const sizer = new Sizer(sizeOf, hasPriceText);
  const summed = new Set(summedUp(tree));
  const text = writeFormula(tree, (node) => {
    if (!ourFunction(node)) return null;
    const { piece, shape, holds } = sizer.native(node);
    // A sum passes over a blank that a call of ours gives, and fails on one that IF gives, unless
    // in an array.
    const isRisky = holds !== "number" && shape?.rows === 1 && shape.columns === 1;
    return isRisky && summed.has(node) ? call("IF", written("{1}"), piece, constant(0)) : piece;
  });
  if (text.length > LONGEST) throw new TooMuch(TOO_LONG);
  return { text, array: sizer.array, shape: sizer.shapeOf(tree) };
}

/** Calls of ours that stand right in a sum or a mean. */
function summedUp(node: Node): Node[] {
  const children = childrenOf(node).filter((child) => child !== null);
  const isSum = node.type === "CallExpression" && SUMS.has(calleeOf(node));
  return [...(isSum ? children.filter(ourFunction) : []), ...children.flatMap(summedUp)];
}

const SUMS = new Set("SUM AVERAGE MIN MAX COUNT PRODUCT MEDIAN SUMPRODUCT".split(" "));

/** Functions that make one cell of whatever they are given. */
const ONE_CELL = new Set(
  (
    "SUM SUMPRODUCT AVERAGE MIN MAX COUNT COUNTA COUNTBLANK PRODUCT MEDIAN STDEV VAR AND OR ROWS COLUMNS " +
    "SUMIFS SUBTOTAL AGGREGATE NPV PI TODAY NOW RAND CONCAT TEXTJOIN SINGLE"
  ).split(" "),
);

/** Functions that work cell by cell, so that their answer is as large as what they are given. */
const CELL_BY_CELL = new Set(
  (
    "IF IFERROR IFNA ROUND ROUNDUP ROUNDDOWN ABS INT SQRT EXP LN LOG LOG10 MOD SIGN TRUNC POWER NOT N ISNUMBER " +
    "ISBLANK ISTEXT ISERROR VALUE TEXT UPPER LOWER TRIM LEFT RIGHT MID LEN SUBSTITUTE CHOOSE FLOOR CEILING " +
    "DATE YEAR MONTH DAY CONVERT"
  ).split(" "),
);

/** Functions whose answer is a number whenever it is no error. */
const NUMBERS = new Set(
  (
    "SUM SUMPRODUCT AVERAGE MIN MAX COUNT COUNTA PRODUCT ROUND ROUNDUP ROUNDDOWN ABS INT SQRT EXP LN LOG LOG10 MOD " +
    "TRUNC POWER N VALUE PI ROWS COLUMNS SUMIFS SUMIF COUNTIF COUNTIFS MATCH"
  ).split(" "),
);

const CELL: Spread = { rows: 1, columns: 1 };

/** Works through a formula from the inside out. */
class Sizer {
  array = false;
  private readonly known = new Map<Node, Native>();

  constructor(
    private readonly sizeOf: SizeOf,
    private readonly hasPriceText: HasPriceText = () => false,
  ) {}

  native(node: Node): Native {
    const known = this.known.get(node);
    if (known) return known;
    const entry = ourFunction(node);
    if (!entry || node.type !== "CallExpression") throw new TooMuch("a call");
    const args = node.arguments.map((arg) => (arg ? this.given(arg) : undefined));
    const native = nativeOf(entry, args);
    if (native.piece.array) this.array = true;
    this.known.set(node, native);
    return native;
  }

  private given(node: Node): Given {
    const value = constantOf(node);
    if (value !== undefined) return { piece: constant(value), shape: CELL, holds: "anything" };
    const shape = this.shapeOf(node);
    const isWide = !shape || shape.rows * shape.columns > 1;
    const text = writeFormula(node, (each) => (ourFunction(each) ? this.native(each).piece : null));
    const rank = ourFunction(node) ? this.native(node).piece.rank : rankOf(node);
    return {
      piece: { ...written(text, rank), wide: isWide, array: isWide },
      shape,
      holds: this.holds(node),
      hasPriceText: () => this.readsPriceText(node),
    };
  }

  /** Whether the value of a node may be a price that is a text: arithmetic makes a number of it. */
  private readsPriceText(node: Node): boolean {
    if (ourFunction(node) || this.holds(node) === "number") return false;
    if (node.type === "ReferenceIdentifier") return this.hasPriceText(node.value);
    return childrenOf(node).some((child) => child !== null && this.readsPriceText(child));
  }

  private holds(node: Node): Given["holds"] {
    if (ourFunction(node)) return this.native(node).holds;
    if (node.type === "UnaryExpression") return /[-%]/.test(node.operator) ? "number" : "anything";
    if (node.type === "BinaryExpression")
      return /[-+*/^]/.test(node.operator) ? "number" : "anything";
    if (node.type === "CallExpression") return NUMBERS.has(calleeOf(node)) ? "number" : "anything";
    const isNumbers =
      node.type === "ArrayExpression" &&
      node.elements
        .flat()
        .every((cell) => cell.type === "Literal" && typeof cell.value === "number");
    return isNumbers ? "number" : "anything";
  }

  shapeOf(node: Node): Spread | null {
    switch (node.type) {
      case "Literal":
      case "ErrorLiteral":
        return CELL;
      case "ArrayExpression":
        return { rows: node.elements.length, columns: node.elements[0]?.length ?? 0 };
      case "ReferenceIdentifier":
        return node.kind === "range" || node.kind === "beam"
          ? sizeOfRange(node.value)
          : this.sizeOf(node.value);
      case "UnaryExpression":
        if (node.operator === "@") return CELL;
        if (node.operator === "#") return this.sizeOf(writeFormula(node));
        return this.shapeOf(node.arguments[0]);
      case "BinaryExpression":
        return /[:, ]/.test(node.operator) ? null : this.together(node.arguments);
      case "CallExpression":
        return this.shapeOfCall(node);
    }
    return null;
  }

  private shapeOfCall(node: Node & { type: "CallExpression" }): Spread | null {
    if (ourFunction(node)) return this.native(node).shape;
    const name = calleeOf(node);
    const args = node.arguments;
    if (name === "ANCHORARRAY") return args[0] ? this.sizeOf(`${writeFormula(args[0])}#`) : null;
    if (ONE_CELL.has(name)) return CELL;
    if (CELL_BY_CELL.has(name)) return this.together(args);
    if (name === "XLOOKUP" && !this.isLine(args[2])) return null;
    // Of a look-up, the answer is as large as what is looked up.
    if (["MATCH", "VLOOKUP", "HLOOKUP", "XLOOKUP"].includes(name))
      return this.together(args.slice(0, 1));
    if (name === "SUMIF" || name === "COUNTIF") return this.together(args.slice(1, 2));
    if (name === "TRANSPOSE") {
      const shape = args[0] ? this.shapeOf(args[0]) : null;
      return shape && { rows: shape.columns, columns: shape.rows };
    }
    return null;
  }

  private isLine(node: ArgumentNode | undefined): boolean {
    const shape = node ? this.shapeOf(node) : null;
    return shape !== null && (shape.rows === 1 || shape.columns === 1);
  }

  private together(nodes: ArgumentNode[]): Spread | null {
    return together(nodes.flatMap((node) => (node ? [this.shapeOf(node)] : [])));
  }
}

/** The size of a range such as Sheet1!A1:B3, A:A or C2. */
export function sizeOfRange(reference: string): Spread | null {
  const found = rangeIn(reference);
  if (!found) return null;
  const { top, left, bottom, right } = edgesOf(found);
  return { rows: bottom - top + 1, columns: right - left + 1 };
}
