/**
 * A function that is called with plain cells, or with ranges where it takes them, goes straight to what it computes.
 * The engine takes each call through steps for arrays and for errors, and one changed price is followed through tens of
 * thousands of calls; those steps stay for the calls that need them.
 */
import { engine } from "./engine.ts";

type Functions = typeof engine.registries.functionRegistry;
type Description = ReturnType<Functions["get"]>;
/** A function as a formula calls it: `this` is the place that the formula stands in. */
type Call = (this: unknown, ...inputs: unknown[]) => unknown;
interface Cell {
  value: unknown;
  message?: string;
}

const functions = engine.registries.functionRegistry;
// Its types tell a few kinds of inputs and answers apart; all of them are handed on here.
const calls = functions.mapping as Record<string, unknown> as Record<string, Call>;
const errors = engine.registries.errorTypes;

const isGrid = (data: unknown): data is unknown[][] =>
  Array.isArray(data) && Array.isArray(data[0]);
const isCell = (data: unknown): data is Cell =>
  typeof data === "object" && data !== null && "value" in data;

/** Where what is repeated begins, if an input's place tells its argument: none that may be left out stands before another. */
function repeatsFrom({ args }: Description): number | undefined {
  const isSure = args.map((arg) => !arg.optional && !arg.default);
  const sure = isSure.includes(false) ? isSure.indexOf(false) : args.length;
  const first = args.findIndex((arg) => arg.repeating);
  const isInOrder =
    first < 0
      ? !isSure.slice(sure).includes(true)
      : args.slice(first).every((arg) => arg.repeating) && sure >= first;
  if (!isInOrder) return undefined;
  return first < 0 ? args.length : first;
}

function lean(name: string, description: Description, full: Call): Call {
  const { args } = description;
  // As above.
  const compute = description.compute as Call;
  const first = repeatsFrom(description);
  if (first === undefined) return full;
  const repeated = args.length - first;

  const named = (cell: Cell) => {
    if (cell.message?.includes("[[FUNCTION_NAME]]")) {
      cell.message = cell.message.replace("[[FUNCTION_NAME]]", name);
    }
    return cell;
  };

  const needsSteps = (inputs: unknown[]) => {
    for (let i = 0; i < inputs.length; i++) {
      const arg = args[i < first ? i : first + ((i - first) % repeated)];
      const input = inputs[i];
      if (!arg) return true;
      if (isGrid(input)) {
        if (!arg.acceptMatrix) return true;
      } else if (arg.acceptMatrixOnly) return true;
      else if (
        !arg.acceptErrors &&
        isCell(input) &&
        typeof input.value === "string" &&
        errors.has(input.value)
      )
        return true;
    }
    return false;
  };

  return function (...inputs) {
    if (needsSteps(inputs)) return full.apply(this, inputs);
    let result: unknown;
    try {
      result = compute.apply(this, inputs);
    } catch {
      return full.apply(this, inputs);
    }
    if (!isGrid(result)) return isCell(result) ? named(result) : { value: result };
    if (!isCell(result[0]?.[0])) return result.map((column) => column.map((value) => ({ value })));
    for (const column of result) for (const cell of column) if (isCell(cell)) named(cell);
    return result;
  };
}

for (const name of functions.getKeys()) {
  const full = calls[name];
  if (full) calls[name] = lean(name, functions.get(name), full);
}

const replace = functions.replace.bind(functions);
functions.replace = function (name, description) {
  replace(name, description);
  const key = name.toUpperCase();
  const full = calls[key];
  if (full) calls[key] = lean(key, functions.get(key), full);
  return this;
};
