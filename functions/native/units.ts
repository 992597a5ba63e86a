/** Units in a native formula: is it one, is it a weight, how many grams or millilitres is it. */
import { squeeze } from "../../src/errors";
import { turn } from "../../src/measure/turn";
import { VOLUME_UNITS, WEIGHT_UNITS, unitOf } from "../../src/units";
import { ONE, type Piece, REFUSED, ZERO, call, constant, written } from "./piece";

/** A word as the formula has it, without its spaces: typed, or a piece that gives it. */
export interface Word {
  word: string | Piece;
  /** Where the function takes but one sort of units. */
  only?: "weight" | "volume" | undefined;
}

const ALL_UNITS = [...WEIGHT_UNITS, ...VOLUME_UNITS];

function isAmong(names: readonly string[], word: string): boolean {
  return names.some((name) => squeeze(name) === word);
}

function unitsFor({ only }: Word): readonly string[] {
  if (only) return only === "weight" ? WEIGHT_UNITS : VOLUME_UNITS;
  return ALL_UNITS;
}

function placeIn(names: readonly string[], word: Piece): Piece {
  const list = written(`{${names.map((name) => `"${name}"`).join(",")}}`);
  return call("MATCH", word, list, ZERO);
}

export function isUnit(unit: Word): Piece {
  const { word } = unit;
  if (typeof word === "string") return constant(isAmong(ALL_UNITS, word));
  return call("ISNUMBER", placeIn(unitsFor(unit), word));
}

export function isWeight({ word, only }: Word): Piece {
  if (typeof word === "string") return constant(isAmong(WEIGHT_UNITS, word));
  if (only) return constant(only === "weight");
  return call("ISNUMBER", placeIn(WEIGHT_UNITS, word));
}

/** Grams or millilitres in one unit. */
export function sizeOf(unit: Word): Piece {
  const { word } = unit;
  if (typeof word === "string") return isAmong(ALL_UNITS, word) ? sizeOfUnit(word) : REFUSED;
  const names = unitsFor(unit);
  const place = placeIn(names, word);
  // Of several lines one may have a wrong unit: the needs refuse it, and it must not spoil others.
  const sure = place.wide ? call("IFERROR", place, ONE) : place;
  return call("CHOOSE", sure, ...names.map(sizeOfUnit));
}

function sizeOfUnit(name: string): Piece {
  return constant(turn(1, name, unitOf("unit", name).measures === "weight" ? "g" : "mL"));
}
