/** Which parts of a formula need brackets: Excel's order of operators. */
import type { BinaryOperator } from "@borgar/fx/xlsx";
import type { Node } from "./tree.ts";

/** How tightly the parts of a formula hold together, loosest first. */
export const RANK = {
  /** In brackets wherever it stands: a comma also parts the arguments of a call. */
  union: 0,
  compare: 1,
  join: 2,
  add: 3,
  times: 4,
  power: 5,
  sign: 6,
  percent: 7,
  range: 8,
  /** A value, a name, a call: nothing pulls it apart. */
  atom: 9,
} as const;

/** How tightly each operator binds what stands on its two sides. */
export const RANKS: Readonly<Record<BinaryOperator, number>> = {
  ",": RANK.union,
  "=": RANK.compare,
  "<>": RANK.compare,
  "<": RANK.compare,
  "<=": RANK.compare,
  ">": RANK.compare,
  ">=": RANK.compare,
  "&": RANK.join,
  "+": RANK.add,
  "-": RANK.add,
  "*": RANK.times,
  "/": RANK.times,
  "^": RANK.power,
  " ": RANK.range,
  ":": RANK.range,
};

export function rankOf(node: Node): number {
  if (node.type === "BinaryExpression") return RANKS[node.operator];
  if (node.type === "UnaryExpression") return node.operator === "%" ? RANK.percent : RANK.sign;
  return RANK.atom;
}
