import fc from "fast-check";
import { all, create } from "mathjs";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry, Need, Param } from "../../functions/catalog/entry";
import { WORD_KINDS } from "../../functions/catalog/kinds";
import { inputsOf, linesOf } from "../../functions/bind/arguments";
import { isFault } from "../../functions/bind/cell";
import { worksheetFunction } from "../../functions/bind/register";
import { scopeOf } from "../../functions/working/steps";
import { type Cell, limitOf, isBlank as isBlankCell, yesOrNo } from "../../src/cells";
import { squeeze } from "../../src/errors";
import { isEmpty } from "../../src/filled";
import { packHolds } from "../../src/measure/packholds";
import { unitOf } from "../../src/units";
import { sensible } from "./arbitrary";

const RUNS = 2000;

/** As the functions compare: to the last bit. */
const math = create(all, { matrix: "Array", relTol: 1e-17, absTol: 1e-300 });

type Cells = (number | string)[];

/** The words of @needs lines that working lines have no use for. */
const WORDS = {
  // Its own rounds to so many digits that these settings leave it none.
  floor: (value: number | number[]) => [value].flat().map(Math.floor),
  same: (word: string, other: string) => squeeze(word) === squeeze(other),
  given: (value: unknown) => value !== null,
  samelength: (a: unknown[], b: unknown[]) => a.length === b.length,
  isnumber: (size: unknown) => typeof size === "number",
  ispack: (text: Cell, density: number | null) =>
    !throws(() => packHolds(text, "floz", density ?? undefined)),
  isunit: (unit: string) => !throws(() => unitOf("unit", unit)),
  islimit: (cells: Cells) => cells.map((cell) => !throws(() => limitOf("limit", cell))),
  isknown: (loads: Cells, contents: Cells) =>
    loads.map((load, i) => {
      const content = contents[i];
      const isShare = typeof content === "number" && content >= 0 && content <= 1;
      return isUsed([load, content], isShare);
    }),
  isquoted: (amounts: Cells, lows: Cells, highs: Cells) =>
    amounts.map((amount, i) => {
      const [low, high] = [lows[i], highs[i]];
      const areNumbers = typeof low === "number" && typeof high === "number";
      return isUsed([amount, low, high], areNumbers && low > 0 && high >= low);
    }),
  isyesno: (cells: Cells) => cells.map((cell) => !throws(() => yesOrNo("cell", cell))),
  isspare: (labels: Cells, limits: Cells) =>
    labels.map((label, i) => isBlankCell(label) && isBlankCell(limits[i])),
};

/** A line that is empty, or of which there is none, or whose other cells are known. */
function isUsed(line: Cells, isKnown: boolean): boolean {
  const [amount] = line;
  if (line.every(isEmpty) || amount === 0) return true;
  return typeof amount === "number" && amount > 0 && isKnown;
}

function throws(run: () => unknown): boolean {
  try {
    run();
    return false;
  } catch {
    return true;
  }
}

/** What the needs say of a call: an answer, an error, or blank. */
function foretold(entry: CatalogEntry, args: unknown[]): "answer" | "error" | "blank" {
  const inputs = inputsOf(entry, args);
  // A required number that is blank is refused before the needs are looked at.
  const isUnknown = entry.params.some((p, i) => !p.optional && Number.isNaN(inputs[i]));
  if (isUnknown) return isSpare(entry, args) ? "blank" : "error";
  const scope: Record<string, unknown> = {
    ...scopeOf(entry, inputs),
    ...WORDS,
    ...filledIn(entry, inputs),
  };
  for (const [i, param] of entry.params.entries()) {
    // A list of one cell comes as a list, a word that was left out as its default.
    if (param.range && !Array.isArray(scope[param.name]))
      scope[param.name] = scope[param.name] ?? null;
    if (inputs[i] === undefined) scope[param.name] = param.default ?? null;
  }
  const failed = entry.needs.find((need) => applies(need, entry, inputs) && !holds(need, scope));
  if (!failed) return "answer";
  return failed.orBlank && isSpare(entry, args) ? "blank" : "error";
}

/** Whether cells are filled, as they came: to the working a blank is nothing of it. */
function filledIn(entry: CatalogEntry, inputs: unknown[]) {
  const isFilled = (cell: unknown) => cell !== undefined && cell !== "" && !Number.isNaN(cell);
  const filled = entry.params.map(({ name }, i) => [
    `filled_${name}`,
    [inputs[i]].flat(2).map(isFilled),
  ]);
  return Object.fromEntries(filled) as Record<string, boolean[]>;
}

function applies({ when }: Need, entry: CatalogEntry, inputs: unknown[]): boolean {
  const asked = /^(\w+) (not )?given$/.exec(when ?? "");
  if (!asked) return when === undefined;
  const index = entry.params.findIndex(({ name }) => name === asked[1]);
  return (inputs[index] !== undefined) === !asked[2];
}

function holds({ expression }: Need, scope: Record<string, unknown>): boolean {
  const named = expression.replace(/\bfilled\((\w+)\)/g, "filled_$1");
  const value: unknown = math.evaluate(named, { ...scope });
  return [value].flat(3).every(Boolean);
}

function isNothing(param: Param, value: unknown): boolean {
  if (Array.isArray(value)) return value.flat().every((cell) => isNothing(param, cell));
  return value === undefined || value === null || value === "" || value === 0;
}

function isSpare(entry: CatalogEntry, args: unknown[]): boolean {
  return entry.params.every(
    (param, i) => param.optional || WORD_KINDS.has(param.kind) || isNothing(param, args[i]),
  );
}

const plain = catalog.filter(({ needs }) => needs.length > 0);

describe.each(plain)("the needs of $id", (entry) => {
  test(`foretell whether the cell has an answer, ${RUNS} times`, () => {
    const seen = { answer: 0, error: 0, blank: 0 };
    const run = (args: unknown[]) => {
      const { rows, columns } = linesOf(entry, args);
      if (rows * columns > 1 || args.every((value, i) => isNothing(entry.params[i], value))) return;
      // What is of the wrong sort is refused before the needs are looked at, and so are tables.
      if (throws(() => inputsOf(entry, args)) || isTable(entry, args)) return;
      const cells = worksheetFunction(entry)(...args).flat();
      const found = cells.some(isFault)
        ? "error"
        : cells.every((cell) => cell === "")
          ? "blank"
          : "answer";
      expect(foretold(entry, args), JSON.stringify(args)).toBe(found);
      seen[found]++;
    };
    fc.assert(fc.property(fc.oneof(sensible(entry), widened(entry)), run), { numRuns: RUNS });
    expect(seen.answer).toBeGreaterThan(20);
    expect(seen.error).toBeGreaterThan(5);
  });
});

/** Shares that sum to 100 %, or all alike; certificates that nobody has read. */
function widened(entry: CatalogEntry): fc.Arbitrary<unknown[]> {
  return sensible(entry).chain((args) =>
    fc.constantFrom(0, 1).map((whole) =>
      args.map((value, i) => {
        const { kind, range } = entry.params[i];
        if (kind === "limit" && Array.isArray(value) && whole) return value.map(() => [""]);
        if (kind !== "share" || !range || !Array.isArray(value)) return value;
        const cells = value as number[][];
        return cells.map((row) => row.map(() => (whole ? 1 / cells.flat().length : row[0])));
      }),
    ),
  );
}

/** A table where a row or a column is wanted. */
function isTable(entry: CatalogEntry, args: unknown[]): boolean {
  return args.some((value, i) => {
    const grid = value as unknown[][];
    return entry.params[i].range && Array.isArray(value) && grid.length > 1 && grid[0].length > 1;
  });
}
