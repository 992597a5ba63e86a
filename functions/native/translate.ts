/**
 * The expressions of @needs and @working lines, which are in the language of mathjs, as worksheet formulas.
 */
import type { ArrayNode, FunctionNode, MathNode, OperatorNode } from "mathjs";
import type { Inputs, ListInput, WordInput } from "./inputs";
import {
  FALSE,
  type Piece,
  RANK,
  REFUSED,
  and,
  call,
  constant,
  not,
  op,
  or,
  reduced,
  when,
  written,
} from "./piece";
import { TooMuch } from "./too-much";
import { isUnit, isVolume, isWeight, sizeOf } from "./units";

/** One cell for each line of the call. */
export interface One {
  is: "one";
  piece: Piece;
}

/** One row or one column. */
export interface List {
  is: "list";
  piece: Piece;
  across: boolean;
  length: number;
  /** As it was given: words and blanks not yet taken as zero. */
  raw?: Piece;
  /** Of what it is the product, as given. */
  factors?: Piece[];
}

/** A row of answers by a column of them. */
export interface Grid {
  is: "grid";
  piece: Piece;
  rows: number;
  columns: number;
}

/** An answer of several cells, side by side; of lists, one list beside the other. */
export interface Cells {
  is: "cells";
  items: (One | List)[];
}

export type Value = One | List | Grid | Cells;

/** What names stand for: the arguments, and the steps so far. */
export interface Scope {
  inputs: Inputs;
  steps: Map<string, Value>;
}

const one = (piece: Piece): One => ({ is: "one", piece });

/** An expression as a value. */
export function translate(node: MathNode, scope: Scope): Value {
  switch (node.type) {
    case "ParenthesisNode":
      return translate((node as MathNode & { content: MathNode }).content, scope);
    case "ConstantNode":
      return one(constant((node as MathNode & { value: number | string }).value));
    case "SymbolNode":
      return named((node as MathNode & { name: string }).name, scope);
    case "OperatorNode":
      return operated(node as OperatorNode, scope);
    case "FunctionNode":
      return called(node as FunctionNode, scope);
    case "ArrayNode": {
      const items = (node as ArrayNode).items.map((item) => translate(item, scope));
      if (items.every((item) => item.is === "one" || item.is === "list"))
        return { is: "cells", items };
    }
  }
  throw new TooMuch(node.toString());
}

/** An expression that is true or false for each line. Of a list, it must hold in every cell. */
export function condition(node: MathNode, scope: Scope): Piece {
  const value = translate(node, scope);
  if (value.is === "one") return value.piece;
  if (value.is !== "list") throw new TooMuch(node.toString());
  return op(reduced("SUMPRODUCT", op(constant(1), "-", value.piece)), "=", constant(0));
}

function named(name: string, { inputs, steps }: Scope): Value {
  const step = steps.get(name);
  if (step) return step;
  if (name === "isrow") return one(constant([...inputs.lists.values()][0].across));
  const list = inputs.lists.get(name);
  if (list) return listOf(list);
  const number = inputs.numbers.get(name);
  if (number) return one(number.value);
  throw new TooMuch(name);
}

function listOf({ raw, across, length }: ListInput): List {
  return { is: "list", piece: zeroed(raw), raw, factors: [raw], across, length };
}

/** A list that is no longer as it was given. */
function plainly(list: List): List {
  return { ...list, raw: undefined, factors: undefined };
}

/** Blanks as zero, so that it can be counted with. */
function zeroed(raw: Piece): Piece {
  const clean = call("IF", op(raw, "=", constant("")), constant(0), raw);
  return { ...clean, array: true };
}

const SIGNS = {
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
} as const;

function operated(node: OperatorNode, scope: Scope): Value {
  const fn = node.fn as string;
  const [a, b] = node.args.map((arg) => translate(arg, scope));
  if (fn === "and") return joined(a, b, and);
  if (fn === "or") return joined(a, b, or);
  if (fn === "not") {
    return a.is === "list" ? { ...plainly(a), piece: not(a.piece) } : one(not(pieceOf(a)));
  }
  if (fn === "unaryMinus") return joined(one(constant(0)), a, (x, y) => op(x, "-", y));
  const sign = SIGNS[fn as keyof typeof SIGNS];
  if (!sign) throw new TooMuch(node.toString());
  if (/[<=>]/.test(sign) && a.is === "list" && a.raw && b.is === "one") {
    const limit = b.piece.constant;
    if (typeof limit === "number")
      return { ...a, raw: undefined, factors: undefined, piece: compared(a.raw, sign, limit) };
  }
  const value = joined(a, b, (x, y) => op(x, sign, y));
  const bothGiven = a.is === "list" && b.is === "list" && a.raw && b.raw;
  if (sign !== "*" || value.is !== "list" || !bothGiven) return value;
  return { ...value, factors: [a.raw as Piece, turned(b as List, a.across, b.raw as Piece)] };
}

/** Cells as they were given against a number; a blank counts as zero, though a text is above all numbers. */
function compared(raw: Piece, sign: (typeof SIGNS)[keyof typeof SIGNS], limit: number): Piece {
  const plain = op(raw, sign, constant(limit));
  const ofZero = op(constant(0), sign, constant(limit)).constant as boolean;
  const ofText = sign === ">" || sign === ">=" || sign === "<>";
  const blank = op(raw, "=", constant(""));
  if (ofZero === ofText) return plain;
  return ofZero ? or(blank, plain) : and(op(raw, "<>", constant("")), plain);
}

/** Two values cell by cell. */
function joined(a: Value, b: Value, make: (x: Piece, y: Piece) => Piece): Value {
  if (a.is === "one" && b.is === "one") return one(make(a.piece, b.piece));
  const [list, other] = a.is === "list" ? [a, b] : [b, a];
  if (list.is !== "list" || other.is === "cells" || other.is === "grid")
    throw new TooMuch("a table");
  if (other.is === "one" && other.piece.wide) throw new TooMuch("a list for each of several lines");
  const plain = { ...list, raw: undefined, factors: undefined };
  if (other.is === "one") return { ...plain, piece: make(pieceOf(a), pieceOf(b)) };
  const [first, second] = [a as List, b as List];
  return { ...plain, piece: make(first.piece, turned(second, first.across, second.piece)) };
}

/** A list laid out as another one is. */
export function turned({ across, length }: List, wanted: boolean, piece: Piece): Piece {
  if (across === wanted || length === 1) return piece;
  return { ...call("TRANSPOSE", piece), array: true };
}

function pieceOf(value: Value): Piece {
  if (value.is === "one" || value.is === "list") return value.piece;
  throw new TooMuch("an answer of several cells");
}

function called(node: FunctionNode, scope: Scope): Value {
  const name = node.fn.name;
  const make = FUNCTIONS[name];
  if (!make) throw new TooMuch(name);
  return make(node.args, scope);
}

type Make = (args: MathNode[], scope: Scope) => Value;

/** A function of numbers, cell by cell. */
const ofPieces = (make: (...pieces: Piece[]) => Piece): Make => {
  return (args, scope) => {
    const values = args.map((arg) => translate(arg, scope));
    const [first] = values;
    if (values.length === 1 && first.is === "list") {
      return { ...first, raw: undefined, factors: undefined, piece: make(first.piece) };
    }
    return one(make(...values.map(ofOne)));
  };
};

function ofOne(value: Value): Piece {
  if (value.is !== "one") throw new TooMuch("a list");
  return value.piece;
}

/** The larger or smaller of two; MAX would make one of all lines. */
function extreme(name: "MAX" | "MIN"): Make {
  return ofPieces((a, b) => {
    if (typeof a.constant === "number" && typeof b.constant === "number") {
      return constant(
        name === "MAX" ? Math.max(a.constant, b.constant) : Math.min(a.constant, b.constant),
      );
    }
    if (!a.wide && !b.wide) return call(name, a, b);
    return when(op(a, name === "MAX" ? ">" : "<", b), a, b);
  });
}

function listAt(node: MathNode, scope: Scope): List {
  const value = translate(node, scope);
  if (value.is !== "list") throw new TooMuch(node.toString());
  return value;
}

function symbolOf(node: MathNode): string {
  return (node as MathNode & { name: string }).name;
}

function wordAt(node: MathNode, { inputs }: Scope): WordInput {
  const word = inputs.words.get(symbolOf(node));
  if (!word) throw new TooMuch(node.toString());
  return word;
}

const pairwise = (sign: ">" | "<"): Make => {
  return (args, scope) => {
    const [a, b] = args.map((arg) => listAt(arg, scope));
    return joined(a, b, (x, y) => ({ ...call("IF", op(x, sign, y), x, y), array: true }));
  };
};

const share = (args: MathNode[], scope: Scope): Piece => {
  const [parts, worth] = args.map((arg) => listAt(arg, scope));
  if (!parts.raw || !worth.raw) throw new TooMuch("a computed composition");
  const total = reduced("SUMPRODUCT", parts.raw, turned(worth, parts.across, worth.raw));
  return op(total, "/", reduced("SUM", parts.raw));
};

/** A limit as certificates print it, as a number: not limited is 1, not approved 0, nonsense -1. */
function limitNumber(raw: Piece): Piece {
  const word = call("SUBSTITUTE", raw, constant(" "), constant(""));
  const is = (text: string) => op(word, "=", constant(text));
  const percent = call("IFERROR", call("VALUE", word), constant(-1));
  const typed = when(
    op(call("RIGHT", word, constant(1)), "=", constant("%")),
    when(op(percent, ">", constant(0)), percent, constant(-1)),
    constant(-1),
  );
  const ofWord = when(
    is("notlimited"),
    constant(1),
    when(or(is("notapproved"), is("none")), constant(0), typed),
  );
  const ofNumber = when(op(raw, ">", constant(0)), raw, constant(-1));
  return { ...when(call("ISNUMBER", raw), ofNumber, ofWord), array: true };
}

/** Yes or no as people write it, each cell by itself; a blank is neither. */
function isWord(raw: Piece, ...words: string[]): Piece {
  const word = call("SUBSTITUTE", raw, constant(" "), constant(""));
  return or(...words.map((each) => op(word, "=", constant(each))));
}
const isYes = (raw: Piece) => isWord(raw, "yes", "1", "TRUE");
const isNo = (raw: Piece) => isWord(raw, "no", "FALSE");

/** Every line of a list is held against every other: too many lines would be too many cells. */
const MOST_PAIRED = 200;

/**
 * VOC in the first points of fragrance, those with least VOC first. It is the greatest of the lower bounds
 * that each line's own VOC part gives, as the dual of that programme says: the part times what is waived,
 * less what the lines with less VOC have less of it.
 */
function waivedVoc([shares, vocs, fragrance, exempt]: MathNode[], scope: Scope): Piece {
  const flags = scope.inputs.lists.get(symbolOf(fragrance));
  if (!flags) return constant(0);
  const [parts, voc] = [shares, vocs].map((node) => listAt(node, scope));
  const most = ofOne(translate(exempt, scope));
  if (parts.length > MOST_PAIRED || most.wide) throw new TooMuch("a long list of fragrance");
  const down = (list: List, piece = list.piece) => turned(list, false, piece);
  const [part, isOurs] = [down(voc), down(listOf(flags), isYes(flags.raw))];
  const whole = reduced("SUM", parts.raw as Piece);
  const ours = op(op(down(parts), "*", isOurs), "/", whole);
  const waived = call("MIN", most, reduced("SUMPRODUCT", ours));
  const across = { ...call("TRANSPOSE", part), array: true };
  const less = call("IF", op(part, ">", across), op(part, "-", across), constant(0));
  const bounds = op(op(part, "*", waived), "-", call("MMULT", less, ours));
  return { ...reduced("MAX", bounds), array: true };
}

/** Labels, laid out as their limits are. */
function namedLimits(args: MathNode[], scope: Scope): [Piece, List] {
  const [labels, limits] = args.map((arg) => listAt(arg, scope));
  return [turned(labels, limits.across, labels.raw as Piece), limits];
}

/** True where neither a label nor a limit is filled in. */
function isSpareLine(names: Piece, limits: List): Piece {
  const blank = (raw: Piece) => or(op(raw, "=", constant("")), op(raw, "=", constant(0)));
  return and(blank(names), blank(limits.raw as Piece));
}

/** Each limit as a number; a spare line is above all of them. */
function limitsOf(args: MathNode[], scope: Scope): List {
  const [names, limits] = namedLimits(args, scope);
  const piece = when(isSpareLine(names, limits), constant(2), limitNumber(limits.raw as Piece));
  return { ...limits, raw: undefined, factors: undefined, piece: { ...piece, array: true } };
}

/** What cells hold as numbers, anything else as zero. */
function numbered(raw: Piece): Piece {
  return { ...call("IF", call("ISNUMBER", raw), raw, constant(0)), array: true };
}

function isShareIn(raw: Piece): Piece {
  const number = call("ISNUMBER", raw);
  return and(number, op(raw, ">=", constant(0)), op(raw, "<=", constant(1)));
}

/** Of lists side by side: the line is empty, or none is used of it, or what is beside the amount is known. */
function isUsed(args: MathNode[], scope: Scope, isKnown: (beside: Piece[]) => Piece): List {
  const [first, ...others] = args.map((arg) => listAt(arg, scope));
  const amount = first.raw as Piece;
  const beside = others.map((other) => turned(other, first.across, other.raw as Piece));
  const isEmpty = and(...[amount, ...beside].map((raw) => op(raw, "=", constant(""))));
  const isNone = and(call("ISNUMBER", amount), op(amount, "=", constant(0)));
  const isSome = and(call("ISNUMBER", amount), op(amount, ">", constant(0)), isKnown(beside));
  return { ...first, raw: undefined, factors: undefined, piece: or(isEmpty, isNone, isSome) };
}

/** Numbers rounded down to some decimals, after the same hair that netlabel.ts allows for. */
function down(value: Piece, decimals: Piece): Piece {
  const scale = op(constant(10), "^", decimals);
  const whole = call("INT", op(op(value, "*", scale), "*", written("(1+1E-12)")));
  return op(whole, "/", scale);
}

/** Grams or millilitres as a label has them, kilograms or litres from 1000 on. */
function metricText(value: Piece, isHeavy: Piece): Piece {
  const sure = op(value, "*", written("(1+1E-12)"));
  const under = (limit: number, then: Piece, otherwise: Piece) =>
    when(op(value, "<", constant(limit)), then, otherwise);
  const ofSmall = under(10, constant(1), constant(0));
  const ofLarge = under(1e4, constant(2), under(1e5, constant(1), constant(0)));
  const small = call("ROUNDDOWN", sure, ofSmall);
  const large = call("ROUNDDOWN", op(sure, "/", constant(1000)), ofLarge);
  const said = (amount: Piece, weight: string, volume: string) =>
    op(amount, "&", when(isHeavy, constant(weight), constant(volume)));
  return when(op(sure, "<", constant(1000)), said(small, " g", " mL"), said(large, " kg", " L"));
}

function ounceText(ounces: Piece, isHeavy: Piece): Piece {
  const of = (weight: string, volume: string) => when(isHeavy, constant(weight), constant(volume));
  return op(op(of("Net wt ", ""), "&", ounces), "&", of(" oz", " fl oz"));
}

export const FUNCTIONS: Readonly<Record<string, Make>> = {
  abs: ofPieces((x) => call("ABS", x)),
  exp: ofPieces((x) => call("EXP", x)),
  sqrt: ofPieces((x) => call("SQRT", x)),
  ceil: ofPieces((x) =>
    written(`-INT(-${x.rank < RANK.percent ? `(${x.text})` : x.text})`, RANK.add, x.wide),
  ),
  floor: ofPieces((x) => call("INT", x)),
  round: ofPieces((x, digits) => call("ROUND", x, digits)),
  max: extreme("MAX"),
  min: (args, scope) => {
    if (args.length > 1) return extreme("MIN")(args, scope);
    return one({ ...reduced("MIN", listAt(args[0], scope).piece), array: true });
  },
  sum: ([arg], scope) => {
    const { piece, factors } = listAt(arg, scope);
    if (factors) return one(reduced(factors.length === 1 ? "SUM" : "SUMPRODUCT", ...factors));
    return one(reduced("SUMPRODUCT", piece));
  },
  over: ([a, b], scope) => {
    const divided = translate(b, scope);
    const divide = (x: Piece, y: Piece) => {
      return { ...call("IF", op(x, "=", constant(0)), constant(0), op(x, "/", y)), array: true };
    };
    return joined(listAt(a, scope), divided, divide);
  },
  larger: pairwise(">"),
  smaller: pairwise("<"),
  column: ([arg], scope) => laid(listAt(arg, scope), false),
  row: ([arg], scope) => laid(listAt(arg, scope), true),
  // Where lists stand side by side, they are already laid out as they are to be.
  transpose: ([arg], scope) => translate(arg, scope),
  same: ([word, text], scope) => {
    return one(wordAt(word, scope).is((text as MathNode & { value: string }).value));
  },
  // Of a list, cell by cell.
  filled: ([arg], { inputs }) => {
    const name = symbolOf(arg);
    const cells = inputs.lists.get(name);
    if (cells) return { ...plainly(listOf(cells)), piece: op(cells.raw, "<>", constant("")) };
    const input = inputs.words.get(name) ?? inputs.numbers.get(name);
    if (!input) throw new TooMuch(name);
    return one(not(input.nothing));
  },
  given: ([arg], { inputs }) => one(inputs.isGiven(symbolOf(arg))),
  samelength: ([a, b], scope) => {
    return one(constant(listAt(a, scope).length === listAt(b, scope).length));
  },
  isunit: ([arg], scope) => one(isUnit(wordAt(arg, scope))),
  isvolume: ([arg], scope) => one(isVolume(wordAt(arg, scope))),
  // The right sort of a number is seen to before.
  isnumber: () => one(constant(true)),
  // A pack's text cannot be read by a native formula: without a unit there is none.
  ispack: (_, { inputs }) => one(inputs.isGiven("unit").constant === false ? noText() : FALSE),
  packholds: (_, { inputs }) => one(inputs.isGiven("unit").constant === false ? noText() : REFUSED),
  isweight: ([arg], scope) => one(isWeight(wordAt(arg, scope))),
  per: ([arg], scope) => {
    const literal = (arg as MathNode & { value?: string }).value;
    return one(sizeOf(literal ? { constant: literal } : wordAt(arg, scope)));
  },
  counted: ([arg], scope) => {
    const { raw, ...list } = listAt(arg, scope);
    return { ...list, factors: undefined, piece: numbered(raw as Piece) };
  },
  isknown: (args, scope) => isUsed(args, scope, ([share]) => isShareIn(share)),
  isquoted: (args, scope) =>
    isUsed(args, scope, ([low, high]) => {
      const areNumbers = and(call("ISNUMBER", low), call("ISNUMBER", high));
      return and(areNumbers, op(low, ">", constant(0)), op(high, ">=", low));
    }),
  islimit: ([arg], scope) => {
    const { raw, ...list } = listAt(arg, scope);
    const number = limitNumber(raw as Piece);
    const fits = and(op(number, ">=", constant(0)), op(number, "<=", constant(1)));
    return { ...list, factors: undefined, piece: fits };
  },
  banned: ([shares, limits], scope) => {
    const [parts, words] = [listAt(shares, scope), listAt(limits, scope)];
    const limit = turned(words, parts.across, limitNumber(words.raw as Piece));
    const both = and(op(parts.piece, ">", constant(0)), op(limit, "=", constant(0)));
    return one(op(reduced("SUMPRODUCT", both), ">", constant(0)));
  },
  usedup: ([shares, limits], scope) => {
    const [parts, words] = [listAt(shares, scope), listAt(limits, scope)];
    const limit = turned(words, parts.across, limitNumber(words.raw as Piece));
    const isFree = op(parts.piece, "=", constant(0));
    const used = op(op(parts.piece, "/", reduced("SUM", parts.raw as Piece)), "/", limit);
    const piece = { ...call("IF", isFree, constant(0), used), array: true };
    return { ...parts, raw: undefined, factors: undefined, piece };
  },
  isyesno: ([arg], scope) => {
    const { raw, ...list } = listAt(arg, scope);
    return { ...list, factors: undefined, piece: or(isYes(raw as Piece), isNo(raw as Piece)) };
  },
  // A line for a reader, of which no number comes.
  largelimits: () => one(constant("")),
  isspare: (args, scope) => {
    const [names, list] = namedLimits(args, scope);
    return { ...list, raw: undefined, factors: undefined, piece: isSpareLine(names, list) };
  },
  limitsof: (args, scope) => limitsOf(args, scope),
  labelof: (args, scope) => {
    const [names] = namedLimits(args, scope);
    const limits = limitsOf(args, scope);
    const lowest = reduced("MIN", limits.piece);
    // An end mark keeps a label that is blank among those that are joined.
    const mark = call("CHAR", constant(1));
    const ours = when(op(limits.piece, "=", lowest), op(names, "&", mark), constant(""));
    const joinedUp = reduced("_xlfn.TEXTJOIN", constant(" and "), constant(true), ours);
    const shown = call("SUBSTITUTE", joinedUp, mark, constant(""));
    return one({
      ...when(op(lowest, "=", constant(1)), constant("not limited"), shown),
      array: true,
    });
  },
  // Ranges of shares are two columns, which no list is.
  isrange: () => one(constant(false)),
  vocof: (args, scope) => one(share(args, scope)),
  waivedvoc: (args, scope) => one(waivedVoc(args, scope)),
  down: ofPieces(down),
  metrictext: ([held, unit], scope) =>
    one(metricText(ofOne(translate(held, scope)), isWeight(wordAt(unit, scope)))),
  ouncetext: ([ounces, unit], scope) =>
    one(ounceText(ofOne(translate(ounces, scope)), isWeight(wordAt(unit, scope)))),
  concat: ofPieces((...parts) => parts.reduce((a, b) => op(a, "&", b))),
};

function noText(): never {
  throw new TooMuch("a pack's text is more than arithmetic");
}

function laid(list: List, across: boolean): List {
  return {
    ...list,
    raw: undefined,
    factors: undefined,
    across,
    piece: turned(list, across, list.piece),
  };
}

/** A column times a row is a table of them; everything else is as it stands. */
export function gridOf(node: MathNode, scope: Scope): Value {
  const isTable = node.type === "OperatorNode" && (node as OperatorNode).fn === "multiply";
  if (!isTable) return translate(node, scope);
  const [a, b] = (node as OperatorNode).args.map((arg) => translate(arg, scope));
  if (a.is !== "list" || b.is !== "list" || a.across || !b.across) return translate(node, scope);
  return { is: "grid", piece: op(a.piece, "*", b.piece), rows: a.length, columns: b.length };
}

/** One value or another, by a condition. */
export function choose(test: Piece, then: Value, otherwise: Value): Value {
  if (test.constant !== undefined) return test.constant ? then : otherwise;
  if (then.is === "cells" && otherwise.is === "cells") {
    const items = then.items.map((item, i) => choose(test, item, otherwise.items[i]) as One | List);
    return { is: "cells", items };
  }
  if (then.is === "one" && otherwise.is === "one")
    return one(when(test, then.piece, otherwise.piece));
  if (then.is === "list" && otherwise.is === "list" && !test.wide) {
    const plain = { ...then, raw: undefined, factors: undefined };
    return {
      ...plain,
      piece: when(test, then.piece, turned(otherwise, then.across, otherwise.piece)),
    };
  }
  throw new TooMuch("a choice between a list and a number");
}
