/**
 * How a number came about: the working lines of a function for one call.
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
  node: MathNode;
  /** What the names in it stand for. */
  scope: Readonly<Record<string, unknown>>;
  value: unknown;
}

/** The steps of a call of one line; its arguments as a host passes them. */
export function stepsOf(entry: CatalogEntry, args: readonly unknown[]): Step[] {
  const inputs = inputsOf(entry, args);
  const given = new Map(entry.params.map((param, i) => [param.name, inputs[i] !== undefined]));
  const steps: Step[] = [];
  let scope = scopeOf(entry, inputs);
  for (const line of entry.working) {
    // One by one, as a condition may ask for an earlier step.
    if (!applies(line, given, scope)) continue;
    const node = math.parse(line.expression);
    const value: unknown = node.compile().evaluate({ ...scope });
    steps.push({ line, node, scope, value });
    scope = { ...scope, [line.name]: value };
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
