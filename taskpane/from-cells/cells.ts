/** Cells as a person reads and types them. */
import { VOLUME_UNITS, WEIGHT_UNITS } from "../../src/units.ts";
import { type Param, wordsOf } from "../../functions/catalog/entry.ts";
import { cellName, readCellName } from "../../functions/formula/addresses.ts";
import type { CellBlock, Spot } from "../host/workbook.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";

/** "C5:C64", with its sheet where that is another one than the formulas go to. */
export function blockText({ sheet, row, column, rows, columns }: CellBlock, home: string): string {
  const before = sheet === home ? "" : `${quoted(sheet)}!`;
  const first = cellName(row, column);
  const isCell = rows === 1 && columns === 1;
  return `${before}${first}${isCell ? "" : `:${cellName(row + rows - 1, column + columns - 1)}`}`;
}

/** The cell that a text names, or the first of a range: on this sheet, unless it names another. */
export function spotIn(text: string, home: string): Spot | null {
  const cell = /^(?:(.+)!)?(\$?[A-Z]{1,3}\$?[1-9]\d*)(?::.*)?$/i.exec(text.trim());
  if (!cell?.[2]) return null;
  const sheet = cell[1]?.replace(/^'(.*)'$/s, "$1").replaceAll("''", "'") ?? home;
  return { sheet, ...readCellName(cell[2].toUpperCase()) };
}

/** The words that an argument takes, to choose from; none where it is a number. */
export function choicesOf(param: Param): readonly string[] {
  return param.kind === "unit" ? [...WEIGHT_UNITS, ...VOLUME_UNITS] : wordsOf(param);
}
