/** An argument of a call as pieces of a native formula: its value, its sort, when it is blank. */
import { squeeze } from "../../src/errors.ts";
import type { CatalogEntry, Param } from "../catalog/entry.ts";
import { WORD_KINDS, isLeftOutAtZero, isRefusedAtZero } from "../catalog/kinds.ts";
import { calledOn, denied, partsOf, read } from "./expression.ts";
import type { Given } from "./given.ts";
import {
  BLANK,
  FALSE,
  type Piece,
  TRUE,
  ZERO,
  and,
  call,
  constant,
  not,
  op,
  or,
  reduced,
  when,
} from "./piece.ts";
import { TooMuch } from "./too-much.ts";
import { type Word, cleanUnit } from "./units.ts";

/** What is known of every argument. */
interface Known {
  /** True where it is of the right sort, a blank included. */
  fits: Piece;
  /** True where nothing is filled in; a zero may be a blank that came as one. */
  nothing: Piece;
  /** The same where a zero is refused on a line that has anything else on it. */
  blank?: Piece;
  /** True where it is given, so that its default does not count. */
  given: Piece;
}

export interface NumberInput extends Known {
  is: "number";
  value: Piece;
}

export interface ListInput extends Known {
  is: "list";
  raw: Piece;
  across: boolean;
  length: number;
}

export interface WordInput extends Known, Word {
  is: "word";
  same(word: string): Piece;
}

export type Input = NumberInput | ListInput | WordInput;

/**
 * An argument as a function takes it; undefined for a range that was left out. A need holds a
 * "sure" one to be above zero, so that a blank is no number there.
 */
export function inputOf(
  entry: CatalogEntry,
  param: Param,
  given: Given | undefined,
  isSure: boolean,
): Input | undefined {
  if (param.kind === "money" && given?.hasPriceText?.())
    throw new TooMuch(`${param.name} is a price that is a text, which no native formula reads`);
  if (param.range) return given && listInput(param, given);
  if (!WORD_KINDS.has(param.kind)) return numberInput(param, given, isSure);
  return { ...wordInput(param, given), only: onlyUnit(entry, param.name) };
}

/** The one sort of units that a function takes for an argument, where it takes but one. */
function onlyUnit({ needs }: CatalogEntry, name: string): Word["only"] {
  const held = needs.flatMap(({ expression }) => partsOf(read(expression)));
  if (!held.some((part) => calledOn(part, "isunit") === name)) return undefined;
  if (held.some((part) => calledOn(part, "isweight") === name)) return "weight";
  return held.some((part) => calledOn(denied(part), "isweight") === name) ? "volume" : undefined;
}

function numberInput(param: Param, given: Given | undefined, isSure: boolean): NumberInput {
  const fallback = constant(typeof param.default === "number" ? param.default : 0);
  if (!given || given.piece.constant === "") {
    // What is required and blank is unknown: no number fits there.
    const fits = constant(param.optional);
    return { is: "number", value: fallback, fits, nothing: TRUE, given: FALSE };
  }
  const { piece, holds } = given;
  const isRefused = isRefusedAtZero(param);
  const isLeftOut = isLeftOutAtZero(param);
  if (piece.constant !== undefined) {
    if (typeof piece.constant !== "number") throw new TooMuch(`${param.name} is not a number`);
    const isZero = piece.constant === 0;
    const absent = constant(isLeftOut && isZero);
    return {
      is: "number",
      value: when(absent, fallback, piece),
      fits: constant(!(isRefused && isZero)),
      nothing: constant(isZero),
      given: not(absent),
      ...(isRefused && { blank: FALSE }),
    };
  }
  const isBlank = holds === "number" ? FALSE : op(piece, "=", BLANK);
  const isZero = op(piece, "=", ZERO);
  const absent = or(isBlank, isLeftOut ? isZero : FALSE);
  const sort = {
    is: "number",
    nothing: or(isBlank, isZero),
    given: not(absent),
    ...(isRefused && { blank: isBlank }),
  } as const;
  const isNumber = call("ISNUMBER", piece);
  const isRight = isRefused ? and(isNumber, not(isZero)) : isNumber;
  // Of several lines one may hold a word: "fits" refuses it, and it must not spoil others.
  const clean = piece.wide ? when(isNumber, piece, ZERO) : call("N", piece);
  if (!param.optional) {
    const value = holds === "number" || (isSure && !piece.wide) ? piece : clean;
    return { ...sort, value, fits: holds === "number" && isSure ? TRUE : isRight };
  }
  const cleaned = holds === "number" ? piece : clean;
  const value = fallback.constant === 0 ? cleaned : when(absent, fallback, piece);
  // Nothing else may look at what may be left out, and an error in it is still one.
  return { ...sort, value, fits: or(isRight, isBlank) };
}

function wordInput(param: Param, given: Given | undefined): WordInput {
  const fallback = squeeze(String(param.default ?? ""));
  if (!given) return typedWord("", fallback);
  const { piece } = given;
  if (typeof piece.constant === "string") return typedWord(squeeze(piece.constant), fallback);
  const plain = call("SUBSTITUTE", piece, constant(" "), BLANK);
  const nothing = or(op(piece, "=", BLANK), op(piece, "=", ZERO));
  const same = (text: string) => {
    const isSame = op(plain, "=", constant(text));
    return param.optional && squeeze(text) === fallback ? or(nothing, isSame) : isSame;
  };
  const word = param.kind === "unit" ? cleanUnit(piece) : plain;
  return { is: "word", word, same, fits: TRUE, nothing, given: not(nothing) };
}

function typedWord(typed: string, fallback: string): WordInput {
  const isBlank = typed === "";
  const word = isBlank ? fallback : typed;
  const same = (text: string) => constant(word === squeeze(text));
  const nothing = constant(isBlank);
  return { is: "word", word, same, fits: TRUE, nothing, given: not(nothing) };
}

function listInput(param: Param, { piece, shape, holds }: Given): ListInput {
  if (!shape)
    throw new TooMuch(`the size of ${param.name} is known only when the sheet is worked out`);
  if (shape.rows > 1 && shape.columns > 1) throw new TooMuch(`${param.name} is a table`);
  const raw: Piece = { ...piece, constant: undefined, wide: true };
  const none = (bad: Piece) => op(reduced("SUMPRODUCT", bad), "=", ZERO);
  const isText = and(op(raw, "<>", BLANK), not(call("ISNUMBER", raw)));
  const isFilled = not(or(op(raw, "=", BLANK), op(raw, "=", ZERO)));
  const length = shape.rows * shape.columns;
  return {
    is: "list",
    raw,
    across: shape.rows === 1 && shape.columns > 1,
    length,
    fits: param.mixed || holds === "number" ? TRUE : none(isText),
    nothing: none(isFilled),
    given: length > 1 ? TRUE : not(op(raw, "=", BLANK)),
  };
}
