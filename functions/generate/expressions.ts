/** What must hold and how the number comes about: `@needs` and `@working`, as trees of mathjs. */
import {
  type FunctionNode,
  type MathNode,
  isArrayNode,
  isConstantNode,
  isFunctionNode,
  isSymbolNode,
  parse,
} from "mathjs";
import type ts from "typescript";
import { CONDITION_NAMES, CONDITION_WORDS, conditionIn } from "../catalog/conditions.ts";
import { type Need, type Param, type WorkingLine, wordsOf } from "../catalog/entry.ts";
import { MEANINGS } from "../working/meanings.ts";
import { measureOf, strangeIn } from "../working/measures.ts";
import { shown } from "../working/shown.ts";
import { inNames } from "../working/written.ts";
import { inWords, whenInWords } from "./in-words.ts";
import { type Attempt, refuse } from "./refusal.ts";
import { eachTag, tagsOf } from "./tags.ts";

/** What an expression may name: the arguments with the words that each takes, and earlier lines. */
type Known = Map<string, readonly string[]>;

/** The arguments, as far as they could be read. */
export function knownOf(names: readonly string[], params: readonly Param[]): Known {
  return new Map(
    names.map((name) => {
      const param = params.find((each) => each.name === name);
      return [name, param?.kind === "choice" && !param.range ? wordsOf(param) : []];
    }),
  );
}

export function readNeeds(node: ts.FunctionDeclaration, known: Known, attempt: Attempt): Need[] {
  return eachTag(node, "needs", attempt, (text) => readNeed(text, known));
}

/** "[or blank, counts given] fills > 0" */
function readNeed(text: string, known: Known): Need {
  const [, bracket = "", expression = text] = /^(?:\[(.+?)\] )?(.+)$/.exec(text) ?? [];
  const orBlank = /^or blank\b/.test(bracket);
  const when = bracket.replace(/^or blank(, )?/, "");
  checkExpression("@needs", expression, known);
  if (when) checkWhen("@needs", when, known);
  const where = when && { when, where: whenInWords(when) };
  return { ...(orBlank && { orBlank }), ...where, expression, says: inWords(expression) };
}

export function readWorkings(
  node: ts.FunctionDeclaration,
  params: Known,
  shareNames: readonly string[],
  attempt: Attempt,
): WorkingLine[] {
  const known: Known = new Map(params);
  const shares = new Set(shareNames);
  const lines = eachTag(node, "working", attempt, (text) => {
    const line = readWorking(text, known);
    const how = onPaper(line, shares);
    known.set(line.name, []);
    if (line.measure === "share") shares.add(line.name);
    return { ...line, how };
  });
  if (tagsOf(node, "working").length === 0) {
    attempt(node, () => refuse("@working is missing: say how the number comes about"));
  }
  return lines;
}

/** The expression as it is written on paper; a constant with its unit, and each of several cells. */
function onPaper({ expression, measure }: Omit<WorkingLine, "how">, shares: Set<string>): string {
  const node = parse(expression);
  if (isConstantNode(node) && typeof node.value === "number") {
    const names = { values: {}, params: [], told: new Map(), lines: new Map() };
    return shown(node.value, measureOf(measure, names));
  }
  const items = isArrayNode(node) ? node.items : [node];
  return items.map((item) => inNames(item, (name) => shares.has(name))).join("; ");
}

/** "[basis is base] part (share): oil as a part of the {batch} = load / (1 + load)" */
function readWorking(text: string, known: Known): Omit<WorkingLine, "how"> {
  const [, when, name, measure, what, expression] =
    /^(?:\[(.+?)\] )?([a-z]+) \((.+?)\): (.+?) = (.+)$/.exec(text) ?? [];
  if (!name || !measure || !what || !expression) {
    return refuse(`@working must read [WHEN] NAME (MEASURE): WHAT = EXPRESSION, got: ${text}`);
  }
  const strange = strangeIn(measure, new Set(known.keys()));
  if (strange) refuse(`@working ${name}: ${strange} is no kind, no unit and no name known there`);
  for (const [, slot = ""] of what.matchAll(/\{(.*?)\}/g))
    if (!known.has(slot)) refuse(`@working ${name}: {${slot}} is not known there`);
  checkExpression("@working", expression, known);
  if (when) checkWhen("@working", when, known);
  return { ...(when && { when, where: whenInWords(when) }), name, measure, what, expression };
}

function checkWhen(tag: string, when: string, known: Known) {
  const condition = conditionIn(when);
  if (condition.sort === "expression") {
    checkExpression(tag, when, known);
    return;
  }
  const { name } = condition;
  if (!known.has(name)) refuse(`${tag} [${when}] names ${name}, which is no argument`);
  if (condition.sort === "word") checkWord(tag, when, name, condition.word, known);
}

/** Refuses what mathjs cannot read, and names and words that stand for nothing. */
function checkExpression(tag: string, expression: string, known: Known) {
  parsed(tag, expression).traverse((part, path) => {
    if (isFunctionNode(part) && part.fn.name === "same") checkSame(tag, expression, part, known);
    if (!isSymbolNode(part)) return;
    const { name } = part;
    const isCalled = path === "fn";
    const isKnown = isCalled
      ? name in MEANINGS || name in CONDITION_WORDS
      : known.has(name) || name in CONDITION_NAMES;
    if (isKnown) return;
    const what = isCalled ? "calls" : "names";
    refuse(`${tag} ${what} ${name}, which is not known there: ${expression}`);
  });
}

/** same(basis, "base"): a word that the argument takes. */
function checkSame(tag: string, expression: string, { args }: FunctionNode, known: Known) {
  const [subject, word] = args;
  if (!isSymbolNode(subject) || !isConstantNode(word)) {
    refuse(`${tag} must read same(ARGUMENT, "word"), got: ${expression}`);
  } else checkWord(tag, expression, subject.name, String(word.value), known);
}

function checkWord(tag: string, text: string, name: string, word: string, known: Known) {
  const words = known.get(name) ?? [];
  if (words.length === 0 || words.includes(word)) return;
  refuse(`${tag} ${text}: ${name} takes ${words.join(" or ")}, not ${word}`);
}

function parsed(tag: string, expression: string): MathNode {
  try {
    return parse(expression);
  } catch (error) {
    return refuse(
      `${tag} has an expression that mathjs cannot read, ${expression}: ${String(error)}`,
    );
  }
}
