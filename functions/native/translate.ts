/** Expressions of @needs and @working lines as worksheet formulas. */
import {
  type FunctionNode,
  type MathNode,
  isArrayNode,
  isFunctionNode,
  isOperatorNode,
} from "mathjs";
import { constantIn, nameIn } from "./expression.ts";
import { FUNCTIONS } from "./functions.ts";
import type { NativeInputs } from "./inputs.ts";
import {
  BLANK,
  type Comparison,
  ONE,
  type Operator,
  type Piece,
  ZERO,
  and,
  constant,
  not,
  op,
  or,
  reduced,
} from "./piece.ts";
import { Term } from "./term.ts";
import { TooMuch } from "./too-much.ts";
import { type Value, givenList, joined, like, one, pieceOf, rawOf, turned } from "./values.ts";

/** What names stand for: the arguments, and the steps so far. */
export interface Scope {
  inputs: NativeInputs;
  steps: Map<string, Value>;
}

/** An expression as a value. */
export function translate(node: MathNode, scope: Scope): Value {
  const value = constantIn(node);
  if (value !== undefined) return one(constant(value));
  const name = nameIn(node);
  if (name !== undefined) return named(name, scope);
  if (isFunctionNode(node)) return called(node, scope);
  if (isOperatorNode(node)) {
    const [a, b] = node.args.map((arg) => translate(arg, scope));
    const made = a && (b ? ofTwo(node.fn, a, b) : ofOne(node.fn, a));
    if (made) return made;
  }
  if (isArrayNode(node)) {
    const items = node.items.map((item) => translate(item, scope));
    if (items.every((item) => item.is === "one" || item.is === "list"))
      return { is: "several", items };
  }
  throw new TooMuch(node.toString());
}

/** An expression that is true or false for each line. Of a list, it must hold in every cell. */
export function condition(node: MathNode, scope: Scope): Piece {
  const value = translate(node, scope);
  if (value.is === "one") return value.piece;
  if (value.is !== "list") throw new TooMuch(node.toString());
  return op(reduced("SUMPRODUCT", op(ONE, "-", value.piece)), "=", ZERO);
}

/** A column times a row as a table of them; everything else as it stands. */
export function asTable(node: MathNode, scope: Scope): Value {
  if (isOperatorNode(node) && node.fn === "multiply") {
    const [a, b] = node.args.map((arg) => translate(arg, scope));
    if (a?.is === "list" && b?.is === "list" && !a.across && b.across)
      return { is: "table", piece: op(a.piece, "*", b.piece), rows: a.length, columns: b.length };
  }
  return translate(node, scope);
}

function named(name: string, { inputs, steps }: Scope): Value {
  const step = steps.get(name);
  if (step) return step;
  if (name === "isrow") return one(constant(inputs.isRow));
  const input = inputs.get(name);
  if (input?.is === "list") return givenList(input.raw, input.across, input.length);
  if (input?.is === "number") return one(input.value);
  throw new TooMuch(name);
}

function called({ fn, args }: FunctionNode, scope: Scope): Value {
  const make = FUNCTIONS[fn.name];
  if (!make) throw new TooMuch(fn.name);
  return make(...args.map((arg) => new Term(arg, scope.inputs, (node) => translate(node, scope))));
}

const SIGNS: Partial<Record<string, Operator>> = {
  add: "+",
  subtract: "-",
  multiply: "*",
  dotMultiply: "*",
  divide: "/",
  dotDivide: "/",
  pow: "^",
  dotPow: "^",
  equal: "=",
  unequal: "<>",
  smaller: "<",
  smallerEq: "<=",
  larger: ">",
  largerEq: ">=",
};

function ofOne(fn: string, value: Value): Value | undefined {
  if (fn === "not")
    return value.is === "list" ? like(value, not(value.piece)) : one(not(pieceOf(value)));
  return fn === "unaryMinus" ? joined(one(ZERO), value, (x, y) => op(x, "-", y)) : undefined;
}

function ofTwo(fn: string, a: Value, b: Value): Value | undefined {
  if (fn === "and") return joined(a, b, and);
  if (fn === "or") return joined(a, b, or);
  const sign = SIGNS[fn];
  if (!sign) return undefined;
  if (isComparison(sign) && a.is === "list" && a.factors.length === 1 && b.is === "one") {
    const limit = b.piece.constant;
    if (typeof limit === "number") return like(a, compared(rawOf(a), sign, limit));
  }
  const value = joined(a, b, (x, y) => op(x, sign, y));
  if (sign !== "*" || a.is !== "list" || b.is !== "list" || value.is !== "list") return value;
  if (a.factors.length !== 1 || b.factors.length !== 1) return value;
  return { ...value, factors: [rawOf(a), turned(b, a.across, rawOf(b))] };
}

function isComparison(sign: Operator): sign is Comparison {
  return /[<=>]/.test(sign);
}

/** Cells as they were given against a number: a "" counts as zero; to a sheet it is more. */
function compared(raw: Piece, sign: Comparison, limit: number): Piece {
  const plain = op(raw, sign, constant(limit));
  const ofZero = op(ZERO, sign, constant(limit)).constant === true;
  const ofText = sign === ">" || sign === ">=" || sign === "<>";
  if (ofZero === ofText) return plain;
  return ofZero ? or(op(raw, "=", BLANK), plain) : and(op(raw, "<>", BLANK), plain);
}
