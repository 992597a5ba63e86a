/**
 * Units in a native formula: is it one, is it a weight, and how large is it in grams or millilitres.
 *
 * A unit that stands in a cell is looked up in tables that the copy brings along on a sheet of its own, which
 * formulas know by these names: every word for every unit, and its size.
 */
import { UNIT_WORDS, type Unit, unitWord } from "../../src/units";
import { turn } from "../../src/measure/turn";
import { type Piece, REFUSED, call, constant, written } from "./piece";

/** A unit as it stands in the formula: a literal word, or a piece as it is looked up. */
export interface UnitWord {
  constant?: string;
  clean?: Piece;
  /** Where the function takes but one sort of units. */
  only?: Unit["measures"];
}

/** The names of the tables: of all words, and of each sort. */
export const UNIT_TABLES = {
  all: "mist_units",
  weight: "mist_weights",
  volume: "mist_volumes",
} as const;

/** A line of the table: a word, and grams or millilitres. */
export interface UnitLine {
  word: string;
  size: number;
  measures: Unit["measures"];
}

/** The lines of the table of all words: those of weight, then those of volume. */
export const UNIT_LINES: readonly UnitLine[] = [...UNIT_WORDS].map(([word, unit]) => {
  return { word, size: sizeIn(unit), measures: unit.measures };
});

function sizeIn({ name, measures }: Unit): number {
  return turn(1, name, measures === "weight" ? "g" : "mL");
}

/** A word in a cell, as it is looked up. */
export function cleanUnit(piece: Piece): Piece {
  const without = (from: Piece, sign: string) =>
    call("SUBSTITUTE", from, constant(sign), constant(""));
  return without(without(piece, " "), ".");
}

function lookedUp(word: UnitWord, among: keyof typeof UNIT_TABLES): Piece {
  const table = written(UNIT_TABLES[among]);
  return call("VLOOKUP", word.clean as Piece, table, constant(2), constant(0));
}

export function isUnit(word: UnitWord): Piece {
  if (word.constant !== undefined) return constant(UNIT_WORDS.has(unitWord(word.constant)));
  return call("ISNUMBER", lookedUp(word, word.only ?? "all"));
}

export function isWeight(word: UnitWord): Piece {
  if (word.constant !== undefined)
    return constant(UNIT_WORDS.get(unitWord(word.constant))?.measures === "weight");
  if (word.only) return constant(word.only === "weight");
  return call("ISNUMBER", lookedUp(word, "weight"));
}

export function isVolume(word: UnitWord): Piece {
  if (word.constant !== undefined)
    return constant(UNIT_WORDS.get(unitWord(word.constant))?.measures === "volume");
  return call("ISNUMBER", lookedUp(word, "volume"));
}

/** Grams or millilitres in one unit. */
export function sizeOf(word: UnitWord): Piece {
  if (word.constant !== undefined) {
    const unit = UNIT_WORDS.get(unitWord(word.constant));
    return unit ? constant(sizeIn(unit)) : REFUSED;
  }
  const size = lookedUp(word, word.only ?? "all");
  // Of several lines one may have a wrong unit: that it is refused is seen to elsewhere, and must not spoil others.
  return size.wide ? call("IFERROR", size, constant(1)) : size;
}
