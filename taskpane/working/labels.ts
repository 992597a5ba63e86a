/** The names that a cell has on its sheet, and its value shown as these and its format tell. */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { type CellValue, isBlank } from "../../functions/bind/cell.ts";
import { type Measure, unitShown } from "../../functions/working/measures.ts";
import { type Digits, shown } from "../../functions/working/shown.ts";
import { currencyIn, inBrackets } from "../../functions/working/unit-in.ts";
import type { Spot, Workbook } from "../host/workbook.ts";

/** How far up a heading may stand above a cell, and how many lines are read at a time. */
const REACH = 200;
const AT_ONCE = 40;

/** So many columns are looked at: a line of a list has a number in one of them. */
const WIDTH = 20;

const LONGEST_LABEL = 70;

/** A line of so many texts is that of a list's headings. */
const LIST = 9;

export interface Labels {
  /** The label to its left. */
  beside?: string | undefined;
  /** What its line opens with, where more stands between. */
  line?: string | undefined;
  /** The heading above. */
  above?: string | undefined;
}

/** What tells how a cell's number is to be read. */
export interface CellLook {
  labels: readonly string[];
  format: string;
}

export async function labelsOf(workbook: Workbook, spot: Spot): Promise<Labels> {
  const { sheet, row, column } = spot;
  const columns = Math.max(column + 1, WIDTH);
  const [line = []] = await workbook.read({ sheet, row, column: 0 }, 1, columns);
  const { isList, beyond, ...heading } = await headingAbove(workbook, spot, columns);
  const filled = line.slice(0, column).filter((cell) => !isBlank(cell));
  // A spare line of a list, below others.
  const above = heading.above ?? (filled.length === 0 ? beyond : undefined);
  const [opening, near] = [filled[0], filled.at(-1)];
  if (isLabel(near) && (hasUnit(near) || above === undefined)) return { beside: near, above };
  if (!isLabel(opening)) return { above };
  const isBeside = filled.length === 1 && !isList;
  return isBeside ? { beside: opening, above } : { line: opening, above };
}

interface Heading {
  above?: string | undefined;
  /** Its line has so many headings that it can be nothing else. */
  isList: boolean;
  /** That of a list, where blank lines stand between. */
  beyond?: string | undefined;
}

/**
 * The heading above: the nearest line that holds texts alone, or that does so up to the column
 * where there is no such line. It is read a few lines at a time.
 */
async function headingAbove(
  workbook: Workbook,
  { sheet, row, column }: Spot,
  columns: number,
): Promise<Heading> {
  let upToHere: string | undefined;
  let isBeyond = false;
  for (let end = row; end > 0 && row - end < REACH; end -= AT_ONCE) {
    const rows = Math.min(end, AT_ONCE);
    const lines = await workbook.read({ sheet, row: end - rows, column: 0 }, rows, columns);
    for (const line of lines.reverse()) {
      const cell = line[column];
      const left = line.slice(0, column + 1).filter((each) => !isBlank(each));
      // A blank line, or a title that stands alone: the table does not reach further up.
      if (left.length <= Math.min(1, column)) isBeyond = true;
      // Beside a gap stands what was filled in, and no heading.
      const isBesideGap = column > 0 && isBlank(line[column - 1] ?? null);
      if (!isText(cell) || cell === "" || isBesideGap || !left.every(isText)) continue;
      const all = line.filter((each) => !isBlank(each));
      const isHeading = all.every(isText);
      const isOfList = isHeading && all.length >= LIST;
      if (isBeyond && isOfList) return { above: upToHere, isList: false, beyond: cell };
      if (isBeyond) continue;
      if (isHeading) return { above: cell, isList: isOfList };
      upToHere ??= cell;
    }
  }
  return { above: upToHere, isList: false };
}

/** A text that can be a label: a longer one is a note. */
function isLabel(cell: CellValue | undefined): cell is string {
  return isText(cell) && cell.length <= LONGEST_LABEL;
}

function isText(cell: CellValue | undefined): cell is string {
  return typeof cell === "string";
}

/** True for a label that ends in brackets: "Batch (g)". */
export function hasUnit(label: string): boolean {
  return UNIT.test(label);
}

/** A label without what it ends with in brackets, in one line. */
export function withoutUnit(label: string): string {
  return label.replace(UNIT, "").replaceAll(/\s+/g, " ").trim();
}

const UNIT = /\s*\([^()]*\)\s*$/;

/** What a cell looks like to the one who reads it. */
export async function lookOf(workbook: Workbook, spot: Spot): Promise<CellLook> {
  const { beside, above, line } = await labelsOf(workbook, spot);
  const labels = [beside, above, line].filter((each) => each !== undefined);
  return { labels, format: await workbook.format(spot) };
}

/** A value as its cell shows it, with the unit that a label names: money as money, a day as a day. */
export function shownAs(
  value: CellValue,
  look: CellLook,
  digits: Digits,
  unknown: Measure = { kind: "number" },
): string {
  if (typeof value === "number" && isDay(look)) return dayShown(value);
  return shown(value, measureOf(look) ?? unknown, digits);
}

/** True where a cell itself tells how its number is to be read. */
export function tellsMeasure(look: CellLook): boolean {
  return isDay(look) || measureOf(look) !== undefined;
}

function isDay({ format }: CellLook): boolean {
  return /y/i.test(format);
}

/** What a cell's number is measured in, where its labels or its format tell. */
function measureOf({ labels, format }: CellLook): Measure | undefined {
  if (format.includes("%")) return { kind: "share" };
  for (const word of [...labels.flatMap((label) => inBrackets(label) ?? []), format]) {
    const unit = currencyIn(word);
    const [, per] = / per (.+)$/.exec(word) ?? [];
    if (unit) return { kind: "money", unit, per };
    if (word in IN_BRACKETS) return IN_BRACKETS[word];
    if (UNIT_WORDS.has(unitWord(word))) return { kind: "amount", unit: unitShown(word) };
  }
  return undefined;
}

/** What labels name in brackets besides units and currencies. */
const IN_BRACKETS: Record<string, Measure> = {
  "g/mL": { kind: "density" },
  C: { kind: "celsius" },
  F: { kind: "number", unit: "°F" },
  h: { kind: "hours" },
  minutes: { kind: "number", unit: "minutes" },
};

/** A day as it is counted by sheets, from the end of 1899. */
function dayShown(value: number): string {
  const day = new Date((value - 25_569) * 86_400_000);
  return Number.isNaN(day.getTime()) ? String(value) : day.toISOString().slice(0, 10);
}
