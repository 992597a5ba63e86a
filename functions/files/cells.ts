/** The cells of a sheet that hold formulas. */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx/xlsx";
import { cellName } from "../formula/addresses.ts";
import { rangeIn } from "../formula/references.ts";
import type { Sheet } from "./book.ts";
import { type Element, type Package, childNamed, childrenNamed } from "./package.ts";

export interface FormulaCell {
  sheet: Sheet;
  /** Its name, B3. */
  name: string;
  cell: Element;
  formula: Element;
  text: string;
  /** The range that its answer fills; its own name where that is one cell. */
  fills: string;
}

/** All cells that a sheet's file holds. */
export function allCells(file: Package, sheet: Sheet): Element[] {
  const data = childNamed(file.root(sheet.path), "sheetData");
  return (data ? childrenNamed(data, "row") : []).flatMap((row) => childrenNamed(row, "c"));
}

/**
 * All formulas of a sheet. Those that stand once for many cells are written out where they may
 * change.
 */
export function formulaCells(
  file: Package,
  sheet: Sheet,
  mayChange: (formula: string) => boolean,
): FormulaCell[] {
  const shared = new Map<string, { name: string; text: string; changes: boolean }>();
  return allCells(file, sheet).flatMap((cell) => {
    const formula = childNamed(cell, "f");
    if (!formula || formula.getAttribute("t") === "dataTable") return [];
    const name = cell.getAttribute("r") ?? "";
    let text = formula.textContent ?? "";
    if (formula.getAttribute("t") === "shared") {
      const group = formula.getAttribute("si") ?? "";
      if (text) shared.set(group, { name, text, changes: mayChange(text) });
      const first = shared.get(group);
      if (!first?.changes) return [];
      text = text || moved(first.text, first.name, name);
      for (const attribute of ["t", "si", "ref"]) formula.removeAttribute(attribute);
      formula.textContent = text;
    }
    const isArray = formula.getAttribute("t") === "array";
    return [
      { sheet, name, cell, formula, text, fills: (isArray && formula.getAttribute("ref")) || name },
    ];
  });
}

function moved(formula: string, from: string, to: string): string {
  return translateFormulaToA1(translateFormulaToR1C1(formula, from), to);
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
