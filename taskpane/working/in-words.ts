/** How a cell comes by its value, in sentences for one who does not read formulas. */
import { isBlank, isFault, onlyCell } from "../../functions/bind/cell.ts";
import { shown } from "../../functions/working/shown.ts";
import { ourFunction } from "../../functions/formula/ours.ts";
import {
  type ArgumentNode,
  type Call,
  type Node,
  calleeOf,
  constantOf,
} from "../../functions/formula/tree.ts";
import { rankOf, RANKS } from "../../functions/formula/precedence.ts";
import { typedFormula } from "../../functions/formula/writer.ts";
import { conditionTold, keyNoun } from "./conditions.ts";
import {
  type CellTelling,
  cellNoun,
  isLineNumber,
  nounOf,
  SIGNS,
  inARow,
  referencesIn,
  shownLike,
} from "./nouns.ts";
import type { Because, Way } from "./way.ts";

/** A cell's value told in words. */
export interface InWords {
  sentences: string[];
  /** The same with its numbers, as on paper. */
  how: string[];
  /** What it is worked out from. */
  goesIn: CellGoingIn[];
}

export interface CellGoingIn {
  label: string;
  value: string;
  place: string;
}

export async function tellWay(way: Way, telling: CellTelling): Promise<InWords> {
  const told = await (way.parts ? messages(way.parts, telling) : sentencesOf(way, telling));
  const settled: Node[] = [];
  for (const node of told.nodes) settled.push(await telling.follower.settled(node));
  const goesIn = await cellsOf(settled, telling);
  return { sentences: told.sentences, how: told.how ?? [], goesIn };
}

interface ToldSo {
  sentences: string[];
  how?: string[];
  /** The parts whose cells go in. */
  nodes: Node[];
}

async function sentencesOf({ taken, because }: Way, telling: CellTelling): Promise<ToldSo> {
  const why = await whyOf(because, telling);
  const constant = constantOf(taken);
  if (constant !== undefined) {
    const nodes = because ? [because.condition] : [];
    const what =
      constant === ""
        ? "It stays blank"
        : typeof constant === "string"
          ? "It says so"
          : `It shows ${shown(constant, { kind: "number" }, telling.digits)}`;
    const reason = why
      ? `, because ${why}`
      : nodes.length > 0
        ? " after a look at these cells"
        : "";
    return { sentences: [`${what}${reason}.`], nodes };
  }
  const told = await valueTold(taken, telling);
  const isPick = because && !isMessage(because.instead);
  if (told && isPick && why) told.sentences.push(`It is so because ${why}.`);
  if (told) return told;
  return { sentences: ["This cell is worked out from the cells below."], nodes: [taken] };
}

/** Words, a blank or a number that is typed: a branch that only guards another. */
function isMessage(node: ArgumentNode): boolean {
  return node === null || constantOf(node) !== undefined;
}

async function whyOf(because: Because | undefined, telling: CellTelling): Promise<string | null> {
  if (!because) return null;
  const { condition, holds } = because;
  // What a choice within the condition came to, where that is typed: the reason is its own.
  if (condition.type === "BinaryExpression") {
    const within = await telling.follower.wayOf(condition.arguments[0]);
    if (constantOf(within.taken) !== undefined && within.because)
      return whyOf(within.because, telling);
  }
  return conditionTold(await telling.follower.settled(condition), holds, telling);
}

/** Several looks, of which each may have words. */
async function messages(parts: readonly Way[], telling: CellTelling): Promise<ToldSo> {
  const sentences: string[] = [];
  const [looked, spoke]: [Node[], Node[]] = [[], []];
  for (const { taken, because } of parts) {
    const nodes = because ? [because.condition] : [taken];
    looked.push(...nodes);
    const words = await telling.follower.one(taken);
    if (typeof words !== "string" || words === "") continue;
    spoke.push(...nodes);
    const why = await whyOf(because, telling);
    sentences.push(
      why ? `"${words}", because ${why}.` : `"${words}" comes of a look at these cells.`,
    );
  }
  if (sentences.length > 0) return { sentences, nodes: spoke };
  return { sentences: ["It stays blank: these cells give nothing to say."], nodes: looked };
}

async function valueTold(node: Node, telling: CellTelling): Promise<ToldSo | null> {
  if (node.type === "ReferenceIdentifier") return taken(node, telling);
  if (node.type === "CallExpression" && ourFunction(node)) return null;
  if (node.type === "CallExpression" && calleeOf(node) === "MATCH") return lineFound(node, telling);
  const worked = await arithmetic(node, telling);
  if (worked) return worked;
  const noun = await nounOf(node, telling);
  if (noun && noun.length < LONGEST && node.type === "CallExpression")
    return { sentences: [`It is ${noun}.`], nodes: [node] };
  if (node.type === "BinaryExpression" && node.operator === "&") return puzzle(node, telling);
  return null;
}

/** A text that is put together: from what, without the words and marks between. */
async function puzzle(node: Node, telling: CellTelling): Promise<ToldSo> {
  const nouns: string[] = [];
  for (const part of joinedParts(node)) {
    const noun = await nounOf(part, telling);
    if (!noun) return { sentences: ["It is put together from the cells below."], nodes: [node] };
    nouns.push(noun);
  }
  const all = inARow(nouns);
  const isShort = nouns.length > 0 && nouns.length <= MOST && all.length < LONGEST;
  const sentence =
    isShort && nouns.length === 1
      ? `It is ${all}, with words beside it.`
      : `It is put together from ${isShort ? all : "the cells below"}.`;
  return { sentences: [sentence], nodes: [node] };
}

/** What & puts together, but for what is typed. */
function joinedParts(node: Node): Node[] {
  if (node.type === "BinaryExpression" && node.operator === "&")
    return node.arguments.flatMap(joinedParts);
  return constantOf(node) === undefined ? [node] : [];
}

async function taken(
  node: Extract<Node, { type: "ReferenceIdentifier" }>,
  telling: CellTelling,
): Promise<ToldSo> {
  const found = telling.follower.foundBy.get(node);
  const cells = await telling.reader.cells(node.value);
  const sentence = `It is taken from ${cellNoun(cells)}.`;
  if (!found) return { sentences: [sentence], nodes: [node] };
  const key = await keyNoun(found.key, telling);
  const among = await nounOf(found.among, telling);
  const line = key && among ? [`That is the line on which ${key} stands in ${among}.`] : [];
  return { sentences: [sentence, ...line], nodes: [node, found.key] };
}

async function lineFound(node: Call, telling: CellTelling): Promise<ToldSo | null> {
  const [key = null, among = null] = node.arguments;
  const what = key && (await keyNoun(key, telling));
  const where = among && (await nounOf(among, telling));
  if (!key || !what || !where) return null;
  return {
    sentences: [`It is the number of the line on which ${what} stands in ${where}.`],
    nodes: [key],
  };
}

const ROUNDED: Record<string, string> = {
  ROUND: "rounded",
  ROUNDUP: "rounded up",
  ROUNDDOWN: "rounded down",
  INT: "rounded down to a whole number",
};

/** The most parts that a sentence holds. */
const MOST = 6;

/** A longer sentence cannot be followed. */
const LONGEST = 300;

/** Sums, products and the like, with the names of their parts, and beneath with their values. */
async function arithmetic(node: Node, telling: CellTelling): Promise<ToldSo | null> {
  const [rounded, inner] = await roundingOf(node, telling);
  if (inner.type !== "BinaryExpression" || !(inner.operator in SIGNS)) return null;
  if (isLineNumber(inner)) return { sentences: ["It is the number of this line."], nodes: [] };
  const parts: Node[] = [];
  const words = await written(inner, parts, telling, (part) => factorNoun(part, telling), "words");
  const paper = await written(inner, [], telling, (part) => valueShown(part, telling), "sign");
  if (!words || !paper || parts.length > MOST || words.length > LONGEST) return null;
  return {
    sentences: [`It is ${words}${rounded}.`],
    how: [`${paper}${rounded}`],
    nodes: [node],
  };
}

/** A long name within a sum or product, in brackets of its own. */
async function factorNoun(node: Node, telling: CellTelling): Promise<string | null> {
  const noun = await nounOf(node, telling);
  return noun?.includes(" where ") ? `(${noun})` : noun;
}

/** How a value is rounded, in words that stand behind it, and what is rounded. */
async function roundingOf(node: Node, telling: CellTelling): Promise<[string, Node]> {
  if (node.type !== "CallExpression") return ["", node];
  const [first = null, second = null] = node.arguments;
  if (calleeOf(node) === "MAX" && first && second && constantOf(first) === 0) {
    const [words, inner] = await roundingOf(second, telling);
    return [`${words}, or 0 where that is less`, inner];
  }
  const words = ROUNDED[calleeOf(node)];
  if (!words || !first) return ["", node];
  const stepped = stepsIn(first);
  const step = stepped && (await nounOf(stepped.step, telling));
  if (step) return [`, ${words} to whole steps of ${step}`, stepped.amount];
  const count = second ? constantOf(second) : undefined;
  if (count === undefined) return [`, ${words}`, first];
  if (count === 0) return [`, ${words} to a whole number`, first];
  return [`, ${words} to ${String(count)} decimals`, first];
}

/** ROUND(amount / step, 0) * step */
function stepsIn(node: Node): { amount: Node; step: Node } | null {
  if (node.type !== "BinaryExpression" || node.operator !== "*") return null;
  const [steps, step] = node.arguments;
  if (steps.type !== "CallExpression" || calleeOf(steps) !== "ROUND") return null;
  const [part, digits] = steps.arguments;
  if (part?.type !== "BinaryExpression" || part.operator !== "/") return null;
  const [amount, divisor] = part.arguments;
  const isStep = typedFormula(divisor) === typedFormula(step);
  return digits && constantOf(digits) === 0 && isStep ? { amount, step } : null;
}

async function written(
  node: Node,
  parts: Node[],
  telling: CellTelling,
  leaf: (node: Node) => Promise<string | null>,
  as: "words" | "sign",
): Promise<string | null> {
  const sign = node.type === "BinaryExpression" ? SIGNS[node.operator] : undefined;
  if (node.type !== "BinaryExpression" || !sign || isLineNumber(node)) {
    parts.push(node);
    return leaf(node);
  }
  const rank = RANKS[node.operator];
  const [left, right] = node.arguments;
  const a = await written(left, parts, telling, leaf, as);
  const b = await written(right, parts, telling, leaf, as);
  if (!a || !b) return null;
  const first = rankOf(left) < rank ? `(${a})` : a;
  const second = rankOf(right) <= rank ? `(${b})` : b;
  return `${first} ${sign[as]} ${second}`;
}

async function valueShown(node: Node, telling: CellTelling): Promise<string | null> {
  const constant = constantOf(node);
  if (constant !== undefined) return nounOf(node, telling);
  if (node.type === "ReferenceIdentifier") {
    const { cells, shows } = await telling.reader.cells(node.value);
    const value = onlyCell(cells);
    return value === undefined || isFault(value)
      ? null
      : isBlank(value)
        ? "0"
        : shows(telling.digits);
  }
  const said = telling.answerOf(node);
  if (said !== undefined) return said;
  const grid = await telling.ask(node);
  const value = grid ? onlyCell(grid) : undefined;
  if (value === undefined || isFault(value) || typeof value === "string") return null;
  return shownLike(node, value, telling);
}

/** The cells that parts of a formula read, each once; of a call of ours its name. */
async function cellsOf(nodes: readonly Node[], telling: CellTelling): Promise<CellGoingIn[]> {
  const references = new Set(nodes.flatMap(referencesIn));
  const found: CellGoingIn[] = [];
  for (const reference of references) {
    const { label, place, shows } = await telling.reader.cells(reference);
    found.push({ label: label || place, value: shows(telling.digits), place });
  }
  return found;
}
