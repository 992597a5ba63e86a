/**
 * Pieces of a worksheet formula: a text, and what is known of it, so that pieces are put together
 * with no more brackets, checks and conditions than they need.
 *
 * "Wide" pieces may hold several cells, one for each line of a call. AND and OR would make one
 * answer of all lines, so there conditions are multiplied and added instead, line by line.
 */
import { RANK, RANKS } from "../formula/precedence.ts";
import type { Constant } from "../formula/tree.ts";
import { type Written, literal } from "../formula/writer.ts";

export interface Piece extends Written {
  /** Its value, where that is known. */
  constant?: Constant | undefined;
  /** It may hold several cells. */
  wide: boolean;
  /** It comes out right only in an array formula. */
  array: boolean;
  /** The conditions that it is made of, so that AND in AND becomes one. */
  joins?: { name: string; parts: Piece[] };
  /** The condition that it is the opposite of. */
  negates?: Piece;
}

/** A text that is put in as it is: a reference, a name, a call. */
export function written(text: string, rank: number = RANK.atom, wide = false): Piece {
  return { text, rank, wide, array: wide };
}

export function constant(value: Constant): Piece {
  const { text, rank } = literal(value);
  return { text, rank, constant: value, wide: false, array: false };
}

export const TRUE = constant(true);
export const FALSE = constant(false);
export const BLANK = constant("");
export const ZERO = constant(0);
export const ONE = constant(1);

/** A cell error, which is the answer of a line that is refused. */
export const REFUSED: Piece = written("#VALUE!");

export function call(name: string, ...parts: Piece[]): Piece {
  return {
    text: `${name}(${parts.map(({ text }) => text).join(",")})`,
    rank: RANK.atom,
    wide: parts.some(({ wide }) => wide),
    array: parts.some(({ array }) => array),
  };
}

/** A call that makes one cell of any number of them: SUM, SUMPRODUCT. */
export function reduced(name: string, ...parts: Piece[]): Piece {
  return { ...call(name, ...parts), wide: false };
}

/** A piece that comes out right only in an array formula. */
export function inArray(piece: Piece): Piece {
  return { ...piece, array: true };
}

export type Comparison = "=" | "<>" | "<" | "<=" | ">" | ">=";
export type Operator = Comparison | "+" | "-" | "*" | "/" | "^" | "&";

const FOLD: Record<Exclude<Operator, "&">, (a: number, b: number) => Constant> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
  "^": (a, b) => a ** b,
  "=": (a, b) => a === b,
  "<>": (a, b) => a !== b,
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
};

export function op(a: Piece, operator: Operator, b: Piece): Piece {
  const [x, y] = [a.constant, b.constant];
  if (operator !== "&" && typeof x === "number" && typeof y === "number") {
    const value = FOLD[operator](x, y);
    if (typeof value === "boolean" || Number.isFinite(value)) return constant(value);
  }
  if (operator === "=" && x !== undefined && typeof x === typeof y) return constant(x === y);
  if ((operator === "*" || operator === "/") && y === 1) return a;
  if (operator === "*" && x === 1) return b;
  if ((operator === "+" || operator === "-") && y === 0 && a.rank !== RANK.compare) return a;
  if (operator === "+" && x === 0 && b.rank !== RANK.compare) return b;
  const rank = RANKS[operator];
  return {
    text: bracketed(a, rank) + operator + bracketed(b, rank + 1),
    rank,
    wide: a.wide || b.wide,
    array: a.array || b.array,
  };
}

/** In brackets where an operator of that rank would otherwise pull it apart. */
export function bracketed({ text, rank }: Written, least: number): string {
  // Comparisons are never chained.
  return rank < least || (rank === RANK.compare && least === RANK.compare) ? `(${text})` : text;
}

export function and(...conditions: Piece[]): Piece {
  return logical("AND", "*", FALSE, TRUE, conditions);
}

export function or(...conditions: Piece[]): Piece {
  const any = logical("OR", "+", TRUE, FALSE, conditions);
  return any.wide && any.rank === RANK.add ? op(any, ">", ZERO) : any;
}

function logical(
  name: string,
  sign: "*" | "+",
  decides: Piece,
  otherwise: Piece,
  conditions: Piece[],
): Piece {
  if (conditions.some((each) => each.constant === decides.constant)) return decides;
  const open = conditions.filter((each) => each.constant === undefined);
  const flat = open.flatMap((each) => (each.joins?.name === name ? each.joins.parts : [each]));
  const different = flat.filter((each, i) => flat.findIndex((o) => o.text === each.text) === i);
  const [first, ...others] = different;
  if (!first) return otherwise;
  if (others.length === 0) return first;
  if (different.some(({ wide }) => wide)) return others.reduce((a, b) => op(a, sign, b), first);
  return { ...call(name, ...different), joins: { name, parts: different } };
}

export function not(condition: Piece): Piece {
  if (typeof condition.constant === "boolean") return constant(!condition.constant);
  if (condition.negates) return condition.negates;
  const opposite = condition.wide ? op(ONE, "-", condition) : call("NOT", condition);
  return { ...opposite, negates: condition };
}

export function when(condition: Piece, then: Piece, otherwise: Piece): Piece {
  if (condition.constant !== undefined) return condition.constant ? then : otherwise;
  if (then.text === otherwise.text) return then;
  return call("IF", condition, then, otherwise);
}
