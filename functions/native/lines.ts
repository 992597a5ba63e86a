/** Lists side by side, looked at line by line. */
import { BLANK, ONE, type Piece, ZERO, and, call, inArray, op, or } from "./piece.ts";
import type { Make, Term } from "./term.ts";
import { type ListValue, like, rawOf, turned } from "./values.ts";

function isNumber(raw: Piece): Piece {
  return call("ISNUMBER", raw);
}

function isShare(raw: Piece): Piece {
  return and(isNumber(raw), op(raw, ">=", ZERO), op(raw, "<=", ONE));
}

/** Low and high ends, above zero and in their order. */
function isRange(low: Piece, high: Piece): Piece {
  return and(and(isNumber(low), isNumber(high)), op(low, ">", ZERO), op(high, ">=", low));
}

/** The cells of a list, laid out as those of another are. */
function besideOf(amounts: ListValue, { list }: Term): Piece {
  return turned(list, amounts.across, rawOf(list));
}

/** The line is empty, or nothing is used of it, or what stands beside the amount is known. */
function isUsed(amounts: ListValue, beside: Piece[], isKnown: Piece): ListValue {
  const amount = rawOf(amounts);
  const isEmpty = and(...[amount, ...beside].map((raw) => op(raw, "=", BLANK)));
  const isNone = and(isNumber(amount), op(amount, "=", ZERO));
  const isSome = and(isNumber(amount), op(amount, ">", ZERO), isKnown);
  return like(amounts, or(isEmpty, isNone, isSome));
}

export const LINES: Readonly<Record<string, Make>> = {
  counted: ({ list }: Term) => {
    const raw = rawOf(list);
    return like(list, inArray(call("IF", isNumber(raw), raw, ZERO)));
  },
  isknown: ({ list }: Term, share: Term) => {
    const beside = besideOf(list, share);
    return isUsed(list, [beside], isShare(beside));
  },
  isquoted: ({ list }: Term, lows: Term, highs: Term) => {
    const [low, high] = [besideOf(list, lows), besideOf(list, highs)];
    return isUsed(list, [low, high], isRange(low, high));
  },
};
