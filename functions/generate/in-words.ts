/**
 * Conditions as a reader is told of them: `isunit(unit) and volume >= 0` in words and common signs.
 */
import {
  type MathNode,
  isConstantNode,
  isFunctionNode,
  isOperatorNode,
  isSymbolNode,
  parse,
} from "mathjs";
import { CONDITION_NAMES, CONDITION_WORDS, conditionIn } from "../catalog/conditions.ts";

const SIGNS: Readonly<Record<string, string>> = {
  "*": "×",
  "<=": "≤",
  ">=": "≥",
  "==": "=",
  "!=": "≠",
};

/** Where a line applies. */
export function whenInWords(when: string): string {
  const condition = conditionIn(when);
  if (condition.sort === "word") return `${condition.name} is "${condition.word}"`;
  if (condition.sort === "given")
    return `${condition.name} is ${condition.given ? "" : "not "}given`;
  return inWords(condition.expression);
}

/** An expression, its calls as what they mean. */
export function inWords(expression: string): string {
  return said(parse(expression));
}

function said(node: MathNode): string {
  return node.toString({ parenthesis: "keep", handler: phraseFor });
}

/** Of what mathjs would write in its own words, ours; undefined leaves it to mathjs. */
function phraseFor(node: MathNode): string | undefined {
  if (isSymbolNode(node)) return CONDITION_NAMES[node.name];
  if (isFunctionNode(node)) return phrase(node.fn.name, node.args);
  if (!isOperatorNode(node)) return undefined;
  const [first, second] = node.args;
  if (!first) return undefined;
  if (node.op === "not") return negated(said(first));
  if (!second) return undefined;
  if (node.op === "==" && isPredicate(first))
    return `(${said(first)} exactly when ${said(second)})`;
  const sign = SIGNS[node.op];
  return sign && `${said(first)} ${sign} ${said(second)}`;
}

function phrase(name: string, args: readonly MathNode[]): string | undefined {
  const words = args.map((arg) => (isConstantNode(arg) ? arg.toString() : said(arg)));
  return CONDITION_WORDS[name]?.replace(
    /\{(\d)\}/g,
    (_, place: string) => words[Number(place)] ?? "",
  );
}

function isPredicate(node: MathNode): boolean {
  return isFunctionNode(node) && / is /.test(CONDITION_WORDS[node.fn.name] ?? "");
}

function negated(text: string): string {
  return / is /.test(text) ? text.replace(" is ", " is not ") : `not ${text}`;
}
