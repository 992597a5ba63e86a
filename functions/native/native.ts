/**
 * A call of a worksheet function as a native formula that stays live without the add-in.
 *
 * Functions that are plain arithmetic have @needs lines, which say what must hold of the inputs, and
 * @working lines, which say how the number comes about. Both become one formula: the number where all holds,
 * blank on a spare line, and #VALUE! otherwise, as the function itself would have it. The error's text is
 * lost: native formulas have none.
 */
import { type MathNode, parse } from "mathjs";
import { conditionIn } from "../catalog/conditions";
import type { CatalogEntry, Need } from "../catalog/entry";
import { WORD_KINDS } from "../catalog/kinds";
import { type Given, Inputs, type Shape, together } from "./inputs";
import { type Piece, REFUSED, TRUE, and, call, constant, not, or, when, written } from "./piece";
import { TooMuch } from "./too-much";
import { type Cells, type Scope, type Value, choose, condition, gridOf, turned } from "./translate";

export interface Native {
  piece: Piece;
  shape: Shape | null;
  holds: Given["holds"];
}

const EMPTY = constant("");

/** The call as a native formula. Throws TooMuch where there is none. */
export function nativeOf(entry: CatalogEntry, args: (Given | undefined)[]): Native {
  if (entry.needs.length === 0) throw new TooMuch(`${entry.id} is more than arithmetic`);
  const isQuiet = failsOnSpareLine(entry);
  const inputs = new Inputs(entry, args, isQuiet ? surelyAboveZero(entry) : undefined);
  const scope: Scope = { inputs, steps: new Map() };
  const lines = args.filter((arg, i): arg is Given => Boolean(arg) && !entry.params[i].range);
  const answer = laidOut(worked(entry, scope), together(lines.map(({ shape }) => shape)));
  const needs = entry.needs.map((need) => ({ ...need, holds: holdsOf(need, scope) }));
  // A unit that is none would fail in a sum before it is told as wrong: sums with units come after.
  const [sized, simple] = [true, false].map((is) =>
    needs.filter(({ expression }) => /\bper\(/.test(expression) === is),
  );
  const further = when(and(...sized.map(({ holds }) => holds)), answer.piece, REFUSED);
  const spareLine = when(inputs.quiet, EMPTY, REFUSED);
  const piece = isQuiet
    ? when(and(inputs.fit, ...simple.map(({ holds }) => holds)), further, spareLine)
    : when(
        inputs.fit,
        when(inputs.empty, EMPTY, held(needs, inputs.spare, answer.piece)),
        spareLine,
      );
  const isText = ["label", "category", "worded"].includes(entry.returns.kind);
  return { piece, shape: answer.shape, holds: isText ? "anything" : "number or blank" };
}

/** True where the need that is looked at first always fails on a spare line, and leaves it blank. */
function failsOnSpareLine({ needs: [first], params }: CatalogEntry): boolean {
  if (!first.orBlank || first.when) return false;
  const filled = /^filled\((\w+)\)$/.exec(first.expression)?.[1];
  const param = params.find(({ name }) => name === filled);
  return param ? !WORD_KINDS.has(param.kind) : / > 0$/.test(first.expression);
}

/** Arguments that a line of their own holds above zero. */
function surelyAboveZero({ needs }: CatalogEntry): Set<string> {
  const names = needs
    .filter(({ when: only }) => !only)
    .map(({ expression }) => /^(\w+) > 0$/.exec(expression)?.[1]);
  return new Set(names.filter((name) => name !== undefined));
}

function holdsOf({ when: only, expression }: Need, scope: Scope): Piece {
  const applies = conditionOf(only, scope);
  if (applies.constant === false) return TRUE;
  return or(not(applies), condition(parse(expression), scope));
}

/** The answer behind its needs, looked at in their order. */
function held(needs: (Need & { holds: Piece })[], spare: Piece, answer: Piece): Piece {
  const [first] = needs;
  if (!first) return answer;
  // Those that fail alike are looked at together.
  const next = needs.findIndex(({ orBlank }) => orBlank !== first.orBlank);
  const cut = next < 0 ? needs.length : next;
  const together = and(...needs.slice(0, cut).map(({ holds }) => holds));
  const otherwise = first.orBlank ? when(spare, EMPTY, REFUSED) : REFUSED;
  return when(together, held(needs.slice(cut), spare, answer), otherwise);
}

/** Where a working line or a need applies. */
function conditionOf(text: string | undefined, scope: Scope): Piece {
  if (text === undefined) return TRUE;
  const found = conditionIn(text);
  if (found.sort === "expression") return condition(parse(found.expression), scope);
  if (found.sort === "word")
    return (scope.inputs.words.get(found.name) ?? fail(text)).is(found.word);
  const given = scope.inputs.isGiven(found.name);
  return found.given ? given : not(given);
}

function fail(text: string): never {
  throw new TooMuch(text);
}

/** The last step, those before it put in by name. Lines of one name are its alternatives. */
function worked(entry: CatalogEntry, scope: Scope): Value {
  let last: Value | undefined;
  for (let i = 0; i < entry.working.length;) {
    const { name } = entry.working[i];
    let end = i;
    while (entry.working[end]?.name === name) end++;
    const ways = entry.working.slice(i, end).flatMap(({ when: only, expression }) => {
      const applies = conditionOf(only, scope);
      return applies.constant === false ? [] : [{ applies, node: parse(expression) as MathNode }];
    });
    // A word that none of them knows is refused by the needs.
    if (ways.length === 0) return { is: "one", piece: REFUSED };
    last = ways
      .map(({ node }) => gridOf(node, scope))
      .reduceRight((rest, value, j) => choose(ways[j].applies, value, rest));
    scope.steps.set(name, last);
    i = end;
  }
  return last ?? fail(entry.id);
}

/** The answer as it lies in cells. */
function laidOut(value: Value, lines: Shape | null): { piece: Piece; shape: Shape | null } {
  if (value.is === "one") return { piece: value.piece, shape: lines };
  if (value.is === "cells") return beside(value, lines);
  if (!lines || lines.rows * lines.columns > 1) fail("a list for each of several lines");
  const piece = { ...value.piece, array: true };
  if (value.is === "grid") return { piece, shape: { rows: value.rows, columns: value.columns } };
  const { across, length } = value;
  return { piece, shape: across ? { rows: 1, columns: length } : { rows: length, columns: 1 } };
}

/** Cells side by side; for lines in a row, one above the other. */
function beside({ items }: Cells, lines: Shape | null): { piece: Piece; shape: Shape | null } {
  const [first] = items;
  if (!lines) return fail("an answer of several cells");
  if (first.is === "list") {
    const { across, length } = first;
    const pieces = items.map((item) => turned(item as typeof first, across, item.piece));
    const shape = across
      ? { rows: items.length, columns: length }
      : { rows: length, columns: items.length };
    return { piece: inCells(pieces, across), shape };
  }
  if (lines.rows > 1 && lines.columns > 1) fail("several cells for each of a table of lines");
  const down = lines.columns > 1;
  const shape = down
    ? { rows: items.length, columns: lines.columns }
    : { rows: lines.rows, columns: items.length };
  return {
    piece: inCells(
      items.map(({ piece }) => piece),
      down,
    ),
    shape,
  };
}

/** Each piece in its cell: of two, IF({1,0},first,second). */
function inCells(pieces: Piece[], down: boolean): Piece {
  const last = pieces.length - 1;
  return pieces.reduceRight((rest, piece, place) => {
    if (place === last) return piece;
    const marks = pieces.map((_, i) => (i === place ? 1 : 0)).join(down ? ";" : ",");
    return { ...call("IF", written(`{${marks}}`), piece, rest), array: true };
  }, pieces[last]);
}
