/**
 * The bundle for a web spreadsheet's script runtime, built and run in a bare context, by the runtime's rules: ranges as
 * rows of values, blanks as "", dates as Dates, errors thrown. The rules are those of Google's page "Custom functions
 * in Google Sheets"; it was not run at Google.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createContext, runInContext } from "node:vm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { type ExampleValue, readCall, readResult } from "../../functions/catalog/examples";

let folder = "";
let context: object;
let text = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  const words = ["webpack", "--config-name", "script", "--output-path", folder];
  execFileSync("npx", words, { stdio: "inherit" });
  text = readFileSync(join(folder, "mistwright.js"), "utf8");
  // Nothing of Node's or a page's: no console, no timers, no modules.
  context = createContext({});
  runInContext(text, context);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a call in the context, its arguments made there. */
function call(formula: string): unknown {
  return JSON.parse(runInContext(`JSON.stringify(${formula})`, context) as string);
}

const asCell = (cell: ExampleValue) => JSON.stringify(cell ?? "");
/** An argument as the runtime hands it over: rows of values for a range. */
const asArgument = (argument: ExampleValue | ExampleValue[][]) =>
  Array.isArray(argument)
    ? `[${argument.map((row) => `[${row.map(asCell).join()}]`).join()}]`
    : asCell(argument);

describe.each(catalog)("$id", ({ id, examples }) => {
  test.each(examples)("$formula", ({ formula, result }) => {
    const answer = call(`MIST_${id}(${readCall(formula).args.map(asArgument).join()})`);
    const expected = readResult(result);
    const rows = Array.isArray(answer) ? (answer as unknown[][]) : [[answer]];
    expect(rows.map((row) => row.length)).toEqual(expected.map((row) => row.length));
    expected.flat().forEach(({ value, within }, i) => {
      const cell = rows.flat()[i];
      if (typeof value === "string") expect(cell).toBe(value);
      else expect(Math.abs((cell as number) - value)).toBeLessThanOrEqual(within);
    });
  });

  test("stands in the file with its help", () => {
    const start = text.indexOf(`\nfunction MIST_${id}(`);
    expect(start).toBeGreaterThan(0);
    expect(text.slice(0, start)).toMatch(/@customfunction\n \*\/$/);
  });
});

describe("the runtime's rules", () => {
  const fails = (formula: string) => expect(() => call(formula));

  test("an error is thrown, in words", () => {
    fails("MIST_OILFOR(100, 5)").toThrow(/load must be .*5 %/);
    fails('MIST_OILFOR("", 0.05)').toThrow("batch is blank");
    fails('MIST_OILFOR(100, "")').toThrow("load is blank");
    fails('MIST_OILFOR("#N/A", 0.05)').toThrow("#N/A");
  });

  test("a line that fails is told by its place: no sum passes over it", () => {
    fails("MIST_OILFOR([[100], [200], [-3]], 0.05)").toThrow(/^row 3 of the answer: batch must be/);
    fails("MIST_OILFOR([[100, -1], [-2, 5]], 0.05)").toThrow(
      /^row 1, column 2 of the answer: batch must be .*\(and 1 more\)$/,
    );
  });

  test("a spare line is blank, and one answer is a bare value", () => {
    expect(call('MIST_OILFOR([[100], [""], [200]], 0.05)')).toEqual([[5], [""], [10]]);
    expect(call("MIST_OILFOR([[100]], [[0.05]])")).toBe(5);
  });

  test("arguments that are left out are left out", () => {
    expect(call('MIST_OILFOR(100, 0.05, "")')).toBe(5);
    // By hand: 5 % of the base in 100 g is 100 x 0.05 / 1.05.
    expect(call('MIST_OILFOR(100, 0.05, "base")')).toBeCloseTo(100 / 21, 12);
  });

  test("a date is its number of days, as sheets count them", () => {
    // Excel and web spreadsheets alike: 1 January 2000 is day 36526.
    expect(call("MIST_OILFOR(new Date(2000, 0, 1), 1)")).toBeCloseTo(36526, 9);
  });
});
