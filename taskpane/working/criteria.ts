/** What COUNTIF, SUMIFS and their like ask of a cell, and MATCH of what it looks for. */
import { type CellValue, type Grid, isBlank, isFault } from "../../functions/bind/cell.ts";
import { Untold, fault, isSame, sameOrLess } from "./cells.ts";

type Test = (cell: CellValue) => boolean;

/** A word as MATCH looks for it: * and ? stand for anything, after a ~ for themselves. */
export function wordTest(wanted: string): Test {
  if (!/[*?~]/.test(wanted)) return (cell) => typeof cell === "string" && isSame(cell, wanted);
  const parts = wanted.match(/~[*?~]|[^]/gu) ?? [];
  const pattern = parts.map((part) => ANYTHING[part] ?? escaped(part.replace(/^~(?=.)/, "")));
  const whole = new RegExp(`^${pattern.join("")}$`, "iu");
  return (cell) => typeof cell === "string" && whole.test(cell);
}

const ANYTHING: Record<string, string | undefined> = { "*": "[^]*", "?": "[^]" };

function escaped(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/-]/g, "\\$&");
}

/** A whole number reads alike in every language. */
const WHOLE = /^[+-]?\d+$/;

/** What a language may take for a number, a date or a truth. */
const MAY_BE_MORE = /^[^\p{L}]*\d[^\p{L}]*$|^[\d.,]+e[+-]?\d+$|^(true|false)$/iu;

/** The test that a criterion stands for: 5, "over*", ">=0", "<>sample only". */
function criterionTest(wanted: CellValue): Test {
  if (isFault(wanted)) throw new Untold();
  // A blank cell as a criterion is a nought, says Microsoft of COUNTIFS.
  if (typeof wanted !== "string") return valueTest(wanted ?? 0);
  const [, sign = "", rest = ""] = /^(<>|<=|>=|=|<|>)?([^]*)$/.exec(wanted) ?? [];
  if (rest === "") return blankTest(sign);
  if (!WHOLE.test(rest) && MAY_BE_MORE.test(rest)) throw new Untold();
  const value = WHOLE.test(rest) ? Number(rest) : rest;
  const equal = typeof value === "number" ? valueTest(value) : wordTest(value);
  if (sign === "" || sign === "=") return equal;
  if (sign === "<>") return (cell) => !equal(cell);
  if (typeof value === "string") throw new Untold();
  const order = ORDERS[sign];
  return (cell) =>
    typeof cell === "number" && order !== undefined && order(sameOrLess(cell, value));
}

const ORDERS: Record<string, ((order: number) => boolean) | undefined> = {
  "<": (order) => order < 0,
  "<=": (order) => order <= 0,
  ">": (order) => order > 0,
  ">=": (order) => order >= 0,
};

function valueTest(wanted: number | boolean): Test {
  return (cell) => {
    // Excel counts a number that was typed as a text, too, where it reads it as one.
    if (typeof cell === "string" && MAY_BE_MORE.test(cell)) throw new Untold();
    return typeof cell === typeof wanted && isSame(cell, wanted);
  };
}

function blankTest(sign: string): Test {
  if (sign === "") return isBlank;
  if (sign === "=") return (cell) => cell === null;
  if (sign === "<>") return (cell) => cell !== null;
  throw new Untold();
}

/** The cells of a range that stand where ranges fit what is asked of them, in pairs. */
function chosen(cells: Grid, pairs: readonly Grid[]): CellValue[] {
  const tests: { range: CellValue[]; test: Test }[] = [];
  for (let i = 0; i < pairs.length; i += 2) {
    const [range, [[wanted] = []] = []] = [pairs[i], pairs[i + 1]];
    const isOne = pairs[i + 1]?.flat().length === 1;
    // Long columns may have been read as far as they are filled.
    if (!range || wanted === undefined || !isOne || !isAsLarge(range, cells)) throw new Untold();
    tests.push({ range: range.flat(), test: criterionTest(wanted) });
  }
  return cells.flat().filter((_, i) => tests.every(({ range, test }) => test(range[i] ?? null)));
}

export function isAsLarge(a: Grid, b: Grid): boolean {
  return a.length === b.length && a[0]?.length === b[0]?.length;
}

/** The numbers among cells; an error among them is the answer. */
function picked(cells: CellValue[], work: (numbers: number[]) => CellValue): CellValue {
  return cells.find(isFault) ?? work(cells.filter((cell) => typeof cell === "number"));
}

const sum = (numbers: number[]) => numbers.reduce((total, each) => total + each, 0);
const mean = (numbers: number[]) =>
  numbers.length === 0 ? fault("#DIV/0!") : sum(numbers) / numbers.length;
const least = (numbers: number[]) => (numbers.length === 0 ? 0 : Math.min(...numbers));
const most = (numbers: number[]) => (numbers.length === 0 ? 0 : Math.max(...numbers));

type OfGrids = (first: Grid, ...more: Grid[]) => CellValue;

const ifOne =
  (work: (numbers: number[]) => CellValue): OfGrids =>
  (range, wanted = [], cells = range) =>
    picked(chosen(cells, [range, wanted]), work);

const ifAll =
  (work: (numbers: number[]) => CellValue): OfGrids =>
  (cells, ...pairs) =>
    picked(chosen(cells, pairs), work);

/** Functions that look at the cells where others are as asked. */
export const WHERE: Record<string, OfGrids | undefined> = {
  COUNTIF: (range, wanted = []) => chosen(range, [range, wanted]).length,
  COUNTIFS: (...pairs) => chosen(pairs[0], pairs).length,
  SUMIF: ifOne(sum),
  AVERAGEIF: ifOne(mean),
  SUMIFS: ifAll(sum),
  AVERAGEIFS: ifAll(mean),
  MINIFS: ifAll(least),
  MAXIFS: ifAll(most),
};
