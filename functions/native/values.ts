/** What an expression comes to: pieces of a formula, and how their cells lie. */
import { BLANK, type Piece, ZERO, call, inArray, op, when } from "./piece.ts";
import { TooMuch } from "./too-much.ts";

/** One cell for each line of the call. */
export interface One {
  is: "one";
  piece: Piece;
}

/** One row or one column. */
export interface ListValue {
  is: "list";
  piece: Piece;
  across: boolean;
  length: number;
  /** The lists whose product it is, as they were given; none where it is worked out otherwise. */
  factors: readonly Piece[];
}

/** A row of answers by a column of them. */
export interface TableValue {
  is: "table";
  piece: Piece;
  rows: number;
  columns: number;
}

/** An answer of several cells, side by side; of lists, one list beside the other. */
export interface Several {
  is: "several";
  items: (One | ListValue)[];
}

export type Value = One | ListValue | TableValue | Several;

export function one(piece: Piece): One {
  return { is: "one", piece };
}

/** A list as it was given; a blank in it counts as zero. */
export function givenList(raw: Piece, across: boolean, length: number): ListValue {
  const piece = inArray(call("IF", op(raw, "=", BLANK), ZERO, raw));
  return { is: "list", piece, factors: [raw], across, length };
}

/** The cells of a list as they were given: words, and blanks that are not yet zero. */
export function rawOf({ factors }: ListValue): Piece {
  const [raw, ...others] = factors;
  if (!raw || others.length > 0) throw new TooMuch("a computed list");
  return raw;
}

/** A list that lies as another one does. */
export function like(list: ListValue, piece: Piece): ListValue {
  return { ...list, piece, factors: [] };
}

/** Cells of a list, laid out in a row or in a column. */
export function turned({ across, length }: ListValue, isRow: boolean, piece: Piece): Piece {
  return across === isRow || length === 1 ? piece : inArray(call("TRANSPOSE", piece));
}

export function laid(list: ListValue, across: boolean): ListValue {
  return { ...like(list, turned(list, across, list.piece)), across };
}

export function pieceOf(value: Value): Piece {
  if (value.is === "one" || value.is === "list") return value.piece;
  throw new TooMuch("an answer of several cells");
}

export function single(value: Value): Piece {
  if (value.is !== "one") throw new TooMuch("a list");
  return value.piece;
}

/** Two values cell by cell. */
export function joined(a: Value, b: Value, make: (x: Piece, y: Piece) => Piece): Value {
  if (a.is === "one" && b.is === "one") return one(make(a.piece, b.piece));
  if (a.is === "list" && b.is === "list")
    return like(a, make(a.piece, turned(b, a.across, b.piece)));
  const [list, other] = a.is === "list" ? [a, b] : [b, a];
  if (list.is !== "list" || other.is !== "one") throw new TooMuch("a table");
  if (other.piece.wide) throw new TooMuch("a list for each of several lines");
  return like(list, make(pieceOf(a), pieceOf(b)));
}

/** One value or another, by a condition. */
export function choose(test: Piece, then: Value, otherwise: Value): Value {
  if (test.constant !== undefined) return test.constant ? then : otherwise;
  if (then.is === "one" && otherwise.is === "one")
    return one(when(test, then.piece, otherwise.piece));
  if (then.is === "list" && otherwise.is === "list" && !test.wide)
    return like(then, when(test, then.piece, turned(otherwise, then.across, otherwise.piece)));
  if (then.is === "several" && otherwise.is === "several")
    return { is: "several", items: chosenItems(test, then, otherwise) };
  throw new TooMuch("a choice between a list and a number");
}

function chosenItems(test: Piece, then: Several, otherwise: Several): (One | ListValue)[] {
  return then.items.map((item, i) => {
    const other = otherwise.items[i];
    const chosen = other && choose(test, item, other);
    if (chosen?.is === "one" || chosen?.is === "list") return chosen;
    throw new TooMuch("a choice between answers of unlike length");
  });
}
