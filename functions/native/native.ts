/**
 * A call of a worksheet function as a native formula that stays live without the add-in.
 *
 * Functions that are plain arithmetic have @needs lines, which say what must hold of the inputs,
 * and @working lines, which say how the number comes about. Both become one formula: the number
 * where all holds, blank on a spare line, and #VALUE! otherwise, as the function itself answers.
 * The error's text is lost: native formulas have none.
 */
import { conditionIn } from "../catalog/conditions.ts";
import type { CatalogEntry, Need, WorkingLine } from "../catalog/entry.ts";
import { WORD_KINDS } from "../catalog/kinds.ts";
import { aboveZero, calledOn, callsAnywhere, nameIn, read } from "./expression.ts";
import { type Given, type Spread, together } from "./given.ts";
import { NativeInputs } from "./inputs.ts";
import { laidOut } from "./layout.ts";
import { BLANK, type Piece, REFUSED, TRUE, and, not, or, when } from "./piece.ts";
import { TooMuch } from "./too-much.ts";
import { type Scope, asTable, condition } from "./translate.ts";
import { type Value, choose, one } from "./values.ts";

export interface Native {
  piece: Piece;
  shape: Spread | null;
  holds: Given["holds"];
}

/** A need, and the condition that it is in the formula. */
interface Check extends Need {
  holds: Piece;
}

/** The call as a native formula. Throws TooMuch where there is none. */
export function nativeOf(entry: CatalogEntry, args: readonly (Given | undefined)[]): Native {
  if (entry.needs.length === 0) throw new TooMuch(`${entry.id} is more than arithmetic`);
  const isQuiet = failsOnSpareLine(entry);
  const inputs = new NativeInputs(entry, args, isQuiet ? surelyAboveZero(entry) : undefined);
  const scope: Scope = { inputs, steps: new Map() };
  const lines = entry.params.flatMap(({ range }, i) => (range ? [] : (args[i] ?? [])));
  const answer = laidOut(worked(entry, scope), together(lines.map(({ shape }) => shape)));
  const checks = entry.needs.map((need) => ({ ...need, holds: holdsOf(need, scope) }));
  const spareLine = when(inputs.quiet, BLANK, REFUSED);
  const piece = isQuiet
    ? checkedAtOnce(checks, inputs.fit, answer.piece, spareLine)
    : when(
        inputs.fit,
        when(inputs.empty, BLANK, checkedInTurn(checks, inputs.spare, answer.piece)),
        spareLine,
      );
  const isText = ["label", "category", "worded"].includes(entry.returns.kind);
  return { piece, shape: answer.shape, holds: isText ? "anything" : "number or blank" };
}

/** True where the first need always fails on a spare line, and so leaves it blank. */
function failsOnSpareLine({ needs: [first], params }: CatalogEntry): boolean {
  if (!first?.orBlank || first.when) return false;
  const tree = read(first.expression);
  const filled = calledOn(tree, "filled");
  const param = params.find(({ name }) => name === filled);
  return param ? !WORD_KINDS.has(param.kind) : aboveZero(tree) !== undefined;
}

/** Arguments that a need of their own holds above zero. */
function surelyAboveZero({ needs }: CatalogEntry): Set<string> {
  const always = needs.filter((need) => !need.when);
  return new Set(always.flatMap((need) => nameIn(aboveZero(read(need.expression))) ?? []));
}

function holdsOf({ when: only, expression }: Need, scope: Scope): Piece {
  const applies = conditionOf(only, scope);
  if (applies.constant === false) return TRUE;
  return or(not(applies), condition(read(expression), scope));
}

/** The answer where all checks hold, and what a line shows where any fails. */
function checkedAtOnce(checks: Check[], fit: Piece, answer: Piece, otherwise: Piece): Piece {
  // What is no unit would fail in a sum before it is refused: sums with units come after.
  const isSum = ({ expression }: Check) => callsAnywhere(read(expression), "per");
  const first = checks.filter((check) => !isSum(check)).map(({ holds }) => holds);
  const later = checks.filter(isSum).map(({ holds }) => holds);
  return when(and(fit, ...first), when(and(...later), answer, REFUSED), otherwise);
}

/** The answer behind its checks, looked at in their order. */
function checkedInTurn([first, ...others]: Check[], spare: Piece, answer: Piece): Piece {
  if (!first) return answer;
  // Those that fail alike are looked at together.
  const next = others.findIndex(({ orBlank }) => orBlank !== first.orBlank);
  const [alike, later] = next < 0 ? [others, []] : [others.slice(0, next), others.slice(next)];
  const holds = and(first.holds, ...alike.map((check) => check.holds));
  const otherwise = first.orBlank ? when(spare, BLANK, REFUSED) : REFUSED;
  return when(holds, checkedInTurn(later, spare, answer), otherwise);
}

/** Where a working line or a need applies. */
function conditionOf(text: string | undefined, { inputs, steps }: Scope): Piece {
  if (text === undefined) return TRUE;
  const found = conditionIn(text);
  if (found.sort === "expression") return condition(read(found.expression), { inputs, steps });
  if (found.sort === "given") {
    const given = inputs.isGiven(found.name);
    return found.given ? given : not(given);
  }
  const word = inputs.get(found.name);
  if (word?.is !== "word") throw new TooMuch(text);
  return word.same(found.word);
}

/** The last step, those before it put in by name. */
function worked({ id, working }: CatalogEntry, scope: Scope): Value {
  let last: Value | undefined;
  for (const [name, lines] of stepsOf(working)) {
    const ways = lines.flatMap(({ when: only, expression }) => {
      const applies = conditionOf(only, scope);
      return applies.constant === false
        ? []
        : [{ applies, value: asTable(read(expression), scope) }];
    });
    const [way, ...others] = ways.reverse();
    // Where none applies, no step that counts asks for it; an unknown word is refused by the needs.
    last = way
      ? others.reduce((rest, { applies, value }) => choose(applies, value, rest), way.value)
      : one(REFUSED);
    scope.steps.set(name, last);
  }
  if (!last) throw new TooMuch(id);
  return last;
}

/** The lines of each step: those of one name that follow each other are its alternatives. */
function stepsOf(working: readonly WorkingLine[]): [string, WorkingLine[]][] {
  const steps: [string, WorkingLine[]][] = [];
  for (const line of working) {
    const [name, lines] = steps.at(-1) ?? [];
    if (name === line.name) lines?.push(line);
    else steps.push([line.name, [line]]);
  }
  return steps;
}
