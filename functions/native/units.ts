/**
 * Units in a native formula: is it one, is it a weight, how many grams or millilitres is it.
 *
 * A unit that stands in a cell is looked up in tables that the copy brings along on a sheet of its
 * own, which formulas know by these names: every word for every unit, and its size.
 */
import { turn } from "../../src/measure/turn.ts";
import { UNIT_WORDS, type Unit, unitWord } from "../../src/units.ts";
import { BLANK, ONE, type Piece, REFUSED, ZERO, call, constant, written } from "./piece.ts";

/** A word as the formula has it, without its spaces: typed, or a piece that gives it. */
export interface Word {
  word: string | Piece;
  /** Where the function takes but one sort of units. */
  only?: Unit["measures"] | undefined;
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

/** A word in a cell, as it is looked up: without spaces and dots. */
export function cleanUnit(piece: Piece): Piece {
  const without = (from: Piece, sign: string) => call("SUBSTITUTE", from, constant(sign), BLANK);
  return without(without(piece, " "), ".");
}

function lookedUp(word: Piece, among: keyof typeof UNIT_TABLES): Piece {
  return call("VLOOKUP", word, written(UNIT_TABLES[among]), constant(2), ZERO);
}

function typedUnit(word: string): Unit | undefined {
  return UNIT_WORDS.get(unitWord(word));
}

export function isUnit({ word, only }: Word): Piece {
  if (typeof word === "string") return constant(typedUnit(word) !== undefined);
  return call("ISNUMBER", lookedUp(word, only ?? "all"));
}

export function isWeight(unit: Word): Piece {
  return measures(unit, "weight");
}

export function isVolume(unit: Word): Piece {
  return measures(unit, "volume");
}

function measures({ word, only }: Word, sort: Unit["measures"]): Piece {
  if (typeof word === "string") return constant(typedUnit(word)?.measures === sort);
  if (only) return constant(only === sort);
  return call("ISNUMBER", lookedUp(word, sort));
}

/** Grams or millilitres in one unit. */
export function sizeOf({ word, only }: Word): Piece {
  if (typeof word === "string") {
    const unit = typedUnit(word);
    return unit ? constant(sizeIn(unit)) : REFUSED;
  }
  const size = lookedUp(word, only ?? "all");
  // Of several lines one may have a wrong unit: the needs refuse it, and it must not spoil others.
  return size.wide ? call("IFERROR", size, ONE) : size;
}
