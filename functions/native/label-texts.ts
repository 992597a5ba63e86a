/** Contents as a label has them, in numbers and in words. */
import { ONE, type Piece, ZERO, call, constant, op, when, written } from "./piece.ts";
import { type Make, type Term, ofPieces } from "./term.ts";
import { isWeight } from "./units.ts";
import { one } from "./values.ts";

/** The hair that netlabel.ts allows for. */
const HAIR = written("(1+1E-12)");

function down(value: Piece, decimals: Piece): Piece {
  const scale = op(constant(10), "^", decimals);
  return op(call("INT", op(op(value, "*", scale), "*", HAIR)), "/", scale);
}

/** Grams or millilitres, kilograms or litres from 1000 on. */
function metricText(value: Piece, isHeavy: Piece): Piece {
  const sure = op(value, "*", HAIR);
  const under = (limit: number, then: Piece, otherwise: Piece) =>
    when(op(value, "<", constant(limit)), then, otherwise);
  const ofSmall = under(10, ONE, ZERO);
  const ofLarge = under(1e4, constant(2), under(1e5, ONE, ZERO));
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

export const LABEL_TEXTS: Readonly<Record<string, Make>> = {
  down: ofPieces(down),
  metrictext: (held: Term, unit: Term) => one(metricText(held.piece, isWeight(unit.word))),
  ouncetext: (ounces: Term, unit: Term) => one(ounceText(ounces.piece, isWeight(unit.word))),
  concat: ofPieces((...parts) => parts.reduce((a, b) => op(a, "&", b))),
};
