/** What a condition of a formula says, in words: `"Price" (C19) is blank`. */
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { type CellValue, isBlank, isFault, onlyCell } from "../../functions/bind/cell.ts";
import { shown } from "../../functions/working/shown.ts";
import { ourCalls } from "../../functions/formula/ours.ts";
import { type Node, calleeOf, childrenOf, constantOf } from "../../functions/formula/tree.ts";
import { isTrue } from "./cells.ts";
import { COMPARED } from "./compared.ts";
import {
  type CellTelling,
  inARow,
  nounOf,
  shownLike,
  whereOf,
  withValue,
  withoutTolerance,
} from "./nouns.ts";
import { isNoText } from "./way.ts";

/** The condition as a clause that is true of the cells as they are; null where it has no words. */
export async function conditionTold(
  node: Node,
  holds: boolean,
  telling: CellTelling,
): Promise<string | null> {
  if (node.type === "BinaryExpression") return comparison(node, holds, telling);
  if (node.type !== "CallExpression") return null;
  const [first = null] = node.arguments;
  if (!first) return null;
  const name = calleeOf(node);
  if (name === "NOT") return conditionTold(first, !holds, telling);
  if (name === "OR" || name === "AND") return ofSeveral(node.arguments, name, holds, telling);
  if (name === "ISERROR") return comesOut(first, !holds, telling);
  if (name !== "ISNUMBER" && name !== "ISTEXT") return null;
  if (ourCalls(first).length > 0)
    return name === "ISNUMBER" ? comesOut(first, holds, telling) : null;
  const noun = await nounOf(first, telling);
  if (!noun) return null;
  if (holds) return `${noun} ${name === "ISNUMBER" ? "is a number" : "holds words"}`;
  const value = await telling.follower.one(first);
  if (value !== undefined && isBlank(value)) return `${noun} is blank`;
  return `${noun} ${name === "ISNUMBER" ? "holds no number" : "holds no words"}`;
}

/** Of an OR that holds, the first part that does; of an AND that does not, the first that fails. */
async function ofSeveral(
  parts: readonly (Node | null)[],
  name: "OR" | "AND",
  holds: boolean,
  telling: CellTelling,
): Promise<string | null> {
  const isOneEnough = (name === "OR") === holds;
  const clauses: string[] = [];
  for (const part of parts) {
    if (!part) return null;
    if (isOneEnough) {
      const value = await telling.follower.one(part);
      if (value === undefined || isFault(value) || typeof value === "string") return null;
      if (isTrue(value) === holds) return conditionTold(part, holds, telling);
      continue;
    }
    const clause = await conditionTold(part, holds, telling);
    if (!clause) return null;
    clauses.push(clause);
  }
  return clauses.length > 0 ? inARow(clauses) : null;
}

/** Whether a look-up finds what it looks for, or a call of ours has an answer. */
async function comesOut(node: Node, does: boolean, telling: CellTelling): Promise<string | null> {
  if (node.type === "CallExpression" && calleeOf(node) === "MATCH") {
    const [key, among] = node.arguments;
    const what = key && (await keyNoun(key, telling));
    const where = among && (await nounOf(among, telling));
    return what && where ? `${what} is ${does ? "" : "not "}in ${where}` : null;
  }
  const [call] = ourCalls(node);
  if (!call) {
    // A look-up within, such as INDEX of what MATCH finds.
    for (const part of childrenOf(node)) {
      const told = part && (await comesOut(part, does, telling));
      if (told) return told;
    }
    return null;
  }
  return `${NAMESPACE}.${calleeOf(call).replace(/^.*[._]/, "")} has ${does ? "an" : "no"} answer`;
}

/** What is looked for: the words in the cell. */
export async function keyNoun(node: Node, telling: CellTelling): Promise<string | null> {
  const value = await telling.follower.one(node);
  if (value === undefined || isFault(value)) return nounOf(node, telling);
  if (isBlank(value)) return "a blank";
  if (typeof value === "string") return `"${value.replaceAll("|", ", ")}"`;
  const noun = node.type === "CallExpression" ? await nounOf(node, telling) : null;
  if (noun) return withValue(noun, await shownLike(node, value, telling));
  return shown(value, { kind: "number" }, telling.digits);
}

async function comparison(
  { operator, arguments: [left, right] }: Extract<Node, { type: "BinaryExpression" }>,
  holds: boolean,
  telling: CellTelling,
): Promise<string | null> {
  const verb = COMPARED[operator]?.[holds ? "holds" : "fails"];
  if (!verb) return null;
  if (isNoText(right)) {
    const noun = await nounOf(left, telling);
    const isBlankNow = (operator === "=") === holds;
    return noun && `${noun} is ${isBlankNow ? "blank" : "filled in"}`;
  }
  const counted = await countedNone(left, operator, right, holds, telling);
  if (counted) return counted;
  const [a, b] = [await valued(left, telling), await valued(right, telling)];
  return a && b ? `${a} ${verb} ${b}` : null;
}

/** COUNT(...)=0, COUNTIF(...)>0 and the like: whether anything is there. */
async function countedNone(
  left: Node,
  operator: string,
  right: Node,
  holds: boolean,
  telling: CellTelling,
): Promise<string | null> {
  if (left.type !== "CallExpression" || constantOf(right) !== 0) return null;
  const isNone = operator === "=" || operator === "<=" ? holds : !holds;
  if (operator === "<" || operator === ">=") return null;
  const name = calleeOf(left);
  const [first, second] = left.arguments;
  const isSum = name === "SUM" && left.arguments.length === 1;
  const isWild =
    name === "COUNTIF" &&
    second?.type === "Literal" &&
    /^[<>=]|[?*]/.test(second.raw.replaceAll('"', ""));
  if (name === "COUNTIFS" || isWild) {
    const where = await whereOf(left.arguments, telling);
    return where ? `there is ${isNone ? "no" : "a"} line where ${where}` : null;
  }
  if (!first || !(isSum || ["COUNT", "COUNTA", "COUNTIF"].includes(name))) return null;
  const nouns: string[] = [];
  for (const part of name === "COUNTIF" ? [first] : left.arguments) {
    const noun = part && (await nounOf(part, telling));
    if (!noun) return null;
    nouns.push(noun);
  }
  const all = inARow(nouns);
  if (isSum) return `${all} ${isNone ? "has nothing above zero" : "is above zero"}`;
  if (name === "COUNTIF") {
    const what = second && (await keyNoun(second, telling));
    return what ? `${what} ${isNone ? "does not stand" : "stands"} in ${all}` : null;
  }
  const thing = name === "COUNT" ? "number" : "entry";
  return isNone
    ? `no ${thing} stands in ${all}`
    : `${thing === "number" ? "a" : "an"} ${thing} stands in ${all}`;
}

/** A part by name with its value, or the value alone where it is typed. */
async function valued(given: Node, telling: CellTelling): Promise<string | null> {
  const node = withoutTolerance(given);
  const noun = await nounOf(node, telling);
  if (!noun || constantOf(node) !== undefined) return noun;
  if (node.type === "ReferenceIdentifier") {
    const { shows, cells } = await telling.reader.cells(node.value);
    const only = onlyCell(cells);
    return only === undefined ? noun : withValue(noun, quotedText(only, shows(telling.digits)));
  }
  const value = await telling.follower.one(node);
  if (value === undefined || isFault(value)) return noun;
  return withValue(noun, quotedText(value, await shownLike(node, value, telling)));
}

function quotedText(value: CellValue, text: string): string {
  return typeof value === "string" && value !== "" ? `"${text}"` : text;
}
