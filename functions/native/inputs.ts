/** The arguments of a call as pieces of a native formula: their value, their sort, and when they are blank. */
import { squeeze } from "../../src/errors";
import type { CatalogEntry, Param } from "../catalog/entry";
import { WORD_KINDS, isLeftOutAtZero, isRefusedAtZero } from "../catalog/kinds";
import { FALSE, type Piece, TRUE, and, call, constant, not, op, or, reduced, when } from "./piece";
import { TooMuch } from "./too-much";
import { type UnitWord, cleanUnit } from "./units";

export interface Shape {
  rows: number;
  columns: number;
}

/** The shape of all of them together, as a sheet stretches one over another; null where one is not known. */
export function together(shapes: (Shape | null)[]): Shape | null {
  const known = shapes.filter((shape) => shape !== null);
  if (known.length < shapes.length) return null;
  return {
    rows: Math.max(1, ...known.map(({ rows }) => rows)),
    columns: Math.max(1, ...known.map(({ columns }) => columns)),
  };
}

/** What a call was given for an argument. */
export interface Given {
  piece: Piece;
  /** Its size, where that is known before the sheet is worked out. */
  shape: Shape | null;
  /** A number, a number or "", or whatever a cell may hold. */
  holds: "number" | "number or blank" | "anything";
}

interface Input {
  /** True where it is of the right sort, a blank included. */
  fits: Piece;
  /** True where nothing is filled in; a zero may be a blank that was handed over as one. */
  nothing: Piece;
  /** The same where a zero is refused on a line that has anything else on it. */
  blank?: Piece;
  /** True where it is left out, so that its default counts. */
  absent: Piece;
}

export interface NumberInput extends Input {
  value: Piece;
}

export interface ListInput extends Omit<Input, "absent"> {
  raw: Piece;
  across: boolean;
  length: number;
}

export interface WordInput extends Input, UnitWord {
  is(word: string): Piece;
}

const BLANK = constant("");
const ZERO = constant(0);

export class Inputs {
  readonly numbers = new Map<string, NumberInput>();
  readonly lists = new Map<string, ListInput>();
  readonly words = new Map<string, WordInput>();
  private readonly given = new Map<string, Piece>();
  /** Arguments of one cell where the call has many lines: they do not fill a line. */
  private readonly stretched: ReadonlySet<string>;

  /** Those named in "surely" are held to be above zero elsewhere, so that a blank is no number there. */
  constructor(
    readonly entry: CatalogEntry,
    args: (Given | undefined)[],
    surely: ReadonlySet<string> = new Set(),
  ) {
    const singles = entry.params.flatMap((param, i) =>
      param.range ? [] : [{ param, shape: args[i]?.shape }],
    );
    const isCell = (shape?: Shape | null) =>
      shape === undefined || (shape?.rows === 1 && shape.columns === 1);
    const cells = singles.filter(({ shape }) => isCell(shape)).map(({ param }) => param.name);
    this.stretched = new Set(cells.length < singles.length ? cells : []);
    entry.params.forEach((param, i) => this.add(param, args[i], surely.has(param.name)));
  }

  isGiven(name: string): Piece {
    return this.given.get(name) ?? FALSE;
  }

  /** All of them of the right sort. */
  get fit(): Piece {
    return and(...this.all().map(({ fits }) => fits));
  }

  /** Nothing filled in at all. */
  get empty(): Piece {
    return and(...this.all().map(({ nothing }) => nothing));
  }

  /** No required quantity is filled in: a spare line. */
  get spare(): Piece {
    const isRequired = ({ optional, kind }: Param) => !optional && !WORD_KINDS.has(kind);
    const required = this.entry.params.filter(isRequired);
    const own = required.filter(({ name }) => !this.stretched.has(name));
    return and(
      ...(own.length > 0 ? own : required).map(({ name }) => {
        const { blank, nothing } = this.of(name);
        return blank ?? nothing;
      }),
    );
  }

  /** A line that shows blank: spare, with nothing wrong in what may be left out; or without anything on it. */
  get quiet(): Piece {
    const isSpare = and(this.spare, this.optionsFit);
    return this.entry.params.some(isRefusedAtZero) ? or(isSpare, this.empty) : isSpare;
  }

  /** What may be left out, of the right sort. */
  get optionsFit(): Piece {
    const options = this.entry.params.filter(({ name, optional }) => optional && this.of(name));
    return and(...options.map(({ name }) => this.of(name).fits));
  }

  private of(name: string): Omit<Input, "absent"> {
    return (this.numbers.get(name) ?? this.lists.get(name) ?? this.words.get(name)) as Input;
  }

  private all(): Omit<Input, "absent">[] {
    return this.entry.params.filter(({ name }) => this.of(name)).map(({ name }) => this.of(name));
  }

  private add(param: Param, given: Given | undefined, isSure: boolean) {
    const { name } = param;
    if (param.range) {
      if (!given) return;
      const list = listInput(param, given);
      this.lists.set(name, list);
      this.given.set(name, list.length > 1 ? TRUE : not(op(list.raw, "=", BLANK)));
      return;
    }
    const isWord = WORD_KINDS.has(param.kind);
    const input = isWord
      ? { ...wordInput(param, given), only: onlyUnit(this.entry, name) }
      : numberInput(param, given, isSure);
    this.given.set(name, not(input.absent));
    if (isWord) this.words.set(name, input as WordInput);
    else this.numbers.set(name, input as NumberInput);
  }
}

/** The one sort of units that a function takes for an argument, where it takes but one. */
function onlyUnit({ needs }: CatalogEntry, name: string): UnitWord["only"] {
  const has = (text: string) => needs.some(({ expression }) => expression === text);
  if (has(`isunit(${name}) and isweight(${name})`)) return "weight";
  return has(`isunit(${name}) and not isweight(${name})`) ? "volume" : undefined;
}

function numberInput(param: Param, given: Given | undefined, isSure: boolean): NumberInput {
  const fallback = constant(typeof param.default === "number" ? param.default : 0);
  if (!given || given.piece.constant === "") {
    // What is required and blank is unknown: no number fits there.
    return { value: fallback, fits: constant(param.optional), nothing: TRUE, absent: TRUE };
  }
  const { piece, holds } = given;
  const isRefused = isRefusedAtZero(param);
  const isLeftOut = isLeftOutAtZero(param);
  if (piece.constant !== undefined) {
    if (typeof piece.constant !== "number") throw new TooMuch(`${param.name} is not a number`);
    const isZero = piece.constant === 0;
    const absent = constant(isLeftOut && isZero);
    const fits = constant(!(isRefused && isZero));
    const value = when(absent, fallback, piece);
    return { value, fits, nothing: constant(isZero), absent, ...(isRefused && { blank: FALSE }) };
  }
  const isBlank = holds === "number" ? FALSE : op(piece, "=", BLANK);
  const isZero = op(piece, "=", ZERO);
  const nothing = or(isBlank, isZero);
  const blank = isRefused && { blank: isBlank };
  const absent = or(isBlank, isLeftOut ? isZero : FALSE);
  const isNumber = call("ISNUMBER", piece);
  const isRight = isRefused ? and(isNumber, not(isZero)) : isNumber;
  // Of several lines one may hold a word: that it is refused is seen to elsewhere, and must not spoil others.
  const clean = piece.wide ? when(isNumber, piece, ZERO) : call("N", piece);
  if (!param.optional) {
    const value = holds === "number" || (isSure && !piece.wide) ? piece : clean;
    const fits = holds === "number" && isSure ? TRUE : isRight;
    return { value, fits, nothing, absent, ...blank };
  }
  const cleaned = holds === "number" ? piece : clean;
  const value = fallback.constant === 0 ? cleaned : when(absent, fallback, piece);
  // Nothing else may look at what may be left out, and an error in it is still one.
  return { value, fits: or(isRight, isBlank), nothing, absent, ...blank };
}

function wordInput(param: Param, given: Given | undefined): WordInput {
  const fallback = squeeze(String(param.default ?? ""));
  if (!given || typeof given.piece.constant === "string") {
    const typed = given ? squeeze(given.piece.constant as string) : "";
    const word = typed === "" ? fallback : typed;
    const is = (text: string) => constant(word === squeeze(text));
    const nothing = constant(typed === "");
    return { constant: word, is, fits: TRUE, nothing, absent: nothing };
  }
  const { piece } = given;
  const clean = call("SUBSTITUTE", piece, constant(" "), BLANK);
  const nothing = or(op(piece, "=", BLANK), op(piece, "=", ZERO));
  const is = (text: string) => {
    const same = op(clean, "=", constant(text));
    return param.optional && squeeze(text) === fallback ? or(nothing, same) : same;
  };
  const looked = param.kind === "unit" ? cleanUnit(piece) : clean;
  return { clean: looked, is, fits: TRUE, nothing, absent: nothing };
}

function listInput(param: Param, { piece, shape, holds }: Given): ListInput {
  if (!shape)
    throw new TooMuch(`the size of ${param.name} is known only when the sheet is worked out`);
  if (shape.rows > 1 && shape.columns > 1) throw new TooMuch(`${param.name} is a table`);
  const raw: Piece = { ...piece, constant: undefined, wide: true };
  const none = (bad: Piece) => op(reduced("SUMPRODUCT", bad), "=", ZERO);
  const isText = and(op(raw, "<>", BLANK), not(call("ISNUMBER", raw)));
  const isFilled = not(or(op(raw, "=", BLANK), op(raw, "=", ZERO)));
  return {
    raw,
    across: shape.rows === 1 && shape.columns > 1,
    length: shape.rows * shape.columns,
    fits: param.mixed || holds === "number" ? TRUE : none(isText),
    nothing: none(isFilled),
  };
}
