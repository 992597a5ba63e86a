/** Limits as certificates print them: percents, "not limited" and "not approved". */
import {
  BLANK,
  ONE,
  type Piece,
  ZERO,
  and,
  call,
  constant,
  inArray,
  op,
  or,
  reduced,
  when,
} from "./piece.ts";
import type { Make, Term } from "./term.ts";
import { type ListValue, like, one, rawOf, turned } from "./values.ts";

const NONSENSE = constant(-1);

/** A limit as a number: not limited is 1, not approved 0, nonsense -1. */
function limitNumber(raw: Piece): Piece {
  const word = call("SUBSTITUTE", raw, constant(" "), BLANK);
  const is = (text: string) => op(word, "=", constant(text));
  const aboveZero = (value: Piece) => when(op(value, ">", ZERO), value, NONSENSE);
  const percent = call("IFERROR", call("VALUE", word), NONSENSE);
  const isPercent = op(call("RIGHT", word, ONE), "=", constant("%"));
  const typed = when(isPercent, aboveZero(percent), NONSENSE);
  const ofWord = when(is("notlimited"), ONE, when(or(is("notapproved"), is("none")), ZERO, typed));
  return inArray(when(call("ISNUMBER", raw), aboveZero(raw), ofWord));
}

/** Limits as numbers, laid out as the shares are. */
function limitsBeside(shares: ListValue, { list }: Term): Piece {
  return turned(list, shares.across, limitNumber(rawOf(list)));
}

/** Labels, laid out as their limits are. */
function labelsBeside(limits: ListValue, { list }: Term): Piece {
  return turned(list, limits.across, rawOf(list));
}

/** True where neither a label nor a limit is filled in. */
function isSpare(labels: Piece, limits: ListValue): Piece {
  const isBlank = (raw: Piece) => or(op(raw, "=", BLANK), op(raw, "=", ZERO));
  return and(isBlank(labels), isBlank(rawOf(limits)));
}

/** Each limit as a number; a spare line is above all of them. */
function limitsOf(labels: Piece, limits: ListValue): Piece {
  return inArray(when(isSpare(labels, limits), constant(2), limitNumber(rawOf(limits))));
}

export const LIMITS: Readonly<Record<string, Make>> = {
  islimit: ({ list }: Term) => {
    const number = limitNumber(rawOf(list));
    return like(list, and(op(number, ">=", ZERO), op(number, "<=", ONE)));
  },
  banned: ({ list: shares }: Term, limits: Term) => {
    const isBanned = op(limitsBeside(shares, limits), "=", ZERO);
    const both = and(op(shares.piece, ">", ZERO), isBanned);
    return one(op(reduced("SUMPRODUCT", both), ">", ZERO));
  },
  usedup: ({ list: shares }: Term, limits: Term) => {
    const ofWhole = op(shares.piece, "/", reduced("SUM", rawOf(shares)));
    const used = op(ofWhole, "/", limitsBeside(shares, limits));
    return like(shares, inArray(call("IF", op(shares.piece, "=", ZERO), ZERO, used)));
  },
  // A line for a reader, of which no number comes.
  largelimits: () => one(BLANK),
  isspare: (labels: Term, { list }: Term) => like(list, isSpare(labelsBeside(list, labels), list)),
  limitsof: (labels: Term, { list }: Term) =>
    like(list, limitsOf(labelsBeside(list, labels), list)),
  labelof: (labels: Term, { list }: Term) => {
    const names = labelsBeside(list, labels);
    const limits = limitsOf(names, list);
    const lowest = reduced("MIN", limits);
    // An end mark keeps a label that is blank among those that are joined.
    const mark = call("CHAR", ONE);
    const ours = when(op(limits, "=", lowest), op(names, "&", mark), BLANK);
    const joined = reduced("_xlfn.TEXTJOIN", constant(" and "), constant(true), ours);
    const shown = call("SUBSTITUTE", joined, mark, BLANK);
    return one(inArray(when(op(lowest, "=", ONE), constant("not limited"), shown)));
  },
};
