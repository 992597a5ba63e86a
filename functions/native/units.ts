/** Units in a native formula: is it one, is it a weight, and how large is it in grams or millilitres. */
import { VOLUME_UNITS, WEIGHT_UNITS, unitOf } from "../../src/units";
import { turn } from "../../src/measure/turn";
import { squeeze } from "../../src/errors";
import { type Piece, REFUSED, call, constant, written } from "./piece";

/** A unit as it stands in the formula: a literal word, or a piece of which spaces are already taken off. */
export interface UnitWord {
  constant?: string;
  clean?: Piece;
  /** Where the function takes but one sort of units. */
  only?: "weight" | "volume";
}

const known = (names: readonly string[], name: string) => {
  return names.some((each) => squeeze(each) === name);
};

function namesFor({ only }: UnitWord): string[] {
  if (only) return only === "weight" ? WEIGHT_UNITS : VOLUME_UNITS;
  return [...WEIGHT_UNITS, ...VOLUME_UNITS];
}

function placeIn(names: readonly string[], word: UnitWord): Piece {
  const list = written(`{${names.map((name) => `"${name}"`).join(",")}}`);
  return call("MATCH", word.clean as Piece, list, constant(0));
}

export function isUnit(word: UnitWord): Piece {
  if (word.constant !== undefined) return constant(known(namesFor({}), word.constant));
  return call("ISNUMBER", placeIn(namesFor(word), word));
}

export function isWeight(word: UnitWord): Piece {
  if (word.constant !== undefined) return constant(known(WEIGHT_UNITS, word.constant));
  if (word.only) return constant(word.only === "weight");
  return call("ISNUMBER", placeIn(WEIGHT_UNITS, word));
}

/** Grams or millilitres in one unit. */
export function sizeOf(word: UnitWord): Piece {
  const size = (name: string) => {
    const isWeightUnit = unitOf("unit", name).measures === "weight";
    return constant(turn(1, name, isWeightUnit ? "g" : "mL"));
  };
  if (word.constant !== undefined)
    return known(namesFor({}), word.constant) ? size(word.constant) : REFUSED;
  const names = namesFor(word);
  const place = placeIn(names, word);
  // Of several lines one may have a wrong unit: that it is refused is seen to elsewhere, and must not spoil others.
  const sure = place.wide ? call("IFERROR", place, constant(1)) : place;
  return call("CHOOSE", sure, ...names.map(size));
}
