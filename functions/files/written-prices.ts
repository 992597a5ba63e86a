/**
 * Where a workbook holds prices as texts. Our functions read them and native formulas do not, so an
 * answer that comes of one is fixed in a copy.
 */
import { moneyIn } from "../../src/written-money.ts";
import { readCellName } from "../formula/addresses.ts";
import { type Range, edgesOf, rangeIn } from "../formula/references.ts";
import type { Book, Sheet } from "./book.ts";
import { type Element, allNamed, childrenNamed } from "./package.ts";
import type { FileCell, SheetCells } from "./sheet-cells.ts";

/** Rows by column. */
type Places = Map<number, Set<number>>;

export class WrittenPrices {
  private readonly sheets = new Map<string, Places>();

  constructor(
    private readonly book: Book,
    cellsOf: (sheet: Sheet) => SheetCells,
  ) {
    const { file } = book;
    const texts = file
      .relations(book.path)
      .filter(({ type }) => type === "sharedStrings")
      .flatMap(({ path }) => childrenNamed(file.root(path), "si"))
      .map(textIn);
    for (const sheet of book.sheets) {
      const places: Places = new Map();
      for (const cell of cellsOf(sheet).all) {
        const text = textOf(cell, texts);
        if (text === undefined || !moneyIn(text)) continue;
        const { row, column } = readCellName(cell.get("r") ?? "");
        places.set(column, (places.get(column) ?? new Set()).add(row));
      }
      if (places.size > 0) this.sheets.set(sheet.name.toLowerCase(), places);
    }
  }

  /** True where a range or a name of one has such a text; of anything else, where any sheet has. */
  isIn(reference: string, home: string): boolean {
    if (this.sheets.size === 0) return false;
    const found = rangeIn(reference) ?? this.named(reference);
    if (!found) return true;
    const places = this.sheets.get((found.sheetName || home).toLowerCase());
    const { top, left, bottom, right } = edgesOf(found);
    return [...(places ?? [])].some(([column, rows]) => {
      if (column < left || column > right) return false;
      return top === bottom ? rows.has(top) : [...rows].some((row) => row >= top && row <= bottom);
    });
  }

  private named(name: string): Range | null {
    const same = (each: Element) => each.getAttribute("name")?.toLowerCase() === name.toLowerCase();
    return rangeIn(this.book.names.find(same)?.textContent ?? "");
  }
}

function textOf(cell: FileCell, texts: readonly string[]): string | undefined {
  const type = cell.get("t");
  if (type === "inlineStr") return cell.inlineText;
  if (type === "s") return texts[Number(cell.value)];
  return type === "str" ? cell.value : undefined;
}

function textIn(element: Element): string {
  return allNamed(element, "t")
    .map(({ textContent }) => textContent ?? "")
    .join("");
}
