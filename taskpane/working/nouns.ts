/** Parts of a formula as they are called in a sentence. */
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { type CellValue, isBlank, isFault } from "../../functions/bind/cell.ts";
import { type Digits, plain, shown } from "../../functions/working/shown.ts";
import { ourFunction } from "../../functions/formula/ours.ts";
import {
  type Call,
  type Node,
  calleeOf,
  childrenOf,
  constantOf,
} from "../../functions/formula/tree.ts";
import { linesNoun } from "./line-by-line.ts";
import type { CellReader, NamedCells } from "./named-cells.ts";
import type { Ask, Follower } from "./way.ts";

/** What the sentences are made from. */
export interface CellTelling {
  ask: Ask;
  reader: CellReader;
  follower: Follower;
  digits: Digits;
  /** The answer of a call of ours that is told above, with its unit. */
  answerOf: (node: Node) => string | undefined;
}

/** A smaller number in a formula only keeps rounding from making a difference. */
const TOLERANCE = 1e-5;

/** A part without what only keeps rounding from making a difference: +1E-9, *1.000000001. */
export function withoutTolerance(node: Node): Node {
  if (node.type !== "BinaryExpression") return node;
  const [left, right] = node.arguments;
  const by = constantOf(withoutTolerance(right));
  const isSum = node.operator === "+" || node.operator === "-";
  if (typeof by !== "number" || (!isSum && node.operator !== "*")) return node;
  return Math.abs(isSum ? by : by - 1) < TOLERANCE ? withoutTolerance(left) : node;
}

/** A part by name; null where it has none that a person knows. */
export async function nounOf(node: Node, telling: CellTelling): Promise<string | null> {
  const constant = constantOf(node);
  if (typeof constant === "number")
    return plain(Math.abs(constant) < TOLERANCE ? 0 : constant, telling.digits);
  if (typeof constant === "string") return constant === "" ? "a blank" : `"${constant}"`;
  if (node.type === "ReferenceIdentifier") return cellNoun(await telling.reader.cells(node.value));
  if (node.type === "UnaryExpression") return nounOf(node.arguments[0], telling);
  if (isLineNumber(node)) return "the number of this line";
  const bare = withoutTolerance(node);
  if (bare !== node) return nounOf(bare, telling);
  if (node.type === "BinaryExpression")
    return node.operator === "&" ? joined(node, telling) : workedNoun(node, telling);
  if (node.type !== "CallExpression") return null;
  if (calleeOf(node) === "ROW" && node.arguments.length === 0) return "the number of its row";
  const extent = EXTENTS[calleeOf(node)];
  if (extent) return extentNoun(node, extent, telling);
  const entry = ourFunction(node);
  if (entry) return `the answer of ${NAMESPACE}.${entry.id}`;
  if (calleeOf(node) === "SUMPRODUCT") return linesNoun(node, (part) => nounOf(part, telling));
  return countNoun(node, telling);
}

/** ROW()-ROW(A12): how far below the heading the cell stands. */
export function isLineNumber(node: Node): boolean {
  if (node.type !== "BinaryExpression" || node.operator !== "-") return false;
  const [here, heading] = node.arguments;
  const isRow = (each: Node) => each.type === "CallExpression" && calleeOf(each) === "ROW";
  return isRow(here) && "arguments" in here && here.arguments.length === 0 && isRow(heading);
}

/** "Landed" (M13 of Materials) */
export function cellNoun({ name, place }: NamedCells): string {
  return name ? `"${name}" (${place})` : place;
}

/** Signs in words, and as on paper. */
export const SIGNS: Record<string, { words: string; sign: string } | undefined> = {
  "+": { words: "plus", sign: "+" },
  "-": { words: "less", sign: "−" },
  "*": { words: "times", sign: "×" },
  "/": { words: "divided by", sign: "÷" },
};

/** A sum or product of two parts that have names; more cannot be followed within a sentence. */
async function workedNoun(
  { operator, arguments: parts }: Extract<Node, { type: "BinaryExpression" }>,
  telling: CellTelling,
): Promise<string | null> {
  const sign = SIGNS[operator];
  if (!sign || parts.some((part) => part.type === "BinaryExpression" && !isLineNumber(part)))
    return null;
  const nouns = await nounsOf(parts, telling);
  return nouns && nouns.join(` ${sign.words} `);
}

const EXTENTS: Record<string, string | undefined> = { ROWS: "lines", COLUMNS: "columns" };

/** ROWS and COLUMNS: how much room there is. */
async function extentNoun(
  { arguments: [range] }: Call,
  words: string,
  telling: CellTelling,
): Promise<string | null> {
  const noun = range ? await nounOf(range, telling) : null;
  return noun && `the number of ${words} in ${noun}`;
}

/** A key that is put together: what it comes to, without the mark between its parts. */
async function joined(node: Node, telling: CellTelling): Promise<string | null> {
  const [[value = null] = []] = (await telling.ask(node)) ?? [];
  return isBlank(value) || isFault(value) ? null : `"${String(value).replaceAll("|", ", ")}"`;
}

/** What a native function counts or picks out of its cells. */
async function countNoun(node: Call, telling: CellTelling): Promise<string | null> {
  const name = calleeOf(node);
  const [first = null] = node.arguments;
  if (name === "SUM" && node.arguments.length === 1 && first && (await isOne(first, telling)))
    return nounOf(first, telling);
  const words = COUNTS[name];
  if (words) {
    const nouns = await nounsOf(node.arguments, telling);
    return nouns && `${words} ${inARow(nouns)}`;
  }
  const lines = LINES[name];
  if (!lines) return null;
  const [range, ...rest] = name.startsWith("COUNT")
    ? [null, ...node.arguments]
    : lineArguments(node);
  const where = await whereOf(rest, telling);
  const what = range && (await nounOf(range, telling));
  if (!where || (range && !what)) return null;
  return what ? `${lines} ${what} on the lines where ${where}` : `${lines} ${where}`;
}

/** What a part comes to, with the unit of the cells that it adds up or picks from. */
export async function shownLike(
  node: Node,
  value: CellValue,
  { reader, digits }: CellTelling,
): Promise<string> {
  const source = sourceIn(node);
  if (!source) return shown(value, { kind: "number" }, digits);
  return (await reader.cells(source)).showsLike(value, digits);
}

/** The cells that a part is taken from, or added up or picked from, in whose unit it then is. */
export function sourceIn(node: Node): string | undefined {
  const isPicked = node.type === "CallExpression" && /^(SUM|MIN|MAX|AVERAGE)/.test(calleeOf(node));
  const [cells = null] = isPicked ? lineArguments(node) : [node];
  const isSum = isPicked && calleeOf(node) === "SUMPRODUCT";
  return cells?.type === "ReferenceIdentifier" && !isSum ? cells.value : undefined;
}

/** SUMIF has what it adds up last, and adds up what it looks at where that is left out. */
function lineArguments(node: Call): Call["arguments"] {
  const [first = null, second = null, third = first] = node.arguments;
  return calleeOf(node) === "SUMIF" ? [third, first, second] : node.arguments;
}

const COUNTS: Record<string, string> = {
  SUM: "the sum of",
  PRODUCT: "the product of",
  COUNT: "the count of numbers in",
  COUNTA: "the count of filled cells in",
  AVERAGE: "the mean of",
  MIN: "the smallest of",
  MAX: "the largest of",
};

const LINES: Record<string, string> = {
  SUMIF: "the sum of",
  SUMIFS: "the sum of",
  COUNTIF: "the count of lines where",
  COUNTIFS: "the count of lines where",
  AVERAGEIFS: "the mean of",
  MINIFS: "the smallest of",
  MAXIFS: "the largest of",
};

/** Pairs of a range and what it must be, as SUMIFS takes them. */
export async function whereOf(
  parts: Call["arguments"],
  telling: CellTelling,
): Promise<string | null> {
  const clauses: string[] = [];
  for (let i = 0; i + 1 < parts.length; i += 2) {
    const [range, wanted] = [parts[i], parts[i + 1]];
    const column = range && (await nounOf(range, telling));
    const criterion = wanted && (await criterionOf(wanted, telling));
    if (!column || !criterion) return null;
    clauses.push(`${column} ${criterion}`);
  }
  return clauses.length > 0 ? clauses.join(" and ") : null;
}

const CRITERIA: [RegExp, (rest: string) => string][] = [
  [/^\?\*$/, () => "holds words"],
  [/^([^*?]+)\*$/, (rest) => `begins with "${rest}"`],
  [/^>=(.+)$/, (rest) => `is ${rest} or more`],
  [/^<=(.+)$/, (rest) => `is ${rest} or less`],
  [/^<>(.+)$/, (rest) => `is not ${rest}`],
  [/^<>$/, () => "is filled"],
  [/^>(.+)$/, (rest) => `is more than ${rest}`],
  [/^<(.+)$/, (rest) => `is less than ${rest}`],
  [/^=?(.+)$/, (rest) => `is ${rest}`],
];

async function criterionOf(node: Node, telling: CellTelling): Promise<string | null> {
  const value = await telling.follower.one(node);
  if (value === undefined || isFault(value)) return null;
  if (isBlank(value)) return "is blank";
  if (typeof value === "string" && !/^[<>=]|[?*]/.test(value)) return `is "${value}"`;
  const text = shown(value, { kind: "number" }, telling.digits);
  for (const [pattern, words] of CRITERIA) {
    const match = pattern.exec(text);
    if (match) return words(match[1] ?? "");
  }
  return null;
}

async function nounsOf(nodes: Call["arguments"], telling: CellTelling): Promise<string[] | null> {
  const nouns: string[] = [];
  for (const node of nodes) {
    const noun = node && (await nounOf(node, telling));
    if (!noun) return null;
    nouns.push(noun);
  }
  return nouns;
}

async function isOne(node: Node, { ask }: CellTelling): Promise<boolean> {
  if (node.type === "ReferenceIdentifier") return !node.value.includes(":");
  const grid = await ask(node);
  return grid?.length === 1 && grid[0]?.length === 1;
}

/** A part by name with what it comes to. */
export function withValue(noun: string, value: string): string {
  return /^[^()]*"[^"]*" \([^()]*\)$/.test(noun)
    ? `${noun.slice(0, -1)}: ${value})`
    : `${noun} (${value})`;
}

/** "a, b and c" */
export function inARow(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** The cells that a part of a formula reads, each once. */
export function referencesIn(node: Node): string[] {
  if (node.type === "ReferenceIdentifier") return [node.value.replaceAll("$", "")];
  // Where a line stands is no cell that goes in.
  if (node.type === "CallExpression" && /^(ROWS?|COLUMNS?)$/.test(calleeOf(node))) return [];
  const all = childrenOf(node).flatMap((child) => (child ? referencesIn(child) : []));
  return [...new Set(all)];
}
