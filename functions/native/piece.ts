/**
 * Pieces of a worksheet formula: a text, and what is known of it, so that pieces are put together with no
 * more brackets, checks and conditions than they need.
 *
 * "Wide" pieces may hold several cells, one for each line of a call. AND and OR would make one answer of
 * all lines, so there conditions are multiplied and added instead, line by line.
 */
export type Constant = number | string | boolean;

export interface Piece {
  text: string;
  /** How strongly its parts hold together; see RANK. */
  rank: number;
  /** Its value, where that is known. */
  constant?: Constant;
  /** It may hold several cells. */
  wide: boolean;
  /** It comes out right only in an array formula. */
  array: boolean;
  /** The conditions that it is made of, so that AND in AND becomes one. */
  joins?: { name: string; parts: Piece[] };
  /** The condition that it is the opposite of. */
  negates?: Piece;
}

/** Excel's order of operators, loosest first. */
export const RANK = {
  compare: 1,
  join: 2,
  add: 3,
  times: 4,
  power: 5,
  sign: 6,
  percent: 7,
  atom: 9,
};

/** A formula that was written by somebody: a reference, a name, a call. */
export function written(text: string, rank = RANK.atom, wide = false): Piece {
  return { text, rank, wide, array: wide };
}

export function constant(value: Constant): Piece {
  const piece = (text: string, rank = RANK.atom) => ({
    text,
    rank,
    constant: value,
    wide: false,
    array: false,
  });
  if (typeof value === "string") return piece(`"${value.replaceAll('"', '""')}"`);
  if (typeof value === "boolean") return piece(value ? "TRUE" : "FALSE");
  return piece(String(value).toUpperCase(), value < 0 ? RANK.add : RANK.atom);
}

export const TRUE = constant(true);
export const FALSE = constant(false);

/** A cell error, which is the answer of a line that does not hold. */
export const REFUSED: Piece = written("#VALUE!");

export function call(name: string, ...parts: Piece[]): Piece {
  return {
    text: `${name}(${parts.map(({ text }) => text).join(",")})`,
    rank: RANK.atom,
    wide: parts.some(({ wide }) => wide),
    array: parts.some(({ array }) => array),
  };
}

/** A call that makes one cell of whatever it is given: SUM, SUMPRODUCT. */
export function reduced(name: string, ...parts: Piece[]): Piece {
  return { ...call(name, ...parts), wide: false };
}

type Operator = "+" | "-" | "*" | "/" | "^" | "=" | "<>" | "<" | "<=" | ">" | ">=" | "&";

/** How strongly each operator binds. */
export const RANKS: Record<Operator, number> = {
  "=": RANK.compare,
  "<>": RANK.compare,
  "<": RANK.compare,
  "<=": RANK.compare,
  ">": RANK.compare,
  ">=": RANK.compare,
  "&": RANK.join,
  "+": RANK.add,
  "-": RANK.add,
  "*": RANK.times,
  "/": RANK.times,
  "^": RANK.power,
};

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
export function bracketed({ text, rank }: Piece, least: number): string {
  // A sign binds more tightly than a power in Excel, and comparisons are never chained.
  return rank < least || (rank === RANK.compare && least === RANK.compare) ? `(${text})` : text;
}

export function and(...conditions: Piece[]): Piece {
  return logical("AND", "*", FALSE, TRUE, conditions);
}

export function or(...conditions: Piece[]): Piece {
  const any = logical("OR", "+", TRUE, FALSE, conditions);
  return any.wide && any.rank === RANK.add ? op(any, ">", constant(0)) : any;
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
  if (open.length === 0) return otherwise;
  const flat = open.flatMap((each) => (each.joins?.name === name ? each.joins.parts : [each]));
  const different = flat.filter((each, i) => flat.findIndex((o) => o.text === each.text) === i);
  if (different.length === 1) return different[0];
  if (different.some(({ wide }) => wide)) return different.reduce((a, b) => op(a, sign, b));
  return { ...call(name, ...different), joins: { name, parts: different } };
}

export function not(condition: Piece): Piece {
  if (typeof condition.constant === "boolean") return constant(!condition.constant);
  if (condition.negates) return condition.negates;
  const opposite = condition.wide ? op(constant(1), "-", condition) : call("NOT", condition);
  return { ...opposite, negates: condition };
}

export function when(condition: Piece, then: Piece, otherwise: Piece): Piece {
  if (condition.constant !== undefined) return condition.constant ? then : otherwise;
  if (then.text === otherwise.text) return then;
  return call("IF", condition, then, otherwise);
}
