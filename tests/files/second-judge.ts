/**
 * A second engine that works out a workbook's file anew: HyperFormula, general-purpose, made by others, with none of
 * our functions. It is GPL-3.0 and stays in the tests: nothing of it is shipped.
 */
import { parseA1Range } from "@borgar/fx/xlsx";
import { DetailedCellError, HyperFormula, type RawCellContent } from "hyperformula";
import { Book } from "../../functions/files/book";
import { Package, allNamed, childNamed } from "../../functions/files/package";
import { cellsIn } from "../../functions/files/cells";
import { type FileCell, readBook } from "./read-book";

/** What it does otherwise than Excel, or does not know, by its own documentation or as tried here. */
const LACKS: readonly [pattern: RegExp, why: string][] = [
  [/\bTEXT\(/, "its TEXT knows no % and no thousands"],
  [/"\?\*"/, "its ?* takes an empty text, too"],
  [/\bINT\(-/, "its INT cuts a negative number off towards zero"],
  [/\bSUM\(INDEX\(/, "its INDEX gives a value, and SUM refuses one that is a text"],
];

/** Why a formula cannot be judged, if so. */
export function lacking(formula: string): string | undefined {
  return LACKS.find(([pattern]) => pattern.test(formula))?.[1];
}

/** The formula as it reads it: no prefixes, TRUE() for TRUE, no 1E-9. */
function asTyped(formula: string): string {
  return formula
    .replace(/_xlfn\.|_xlws\.|_xlpm\./g, "")
    .replace(
      /"[^"]*"|'[^']*'|\b(TRUE|FALSE)\b(?!\()|\b\d+(?:\.\d+)?E[+-]?\d+\b/gi,
      (all: string, word?: string) => {
        if (word) return `${word}()`;
        return /^["']/.test(all) ? all : plainNumber(Number(all));
      },
    );
}

function plainNumber(value: number): string {
  return /e/.test(String(value)) && value < 1
    ? value.toFixed(20)
    : BigInt(Math.round(value)).toString();
}

/** Formulas that fill several cells: by sheet, the first cell and the range. */
export function spansIn(bytes: Uint8Array): Map<string, Map<string, string>> {
  const file = Package.open(bytes);
  return new Map(new Book(file).sheets.map(({ name, path }) => [name, arraysIn(file, path)]));
}

/** The workbook's formulas worked out by it: by sheet, by cell. */
export function judged(bytes: Uint8Array): Map<string, Map<string, FileCell>> {
  const file = Package.open(bytes);
  const book = new Book(file);
  const arrays = spansIn(bytes);
  const cells = readBook(bytes);
  const sheets = [...cells].map(([name, all]) => {
    const spans = arrays.get(name) ?? new Map<string, string>();
    return [name, contentsOf(all, spans)] as const;
  });
  const engine = HyperFormula.buildFromSheets(Object.fromEntries(sheets), {
    licenseKey: "gpl-v3",
    useArrayArithmetic: true,
    leapYear1900: true,
    nullDate: { year: 1899, month: 12, day: 31 },
    precisionEpsilon: 1e-13,
    evaluateNullToZero: true,
  });
  for (const { name, text } of namesIn(book)) engine.addNamedExpression(name, `=${text}`);
  const answers = [...cells].map(([name, all]) => {
    const sheet = engine.getSheetId(name) ?? 0;
    const found = [...all].map(([cell, { formula }]): [string, FileCell] => {
      const { row, column } = placeOf(cell);
      const value = engine.getCellValue({ sheet, row, col: column });
      const isError = value instanceof DetailedCellError;
      const shown = isError ? value.value : (value ?? undefined);
      return [cell, { value: shown, isError, ...(formula !== undefined && { formula }) }];
    });
    return [name, new Map(found)] as const;
  });
  engine.destroy();
  return new Map(answers);
}

/** Names of ranges in the workbook. */
function namesIn(book: Book): { name: string; text: string }[] {
  return allNamed(book.root, "definedName").flatMap((each) => {
    const name = each.getAttribute("name") ?? "";
    const isOwn = !name.startsWith("_xlnm") && !each.hasAttribute("localSheetId");
    return isOwn ? [{ name, text: each.textContent ?? "" }] : [];
  });
}

/** Formulas that fill several cells: the first, and the range. */
function arraysIn(file: Package, path: string): Map<string, string> {
  const found = allNamed(file.root(path), "c").flatMap((cell): [string, string][] => {
    const formula = childNamed(cell, "f");
    const span = formula?.getAttribute("t") === "array" ? formula.getAttribute("ref") : undefined;
    return span ? [[cell.getAttribute("r") ?? "", span]] : [];
  });
  return new Map(found);
}

function contentsOf(cells: ReadonlyMap<string, FileCell>, arrays: ReadonlyMap<string, string>) {
  const filled = new Set(
    [...arrays].flatMap(([first, span]) => cellsIn(span).filter((cell) => cell !== first)),
  );
  const rows: RawCellContent[][] = [];
  for (const [cell, { value, formula }] of cells) {
    if (filled.has(cell)) continue;
    const { row, column } = placeOf(cell);
    const line = (rows[row] ??= []);
    if (formula === undefined) line[column] = typeof value === "string" ? asText(value) : value;
    else
      line[column] = arrays.has(cell)
        ? `=ARRAYFORMULA(${asTyped(formula)})`
        : `=${asTyped(formula)}`;
  }
  return Array.from(rows, (line) => Array.from(line ?? [], (content) => content ?? null));
}

/** A text that is none of a formula or a number; an empty one is nothing. */
function asText(text: string): string | null {
  return text === "" ? null : `'${text}`;
}

function placeOf(cell: string): { row: number; column: number } {
  const { top, left } = parseA1Range(cell) ?? {};
  if (typeof top !== "number" || typeof left !== "number")
    throw new Error(`no cell is called ${cell}`);
  return { row: top, column: left };
}
