/**
 * Reads the small language of `@example` lines: a call with constant arguments, and its result.
 *
 * Arguments are Excel's constants: numbers, percents, "text", and arrays such as {0.95; 0.05} with
 * a comma between columns and a semicolon between rows; Excel takes no percent in an array. A
 * result may start with `about`: then it is held to the digits that it prints, otherwise to 12
 * digits.
 */
export type ExampleValue = number | string | null;

export interface ExampleCall {
  id: string;
  args: (ExampleValue | ExampleValue[][])[];
}

export interface Expected {
  value: number | string;
  /** Largest difference allowed. */
  within: number;
}

const CALL = /^([A-Z][A-Z0-9.]*)\((.*)\)$/;
const ABOUT = /^about\s+/;

/** Reads the call of an example; throws an Error that says what it could not read. */
export function readCall(formula: string): ExampleCall {
  const [, id, inside = ""] = CALL.exec(formula.trim()) ?? [];
  if (!id) throw new Error(`cannot read the call "${formula}"`);
  const args = inside.trim() === "" ? [] : split(inside, ",").map(readArgument);
  return { id, args };
}

/** Reads the result of an example: one value, or an array of them. */
export function readResult(result: string): Expected[][] {
  const text = result.trim();
  if (!text.startsWith("{")) return [[readExpected(text)]];
  return rowsOf(text).map((row) => row.map(readExpected));
}

function readArgument(text: string): ExampleValue | ExampleValue[][] {
  const trimmed = text.trim();
  if (!trimmed.startsWith("{")) return readConstant(trimmed);
  return rowsOf(trimmed).map((row) => row.map(readItem));
}

function readItem(text: string): ExampleValue {
  if (/%\s*$/.test(text))
    throw new Error(`Excel takes no percent in an array: write "${text}" as a number`);
  return readConstant(text);
}

function rowsOf(array: string): string[][] {
  if (!array.endsWith("}")) throw new Error(`cannot read the array "${array}"`);
  return split(array.slice(1, -1), ";").map((row) => split(row, ","));
}

function readConstant(text: string): ExampleValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (/^"[^"]*"$/.test(trimmed)) return trimmed.slice(1, -1);
  const match = /^(-?\d+(?:\.\d+)?)(\s*%)?$/.exec(trimmed);
  if (!match) throw new Error(`cannot read the constant "${trimmed}"`);
  // The percent is taken by moving the decimal point, as a spreadsheet does: 7% is 0.07 exactly.
  return match[2] ? Number(`${match[1]}e-2`) : Number(match[1]);
}

function readExpected(text: string): Expected {
  const trimmed = text.trim();
  const about = ABOUT.test(trimmed);
  const printed = trimmed.replace(ABOUT, "");
  const value = readConstant(printed);
  if (value === null) throw new Error("an example has an empty result");
  if (typeof value === "string") return { value, within: 0 };
  return { value, within: about ? halfLastDigit(printed) : 1e-12 * Math.max(1, Math.abs(value)) };
}

function halfLastDigit(printed: string): number {
  const decimals = /\.(\d+)/.exec(printed)?.[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals * (printed.endsWith("%") ? 0.01 : 1);
}

/** Splits at a separator that stands outside quotes and braces. */
function split(text: string, separator: string): string[] {
  const parts = [""];
  let quoted = false;
  let depth = 0;
  for (const char of text) {
    if (char === '"') quoted = !quoted;
    else if (!quoted && char === "{") depth++;
    else if (!quoted && char === "}") depth--;
    if (char === separator && !quoted && depth === 0) parts.push("");
    else parts.push((parts.pop() ?? "") + char);
  }
  return parts;
}
