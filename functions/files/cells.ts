/** The cells of a sheet that hold formulas. */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx/xlsx";
import { cellName } from "../formula/addresses.ts";
import { rangeIn } from "../formula/references.ts";
import type { Sheet } from "./book.ts";
import type { CellFormula, FileCell, SheetCells } from "./sheet-cells.ts";

export interface FormulaCell {
  sheet: Sheet;
  /** Its name, B3. */
  name: string;
  cell: FileCell;
  formula: CellFormula;
  /** The range that its answer fills; its own name where that is one cell. */
  fills: string;
}

/**
 * All formulas of a sheet. Those that stand once for many cells are written out where they may
 * change.
 */
export function formulaCells(
  sheet: Sheet,
  { all }: SheetCells,
  mayChange: (formula: string) => boolean,
): FormulaCell[] {
  /** Of those that stand once, as of any cell; null where they stay so. */
  const shared = new Map<string, string | null>();
  return all.flatMap((cell) => {
    const formula = cell.formula;
    const { t: type, si: group = "", ref } = formula?.attributes ?? {};
    if (!formula || type === "dataTable") return [];
    const name = cell.get("r") ?? "";
    if (type === "shared") {
      const { text } = formula;
      if (text) shared.set(group, mayChange(text) ? translateFormulaToR1C1(text, name) : null);
      const anywhere = shared.get(group);
      if (typeof anywhere !== "string") return [];
      formula.text ||= translateFormulaToA1(anywhere, name);
      for (const attribute of ["t", "si", "ref"]) delete formula.attributes[attribute];
      cell.setFormula(formula);
    }
    return [{ sheet, name, cell, formula, fills: (type === "array" && ref) || name }];
  });
}

/** The names of the cells in a range. */
export function cellsIn(range: string): string[] {
  const found = rangeIn(range);
  if (!found) return [range];
  const { top, left, bottom, right } = found.range;
  const [firstRow, firstColumn] = [top ?? 0, left ?? 0];
  const names: string[] = [];
  for (let row = firstRow; row <= (bottom ?? firstRow); row++) {
    for (let column = firstColumn; column <= (right ?? firstColumn); column++)
      names.push(cellName(row, column));
  }
  return names;
}
