/**
 * How a number came about: the working lines of a function with a call's own numbers in them.
 *
 * Every line is an expression that mathjs evaluates, in which an earlier line stands by its name;
 * the last line gives what the cell shows.
 */
import { type FactoryFunctionMap, type MathNode, all, create } from "mathjs";
import { squeeze } from "../../src/errors.ts";
import { conditionIn } from "../catalog/conditions.ts";
import type { CatalogEntry, Param, WorkingLine } from "../catalog/entry.ts";
import { inputsOf } from "../bind/arguments.ts";
import { HELPERS } from "./helpers.ts";

// The library's types say that "all" may be missing.
export const math = create(all as FactoryFunctionMap, { matrix: "Array" });

export interface Step {
  line: WorkingLine;
  /** With the call's own numbers in it; an earlier step stands by its name. */
  expression: string;
  /** With the values of earlier steps in it, too, to twelve digits. */
  numbers: string;
  value: unknown;
}

/** Most cells of a range that are written out in an expression; a larger one stands by its name. */
const MOST_CELLS = 8;

/** Brackets where they are needed, and powers of ten only for the very large and the very small. */
const PLAINLY = { parenthesis: "auto", lowerExp: -9, upperExp: 15 };

/** Enough for a reader; a sum of such numbers may differ from the exact one in the last of them. */
const DIGITS = 12;

/** The steps of a call of one line; its arguments as a host passes them. */
export function stepsOf(entry: CatalogEntry, args: readonly unknown[]): Step[] {
  const inputs = inputsOf(entry, args);
  const given = new Map(entry.params.map((param, i) => [param.name, inputs[i] !== undefined]));
  const scope = scopeOf(entry, inputs);
  const written = new Set(entry.params.map((param) => param.name));
  const steps: Step[] = [];
  const worked = new Set<string>();
  for (const line of entry.working) {
    // One by one, as a condition may ask for an earlier step.
    if (!applies(line, given, scope)) continue;
    const node = math.parse(line.expression);
    const shown = (names: ReadonlySet<string>, digits?: number) =>
      inNumbers(node, scope, names, digits).toString(PLAINLY);
    const expression = shown(written);
    const numbers = shown(new Set([...written, ...worked]), DIGITS);
    const value: unknown = node.compile().evaluate(scope);
    scope[line.name] = value;
    // From here on the name is that of a step, even where an argument had it.
    written.delete(line.name);
    worked.add(line.name);
    steps.push({ line, expression, numbers, value });
  }
  return steps;
}

/** What mathjs is to evaluate the first step in: the helpers and the arguments. */
export function scopeOf(entry: CatalogEntry, inputs: unknown[]): Record<string, unknown> {
  const values = entry.params.map((param, i): [string, unknown] => [
    param.name,
    valueFor(param, inputs[i]),
  ]);
  return { ...HELPERS, isrow: isRow(inputs), ...Object.fromEntries<unknown>(values) };
}

function applies(
  { when }: WorkingLine,
  given: ReadonlyMap<string, boolean>,
  scope: Record<string, unknown>,
): boolean {
  if (when === undefined) return true;
  const condition = conditionIn(when);
  if (condition.sort === "word") {
    const word = scope[condition.name];
    return typeof word === "string" && squeeze(word) === condition.word;
  }
  if (condition.sort === "given") return given.get(condition.name) === condition.given;
  return Boolean(math.evaluate(condition.expression, { ...scope }));
}

/** A range of one row or column as a list, any other as a table; a blank in it is zero. */
function valueFor(param: Param, input: unknown): unknown {
  const value = input ?? param.default ?? null;
  if (!Array.isArray(value)) return value;
  const grid = value.map((row: unknown[]) => row.map((cell) => (Number.isNaN(cell) ? 0 : cell)));
  return grid.length === 1 || grid[0]?.length === 1 ? grid.flat() : grid;
}

/** True where the first range lies in a row. */
function isRow(inputs: unknown[]): boolean {
  const grid: unknown[][] | undefined = inputs.find(Array.isArray);
  return grid?.length === 1 && grid.flat().length > 1;
}

/** The expression with names as what they stand for, and the sizes of units as numbers. */
function inNumbers(
  node: MathNode,
  scope: Record<string, unknown>,
  names: ReadonlySet<string>,
  digits?: number,
): MathNode {
  return node.transform((part, path) => {
    if (math.isFunctionNode(part) && part.fn.name === "per") {
      return asNode(part.compile().evaluate({ ...scope })) ?? part;
    }
    if (!math.isSymbolNode(part) || path === "fn" || !names.has(part.name)) return part;
    return asNode(scope[part.name], digits) ?? part;
  });
}

function asNode(value: unknown, digits?: number): MathNode | undefined {
  if (typeof value === "string") {
    // Of constants, mathjs's types name numbers alone.
    return new math.ConstantNode(value as never);
  }
  if (typeof value === "number") {
    const shown = digits ? Number(Math.abs(value).toPrecision(digits)) : Math.abs(value);
    const node = new math.ConstantNode(shown);
    // A sign of its own, so that (-2)^2 keeps its brackets.
    return value < 0 ? new math.OperatorNode("-", "unaryMinus", [node]) : node;
  }
  if (!Array.isArray(value) || value.flat().length > MOST_CELLS) return undefined;
  const items = value.map((item) => asNode(item, digits));
  return items.every((item) => item !== undefined) ? new math.ArrayNode(items) : undefined;
}
