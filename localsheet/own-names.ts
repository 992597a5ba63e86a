/**
 * Names that the engine does not know: of one sheet, of a number, of a formula. They are written out in the formulas
 * that use them; the file keeps them.
 */
import { tokenize } from "@borgar/fx/xlsx";
import { attributesOf, unescaped } from "../functions/files/source.ts";
import { isRange, rangeIn } from "../functions/formula/references.ts";

/** How often a name may stand for another. */
const DEEPEST = 8;

/** What is known of names on a sheet, by its number from zero: a formula with them written out. */
export function namesWrittenOut(
  workbook: string,
): (formula: string, sheet: number, depth?: number) => string {
  const names = new Map<string, string>();
  const named = /<definedName\b([^>]*)>([^<]*)<\/definedName>/g;
  for (const [, attributes = "", text = ""] of workbook.matchAll(named)) {
    const { name = "", localSheetId } = attributesOf(attributes);
    const meaning = unescaped(text);
    if (name.startsWith("_xlnm") || !isFixed(meaning)) continue;
    // The engine knows those of ranges of the whole workbook.
    if (localSheetId === undefined && isRange(meaning)) continue;
    names.set(`${localSheetId ?? ""} ${name.toLowerCase()}`, meaning);
  }
  const writtenOut = (formula: string, sheet: number, depth = 0): string => {
    if (names.size === 0 || depth > DEEPEST) return formula;
    return tokenize(formula, { negativeNumbers: false })
      .map(({ type, value }) => {
        const called = value.toLowerCase();
        const meaning =
          type === "range_named"
            ? (names.get(`${sheet} ${called}`) ?? names.get(` ${called}`))
            : undefined;
        if (meaning === undefined) return value;
        return isRange(meaning) ? meaning : `(${writtenOut(meaning, sheet, depth + 1)})`;
      })
      .join("");
  };
  return writtenOut;
}

/** One that says cells without $ means others in each cell that uses it. */
function isFixed(meaning: string): boolean {
  return tokenize(meaning).every(({ type, value }) => {
    if (type !== "range" && type !== "range_beam") return true;
    const found = rangeIn(value);
    if (!found) return false;
    const { range } = found;
    const rows = range.top === null || (range.$top && range.$bottom);
    const columns = range.left === null || (range.$left && range.$right);
    return Boolean(rows && columns);
  });
}
