/**
 * The native formulas of functions that read lists side by side, worked out by the local sheet's engine,
 * against the functions themselves: blanks among the filled cells, and orders at the free-freight sum.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { CalcError, blendDensity, blendOf, bottleCost, landed, sizeRun } from "../../src/index";
import { cellName } from "../../functions/formula/addresses";
import { readFormula } from "../../functions/formula/reader";
import { nativeFormula } from "../../functions/files/native-formula";
import { newModel, read } from "./load-engine";

const CALLS = 250;

type Typed = number | null;

/** A call: its lists, one to a row, each with its cells, and numbers typed into the formula. */
interface Call {
  lists: Typed[][];
  numbers: number[];
}

/** The sum of what a call gives, or that it refuses. */
function outcome(answer: () => number | number[][]): number | "refused" {
  try {
    const value = answer();
    return [value].flat(2).reduce((a, b) => a + b, 0);
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    return "refused";
  }
}

/** Every call on a sheet of the engine as its native formula; the engine reads no literal error. */
function natively(calls: Call[], written: (lists: string[], numbers: number[]) => string) {
  const cells: Record<string, string> = {};
  const formulas = calls.map(({ lists, numbers }, i) => {
    const width = lists[0].length;
    const ranges = lists.map((list, j) => {
      const row = i * 4 + j;
      list.forEach((value, k) => {
        if (value !== null) cells[cellName(row, k)] = String(value);
      });
      return `${cellName(row, 0)}:${cellName(row, width - 1)}`;
    });
    const { text } = nativeFormula(readFormula(`SUM(${written(ranges, numbers)})`), () => null);
    return text.replaceAll("#VALUE!", "NA()");
  });
  formulas.forEach((formula, i) => (cells[cellName(i * 4, 10)] = `=${formula}`));
  const rowNumber = calls.length * 4 + 1;
  const model = newModel({ sheets: [{ id: "s", rowNumber, colNumber: 12, cells }] });
  return calls.map((_, i) => {
    const value = read(model, cellName(i * 4, 10));
    return typeof value === "number" ? value : "refused";
  });
}

const grid = (list: Typed[]) => [list.map((value) => value ?? BLANK)];
const typed = (...values: number[]) =>
  fc.oneof(
    { weight: 5, arbitrary: fc.constantFrom(...values) },
    { weight: 1, arbitrary: fc.constantFrom(null, 0) },
  );
/** Shares in tenths that make a whole, some of them blank. */
const shares = fc.constantFrom<Typed[]>(
  [0.6, 0.4, null],
  [0.9, 0.1, 0],
  [1, null, null],
  [0.5, 0.4, 0.1],
  [0.5, null, 0.4],
);
const three = (value: fc.Arbitrary<Typed>) => fc.array(value, { minLength: 3, maxLength: 3 });
const money = typed(2.6, 13.2, 0.3333, 40);
const counts = typed(1, 3, 4, 12);

describe.each<[string, fc.Arbitrary<Typed[][]>, (call: Call) => number | number[][]]>([
  [
    "BLENDOF",
    fc.tuple(three(typed(1, 2.5, 30)), three(typed(0.95, 0.5, 7))),
    ({ lists: [a, b] }) => blendOf(grid(a), grid(b)),
  ],
  [
    "BLENDDENSITY",
    fc.tuple(three(typed(1, 2.5, 30)), three(typed(0.95, 0.8, 1.1))),
    ({ lists: [a, b] }) => blendDensity(grid(a), grid(b)),
  ],
  [
    "SIZERUN",
    fc.tuple(shares, three(typed(60, 120, 30.5)), three(counts)),
    ({ lists: [a, b, c] }) => sizeRun(grid(a), grid(b), grid(c)),
  ],
  [
    "LANDED",
    fc.tuple(three(money), three(counts)),
    ({ lists: [a, b], numbers }) => landed(grid(a), grid(b), numbers[0], numbers[1]),
  ],
  [
    "BOTTLECOST",
    fc.tuple(shares, three(money)),
    ({ lists: [a, b], numbers }) => bottleCost(numbers[0], grid(a), grid(b)),
  ],
])("%s", (id, lists, pure) => {
  test("as a native formula it refuses the blanks that it refuses itself, and counts the others alike", () => {
    const numbers = fc.tuple(fc.constantFrom(12, 100), fc.constantFrom(50, 100, 0));
    const calls = fc.sample(fc.record({ lists, numbers }), { seed: 10, numRuns: CALLS });
    const theirs = natively(calls, (ranges, [first, second]) => {
      if (id === "BOTTLECOST") return `MIST.${id}(${first},${ranges.join(",")})`;
      const further = id === "LANDED" ? `,${first},${second}` : "";
      return `MIST.${id}(${ranges.join(",")}${further})`;
    });
    const ours = calls.map((call) => outcome(() => pure(call)));
    calls.forEach((call, i) => {
      const told = `${JSON.stringify(call)}: ${ours[i]}, native ${theirs[i]}`;
      if (typeof ours[i] === "string") expect(theirs[i], told).toBe(ours[i]);
      else expect(Math.abs(Number(theirs[i]) - ours[i]), told).toBeLessThan(1e-9 * (1 + ours[i]));
    });
    const refused = ours.filter((answer) => answer === "refused").length;
    expect(Math.min(refused, CALLS - refused)).toBeGreaterThan(CALLS / 20);
  });
});

test("LANDED's native formula has the same free-freight sum, to the cent", () => {
  const cents = fc.integer({ min: 1, max: 9_999 });
  const line = fc.tuple(cents, fc.integer({ min: 1, max: 40 }));
  const orders = fc.sample(fc.array(line, { minLength: 3, maxLength: 3 }), {
    seed: 5,
    numRuns: 400,
  });
  const calls = orders.map((lines) => {
    const goods = lines.reduce((sum, [price, count]) => sum + price * count, 0);
    const lists = [lines.map(([price]) => price / 100), lines.map(([, count]) => count)];
    return { lists, numbers: [7, goods / 100] };
  });
  const answers = natively(calls, ([prices, counted], [freight, freeover]) => {
    return `MIST.LANDED(${prices},${counted},${freight},${freeover})`;
  });
  answers.forEach((answer, i) => expect(answer).toBeCloseTo(calls[i].numbers[1], 8));
  // A cent more, and each pays.
  const dearer = calls.map(({ lists, numbers: [freight, goods] }) => {
    return { lists, numbers: [freight, Number((goods + 0.01).toFixed(2))] };
  });
  natively(dearer, ([prices, counted], [freight, freeover]) => {
    return `MIST.LANDED(${prices},${counted},${freight},${freeover})`;
  }).forEach((answer, i) => expect(answer).toBeCloseTo(calls[i].numbers[1] + 7, 8));
});
