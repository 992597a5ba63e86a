/** The functions that expressions call, as pieces of a worksheet formula. */
import { RANK } from "../formula/precedence.ts";
import { LABEL_TEXTS } from "./label-texts.ts";
import { LIMITS } from "./limits.ts";
import { LINES } from "./lines.ts";
import {
  FALSE,
  REFUSED,
  TRUE,
  ZERO,
  bracketed,
  call,
  constant,
  inArray,
  op,
  reduced,
  when,
  written,
} from "./piece.ts";
import { TooMuch } from "./too-much.ts";
import { type Make, type Term, ofPieces } from "./term.ts";
import { isUnit, isVolume, isWeight, sizeOf } from "./units.ts";
import { joined, laid, one } from "./values.ts";
import { VOC } from "./voc.ts";

/** The larger or smaller of two; MAX would make one of all lines. */
function extreme(name: "MAX" | "MIN"): Make {
  return ofPieces((a, b) => {
    if (typeof a.constant === "number" && typeof b.constant === "number")
      return constant(Math[name === "MAX" ? "max" : "min"](a.constant, b.constant));
    if (!a.wide && !b.wide) return call(name, a, b);
    return when(op(a, name === "MAX" ? ">" : "<", b), a, b);
  });
}

/** The larger or smaller of two lists, line by line. */
function pairwise(sign: ">" | "<"): Make {
  return (a: Term, b: Term) =>
    joined(a.list, b.list, (x, y) => inArray(call("IF", op(x, sign, y), x, y)));
}

/** False where a call has no unit; then a pack's text is read, which no native formula can. */
function isUnitGiven(term: Term): boolean {
  return term.isArgumentGiven("unit").constant !== false;
}

function noText(): never {
  throw new TooMuch("a pack's text is more than arithmetic");
}

export const FUNCTIONS: Readonly<Partial<Record<string, Make>>> = {
  ...LINES,
  ...LIMITS,
  ...VOC,
  ...LABEL_TEXTS,
  abs: ofPieces((x) => call("ABS", x)),
  exp: ofPieces((x) => call("EXP", x)),
  sqrt: ofPieces((x) => call("SQRT", x)),
  ceil: ofPieces((x) => written(`-INT(-${bracketed(x, RANK.percent)})`, RANK.add, x.wide)),
  floor: ofPieces((x) => call("INT", x)),
  round: ofPieces((x, digits) => call("ROUND", x, digits)),
  max: extreme("MAX"),
  min: (first: Term, ...others: Term[]) =>
    others.length > 0
      ? extreme("MIN")(first, ...others)
      : one(inArray(reduced("MIN", first.list.piece))),
  sum: (term: Term) => {
    const { piece, factors } = term.list;
    if (factors.length === 0) return one(reduced("SUMPRODUCT", piece));
    return one(reduced(factors.length === 1 ? "SUM" : "SUMPRODUCT", ...factors));
  },
  over: (a: Term, b: Term) =>
    joined(a.list, b.value, (x, y) => inArray(call("IF", op(x, "=", ZERO), ZERO, op(x, "/", y)))),
  larger: pairwise(">"),
  smaller: pairwise("<"),
  column: ({ list }: Term) => laid(list, false),
  row: ({ list }: Term) => laid(list, true),
  // Where lists stand side by side, they are already laid out as they are to be.
  transpose: ({ value }: Term) => value,
  same: ({ word }: Term, { text }: Term) => one(word.same(text ?? "")),
  filled: ({ isFilled }: Term) => isFilled,
  given: ({ isGiven }: Term) => one(isGiven),
  samelength: (a: Term, b: Term) => one(constant(a.list.length === b.list.length)),
  isunit: ({ word }: Term) => one(isUnit(word)),
  isweight: ({ word }: Term) => one(isWeight(word)),
  isvolume: ({ word }: Term) => one(isVolume(word)),
  // That it is a number is looked at before, as of every input.
  isnumber: () => one(TRUE),
  ispack: (size: Term) => one(isUnitGiven(size) ? FALSE : noText()),
  packholds: (size: Term) => one(isUnitGiven(size) ? REFUSED : noText()),
  per: (unit: Term) => one(sizeOf(unit.text === undefined ? unit.word : { word: unit.text })),
};
