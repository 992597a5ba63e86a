import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { readCall } from "../../functions/catalog/examples";
import { isFault } from "../../functions/bind/cell";
import { worksheetFunction } from "../../functions/bind/register";
import { HELPERS } from "../../functions/working/helpers";
import { math } from "../../functions/working/steps";
import { type Told, toldOf } from "../../functions/working/told";
import * as functions from "../../src/index";

/** Random calls of each function: 212 in all. */
const CALLS = 4;

/** Every example with its own numbers, and with others. */
function callsOf({ examples }: CatalogEntry): unknown[][] {
  const calls = examples.map(({ formula }) => readCall(formula).args as unknown[]);
  const factor = fc.double({ min: 0.5, max: 1.5, noNaN: true });
  const factors = fc.sample(fc.array(factor, { minLength: 9, maxLength: 9 }), {
    numRuns: CALLS,
    seed: 14,
  });
  return [
    ...calls,
    ...factors.map((by, i) => calls[i % calls.length].map((v, j) => scaled(v, by[j]))),
  ];
}

/** With other numbers; whole ones stay whole, as they may count something. */
function scaled(value: unknown, by: number): unknown {
  if (Array.isArray(value)) return value.map((item) => scaled(item, by));
  if (typeof value !== "number") return value;
  return Number.isInteger(value) ? Math.max(1, Math.round(value * by)) : value * by;
}

/** Amounts without a unit of their own are in grams here, as labels tell. */
const unitsOf = ({ params }: CatalogEntry) =>
  new Map(
    params
      .filter(({ kind }) => ["amount", "weight", "volume"].includes(kind))
      .map(({ name }) => [name, "g"]),
  );

function toldCalls(entry: CatalogEntry, digits: "six" | "all"): Told[] {
  return callsOf(entry).flatMap((args) => {
    const cells = (worksheetFunction(entry)(...args) as unknown[][]).flat();
    if (cells.some((cell) => isFault(cell) || cell === "")) return [];
    return toldOf(entry, args, { digits, units: unitsOf(entry) }).steps;
  });
}

/** All that is shown of a step, without the words of others: labels, packs, answers in quotes. */
const textsOf = ({ sentence, how, table }: Told) =>
  [sentence, ...how, ...(table ? [table.heads, ...table.lines, table.foot ?? []].flat() : [])].map(
    (text) => text.replace(/".*?"/g, '"words"').replaceAll("R 22", ""),
  );

// Helpers whose names are ordinary words, too: those are refused only where they are called.
const WORDS =
  "banned column counted down larger over per row rows same samples smaller tip weighed".split(" ");
const NAMES = [...Object.keys(HELPERS), ...Object.keys(functions)].filter(
  (name) => !WORDS.includes(name) && /[A-Z]|^[a-z]{5,}$/.test(name),
);

describe.each(catalog)("$id, as it is told", (entry) => {
  const told = toldCalls(entry, "six");

  test("has no signs of a program", () => {
    for (const step of told)
      for (const text of textsOf(step)) {
        expect(text).not.toMatch(/[[\]{}*^]|\.\/|undefined|null|NaN|Infinity|[a-z]\(/);
        const words = text.split(/[^A-Za-z]+/);
        const own = new Set([
          ...entry.params.map(({ name }) => name),
          ...entry.working.map((l) => l.name),
        ]);
        expect(words.filter((word) => NAMES.includes(word) && !own.has(word))).toEqual([]);
      }
  });

  test("has six digits at the most", () => {
    for (const step of told)
      for (const text of textsOf(step))
        for (const [number] of text.matchAll(/\d+(\.\d+)?/g)) {
          const digits = number
            .replace(/^0[.0]*/, "")
            .replace(/(?<!\..*)0+$/, "")
            .replace(".", "");
          expect(digits.length, text).toBeLessThanOrEqual(6);
        }
  });

  test("opens each step with a sentence", () => {
    for (const { sentence, value } of told) {
      expect(sentence).toMatch(/^[A-Z0-9"$-].{8,}[.:]$/);
      expect(sentence).not.toMatch(/,[.:]|, is is|blank/);
      if (typeof value === "number") expect(sentence).toMatch(/ is (about |nearly )?-?[\d.]+.*\.$/);
    }
  });

  test("has a unit behind every number that has one", () => {
    for (const { line, value, sentence } of told) {
      if (typeof value !== "number") continue;
      const shown = /^.* is ((?:about |nearly )?-?[\d.]+.*)\.$/.exec(sentence)?.[1] ?? "";
      expect(shown, `${line.name} (${line.measure})`).toMatch(patternOf(entry, line.measure));
    }
  });

  test("says about where a number is rounded, and nowhere else", () => {
    for (const { line, value, sentence } of told) {
      if (typeof value !== "number") continue;
      const [, about, text] = /^.* is (about |nearly )?(-?[\d.]*\d)[^"]*\.$/.exec(sentence) ?? [];
      const number =
        Number(text) / (line.measure === "share" || line.measure === "limit" ? 100 : 1);
      const off = Math.abs(number - value);
      if (about === "nearly ") expect(Math.abs(value)).toBeLessThan(1e-9);
      else if (!about) expect(off).toBeLessThanOrEqual(2e-9 * Math.abs(value));
      else {
        expect(off).toBeGreaterThan(0);
        // Half of the sixth digit, or of a hundredth of money.
        const step = line.measure.startsWith("money")
          ? Math.max(0.005, 5e-5 * Math.abs(value))
          : 5e-6 * Math.abs(value);
        expect(off).toBeLessThanOrEqual(step * 1.001);
      }
    }
  });
});

/** What stands behind a number, by what the doc comment says that it is measured in. */
function patternOf(entry: CatalogEntry, measure: string): RegExp {
  const [first, per] = measure.split(" per ");
  if (per) return first === "money" ? / per \S+|\d$/ : /\d \S.* per \S+/;
  const quoted = /^"(.+)"$/.exec(first)?.[1];
  if (quoted) return new RegExp(` ${quoted}$`);
  const kind = entry.params.find(({ name }) => name === first)?.kind ?? first;
  if (kind === "money") return /^(about )?-?(\d+\.\d\d|0\.\d{3,}|\d{5,})$/;
  if (["share", "limit", "worded"].includes(kind)) return / %$/;
  if (["number", "count", "score", "category"].includes(kind)) return /\d$/;
  const units: Record<string, string> = {
    density: "g/mL",
    celsius: "°C",
    hours: "h",
    dose: "g/m3",
    drops: "drops",
    rate: "drops per mL",
  };
  return new RegExp(` ${units[kind] ?? "(fl oz|g|mL|L|oz|lb|gal|pt|qt|kg)"}$`);
}

describe("to all digits", () => {
  const steps = catalog.flatMap((entry) => toldCalls(entry, "all"));

  test("what is shown beneath a sentence gives what comes out", () => {
    let proven = 0;
    for (const { value, how } of steps) {
      if (typeof value !== "number") continue;
      const sums = how.flatMap((text) => (text.startsWith("= ") ? valueIn(text.slice(2)) : []));
      if (sums.length < 2) continue;
      for (const sum of sums) close(sum, value, how.join(" "));
      proven++;
    }
    expect(proven).toBeGreaterThan(350);
  });

  test("the lines of a table are those that come out, and its foot is their sum", () => {
    let seen = 0;
    for (const { line, value, table } of steps) {
      if (!table || !Array.isArray(value) || Array.isArray(value[0]) || line.measure.includes(":"))
        continue;
      const last = table.lines.map((cells) => valueIn(cells.at(-1) ?? ""));
      expect(last).toHaveLength(value.length);
      last.forEach((cell, i) => close(cell, value[i] as number, line.name));
      seen++;
      const foot = table.foot?.at(-1);
      if (foot) close(valueIn(foot), math.sum(last), line.name);
    }
    expect(seen).toBeGreaterThan(60);
  });
});

function close(got: number, wanted: number, told: string) {
  expect(Math.abs(got - wanted), told).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
}

/** What a line on paper gives: its signs as mathjs writes them, without units. */
function valueIn(text: string): number {
  const sum = text
    .replace(/^(.*), rounded up$/, "ceil($1 - 1e-9)")
    .replace(/^(.*), rounded down to 2 decimals$/, "floor($1 × 100 + 1e-9) ÷ 100")
    .replace(/([\d.]+) (?!and )[^×÷−+(),%\d][^×÷−+(),%]*?(?= [×÷−+]|[),]| and |$)/g, "$1")
    .replace(/ per [^×÷−+(),]*?(?= [×÷−+]|[),]|$)/g, "")
    .replace(/([\d.]+) %/g, "($1 / 100)")
    .replace(/the square root of /g, "sqrt")
    .replace(/the (?:larger|most) of (.*?) and ([^)]+)/g, "max($1, $2)")
    .replace(/the least of (.*?) and ([^)]+)/g, "min($1, $2)")
    .replace(/e to the power of (.*)/g, "exp($1)")
    .replaceAll("×", "*")
    .replaceAll("÷", "/")
    .replaceAll("−", "-")
    .replaceAll("²", "^2")
    .replaceAll("³", "^3");
  return math.evaluate(sum) as number;
}

test.each([
  ["down", [[20], [null], [25]], [[0.95], [null], [0.5]]],
  ["across", [[20, null, 25]], [[0.95, null, 0.5]]],
])("a spare line %s is not told as a line of zeros", (_, amounts, values) => {
  const entry = catalog.find(({ id }) => id === "BLENDOF") as CatalogEntry;
  const { steps } = toldOf(entry, [amounts, values], { digits: "six", units: new Map() });
  // By hand: 20 × 0.95 and 25 × 0.5, under the numbers of their lines.
  expect(steps[0]?.table?.lines).toEqual([
    ["1", "20", "0.95", "19"],
    ["3", "25", "0.5", "12.5"],
  ]);
});
