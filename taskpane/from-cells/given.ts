/** What a person gives for an argument: a column of a list, a cell, a value, or anything a formula may hold. */
import { amountOf, moneyIn } from "../../src/written-money.ts";
import { type Param, wordsOf } from "../../functions/catalog/entry.ts";
import { WORD_KINDS } from "../../functions/catalog/kinds.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { readFormula } from "../../functions/formula/reader.ts";
import { type Range, rangeIn } from "../../functions/formula/references.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import { hold } from "../sheets/names.ts";
import type { FoundList } from "./list.ts";

export interface PickedCells {
  /** As it stands in one formula for all lines. */
  whole: string;
  /** A column with a cell for each line: how many, and the row of the first. */
  lines?: { count: number; row: number };
  /** The heading over it, where it is a column of the list. */
  heading?: string | undefined;
  /** As it stands in the formula of a line, counted from zero. */
  inLine: (line: number) => string;
}

/** A field that cannot be taken; the text says why. */
export class NotTaken extends Error {}

/** What a field says, null where it says nothing; `sheet` is where the formulas go. */
export function givenIn(
  text: string,
  param: Param,
  sheet: string,
  list: FoundList | null,
): PickedCells | null {
  const typed = text.trim().replace(/^=/, "").trim();
  if (typed === "") return null;
  const found = rangeIn(typed);
  if (found) {
    const { range, sheetName } = found;
    return fromCells(range, sheetName || list?.sheet || sheet, { typed, param, sheet, list });
  }
  const value = text.trim().startsWith("=") ? undefined : valueOf(typed, param);
  return alike(value ?? expressionOf(typed, param));
}

/** The same for every line. */
function alike(whole: string): PickedCells {
  return { whole, inLine: () => whole };
}

interface Asked {
  typed: string;
  param: Param;
  /** Where the formulas go. */
  sheet: string;
  list: FoundList | null;
}

function fromCells(
  range: Range["range"],
  on: string,
  { typed, param, sheet, list }: Asked,
): PickedCells {
  const ofList = list?.sheet === on ? list : null;
  // Of whole columns and rows two edges are not told.
  const [left, right] = [range.left ?? null, range.right ?? null];
  let [top, bottom] = [range.top ?? null, range.bottom ?? null];
  const inList = ofList?.columns.some(({ column }) => column === left) ?? false;
  if (top === null || bottom === null) {
    if (!ofList) throw new NotTaken(`${param.name}: ${typed} is a whole column: name its lines`);
    [top, bottom] = [ofList.first, ofList.last];
  }
  if (left === null || right === null)
    throw new NotTaken(`${param.name}: ${typed} is a whole row: name its cells`);
  const isHeld = range.$top === true && range.$left === true;
  const isCell = top === bottom && left === right;
  if (ofList && inList && !isHeld) {
    // One cell of a list stands for its column, and its heading is none of its lines.
    const isInLines = top >= ofList.head && top <= ofList.last;
    if (isCell && isInLines) [top, bottom] = [ofList.first, ofList.last];
    if (top <= ofList.head && bottom > ofList.head) top = ofList.first;
    if (bottom > ofList.last && top <= ofList.last) bottom = ofList.last;
  }
  const before = on === sheet ? "" : `${quoted(on)}!`;
  const [first, last] = [top, bottom];
  const isOne = first === last && left === right;
  if (isHeld || param.range || isOne)
    return alike(`${before}${hold(first, left)}${isOne ? "" : `:${hold(last, right)}`}`);
  if (left !== right) throw new NotTaken(`${param.name}: ${typed} has several columns: pick one`);
  return {
    whole: `${before}${cellName(first, left)}:${cellName(last, left)}`,
    lines: { count: last - first + 1, row: first },
    heading: ofList?.columns.find(({ column }) => column === left)?.heading,
    inLine: (line) => `${before}${cellName(first + line, left)}`,
  };
}

/** Kinds that may be texts, beside those that are words. */
const TEXT_KINDS: ReadonlySet<Param["kind"]> = new Set(["label", "yesno", "pack"]);

const NUMBER = /^[-+]?[$€£]?\s*(\d[\d.,\s]*|[.,]\d+)\s*(%?)$/;

/** A number or a word as a formula has it; undefined for what is neither. */
function valueOf(typed: string, param: Param): string | undefined {
  if (/^".*"$/.test(typed)) return typed;
  const refuse = (why: string): never => {
    throw new NotTaken(`${param.name}: ${why}`);
  };
  const money = param.kind === "money" ? moneyIn(typed) : null;
  if (money) return String(amountOf(money, refuse));
  const number = NUMBER.exec(typed);
  if (number)
    return `${typed.startsWith("-") ? "-" : ""}${digitsOf(typed, param)}${number[2] ?? ""}`;
  const isWord = WORD_KINDS.has(param.kind) || TEXT_KINDS.has(param.kind);
  const isListed = wordsOf(param).includes(typed.toLowerCase());
  return isWord || isListed ? `"${typed.replaceAll('"', '""')}"` : undefined;
}

/** The digits of a number with a decimal point. A comma before three digits could mean two things. */
function digitsOf(typed: string, { name }: Param): string {
  const digits = typed.replace(/[^\d.,]/g, "");
  if (/^\d{1,3},\d{3}$/.test(digits))
    throw new NotTaken(`${name}: ${typed} can be read in two ways: type it without the comma`);
  const point = Math.max(digits.lastIndexOf("."), digits.lastIndexOf(","));
  if (point < 0) return digits;
  const whole = digits.slice(0, point).replace(/[.,]/g, "");
  return `${whole === "" ? "0" : whole}.${digits.slice(point + 1)}`;
}

/** A name, or what else a formula may hold. */
function expressionOf(typed: string, { name }: Param): string {
  try {
    readFormula(typed);
    return typed;
  } catch {
    throw new NotTaken(`${name}: "${typed}" cannot be read: pick cells, or type a value`);
  }
}
