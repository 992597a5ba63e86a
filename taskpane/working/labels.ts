/** The names that a cell has on its sheet, and its value shown as these and its format tell. */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { type CellValue, type Grid, isBlank } from "../../functions/bind/cell.ts";
import { type Measure, unitShown } from "../../functions/working/measures.ts";
import { type Digits, shown } from "../../functions/working/shown.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import type { Spot, Workbook } from "../host/workbook.ts";

/** How far up a heading may stand above a cell. */
const REACH = 200;

export interface Labels {
  /** The one label to its left. */
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

export async function labelsOf(workbook: Workbook, { sheet, row, column }: Spot): Promise<Labels> {
  const first = Math.max(0, row - REACH);
  const block = `${quoted(sheet)}!${cellName(first, 0)}:${cellName(row, column)}`;
  const [lines] = await workbook.values({ sheet, row, column }, [block]);
  if (!lines) return {};
  const [opening, ...more] =
    lines
      .at(-1)
      ?.slice(0, column)
      .filter((cell) => !isBlank(cell)) ?? [];
  const above = headingOf(lines, column);
  if (typeof opening !== "string") return { above };
  return more.length === 0 ? { beside: opening, above } : { line: opening, above };
}

/** The nearest line above of texts alone: of two or more, or of one over the first column. */
function headingOf(lines: Grid, column: number): string | undefined {
  for (const line of lines.slice(0, -1).reverse()) {
    const cell = line[column];
    const filled = line.filter((cell) => !isBlank(cell));
    // A blank line, or a title that stands alone: the table does not reach further up.
    if (filled.length <= Math.min(1, column)) return undefined;
    const isHeading = filled.every((each) => typeof each === "string");
    if (isHeading && typeof cell === "string" && cell !== "") return cell;
  }
  return undefined;
}

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
  if (typeof value === "number" && /y/i.test(look.format)) return dayShown(value);
  return shown(value, measureOf(look) ?? unknown, digits);
}

/** What a cell's number is measured in, where its labels or its format tell. */
function measureOf({ labels, format }: CellLook): Measure | undefined {
  if (format.includes("%")) return { kind: "share" };
  const words = labels.flatMap((label) => /\(([^()]+)\)\s*$/.exec(label)?.[1] ?? []);
  // A format names the place after its currency: [$€-407].
  for (const word of [...words, format.replace("[$", "[")]) {
    const [unit] = /[$€£¥₹]/.exec(word) ?? [];
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
