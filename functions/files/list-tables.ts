/**
 * Tables of a file made whole: their names, the names of their columns, and the formulas that their
 * columns have.
 */
import { cellName, readCellName } from "../formula/addresses.ts";
import {
  type Element,
  type Package,
  allNamed,
  childNamed,
  childrenNamed,
  drop,
  elementLike,
  elements,
  keptText,
} from "./package.ts";
import { freeTableName } from "./table-names.ts";

/**
 * Gives the tables of a sheet the names that they have by their ranges, each once in a workbook.
 */
export function finishTables(
  book: Package,
  sheet: string,
  nameOf: (range: string) => string | undefined,
  taken: Set<string>,
): void {
  const paths = book.relations(sheet).filter(({ type }) => type === "table");
  if (paths.length === 0) return;
  const formulas = formulasOn(book.root(sheet));
  for (const { path } of paths) {
    const table = book.root(path);
    const range = table.getAttribute("ref") ?? "";
    const name = freeTableName(nameOf(range) ?? table.getAttribute("name") ?? "List", taken);
    table.setAttribute("name", name);
    table.setAttribute("displayName", name);
    // A style of no name is none; programs take the word for a style that is lost.
    const style = childNamed(table, "tableStyleInfo");
    if (style?.getAttribute("name") === "None") style.removeAttribute("name");
    giveFormulas(table, range, formulas);
    giveHeadings(table, range, book.root(sheet));
  }
}

/** Programs take a heading for damage that is blank, no text, or stands twice in a table. */
function giveHeadings(table: Element, range: string, sheet: Element) {
  const [first = ""] = range.split(":");
  const { row, column } = readCellName(first);
  const list = childNamed(table, "tableColumns");
  if (table.getAttribute("headerRowCount") === "0" || !list) return;
  const taken = new Set<string>();
  childrenNamed(list, "tableColumn").forEach((each, i) => {
    const cell = cellAt(sheet, row, column + i);
    const wanted = each.getAttribute("name") ?? "";
    let name = wanted;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${wanted}${n}`;
    taken.add(name.toLowerCase());
    each.setAttribute("name", name);
    if (name === wanted && /^(s|inlineStr)$/.test(cell.getAttribute("t") ?? "")) return;
    elements(cell).forEach(drop);
    cell.removeAttribute("cm");
    cell.setAttribute("t", "inlineStr");
    const inline = elementLike(cell, "is");
    inline.appendChild(keptText(cell, name));
    cell.appendChild(inline);
  });
}

/** A cell of a sheet, made where it is blank. */
function cellAt(sheet: Element, row: number, column: number): Element {
  const data = childNamed(sheet, "sheetData") ?? sheet;
  const inRow = madeIn(data, "row", String(row + 1), (name) => Number(name) > row + 1);
  return madeIn(inRow, "c", cellName(row, column), (name) => readCellName(name).column > column);
}

/** An element by its place among others, made before the first that is later. */
function madeIn(
  parent: Element,
  mark: string,
  r: string,
  isLater: (r: string) => boolean,
): Element {
  const all = childrenNamed(parent, mark);
  const known = all.find((each) => each.getAttribute("r") === r);
  if (known) return known;
  const made = elementLike(parent, mark, { r });
  const next = all.find((each) => isLater(each.getAttribute("r") ?? ""));
  parent.insertBefore(made, next ?? null);
  return made;
}

/** The formulas of a sheet that stand in one cell alone, by its name. */
function formulasOn(sheet: Element): Map<string, string> {
  const cells = allNamed(sheet, "c").flatMap((cell): [string, string][] => {
    const formula = childNamed(cell, "f");
    const isPlain = formula && !formula.hasAttribute("t");
    return isPlain ? [[cell.getAttribute("r") ?? "", formula.textContent ?? ""]] : [];
  });
  return new Map(cells);
}

/** A column that has formulas in all its lines hands the first line's to lines that are added. */
function giveFormulas(table: Element, range: string, formulas: ReadonlyMap<string, string>) {
  const [first, last] = range.split(":").map(readCellName);
  const list = childNamed(table, "tableColumns");
  if (!first || !last || !list) return;
  const heads = Number(table.getAttribute("headerRowCount") ?? 1);
  const totals = Number(table.getAttribute("totalsRowCount") ?? 0);
  const top = first.row + heads;
  const rows = Array.from({ length: last.row - totals - top + 1 }, (_, i) => top + i);
  childrenNamed(list, "tableColumn").forEach((column, i) => {
    const cells = rows.map((row) => formulas.get(cellName(row, first.column + i)));
    const [formula] = cells;
    if (formula === undefined || cells.includes(undefined)) return;
    column.appendChild(elementLike(column, "calculatedColumnFormula", {}, formula));
  });
}
