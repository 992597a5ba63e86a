/** Cells that may be empty, told apart from a zero that somebody typed. */
import type { Cell, Cells } from "./cells.ts";
import { BLANK, CalcError, squeeze } from "./errors.ts";
import { at, lineOf, sameLength } from "./lists.ts";

/** True for a cell in which nothing was typed; a zero is something. */
export function isEmpty(cell: Cell): boolean {
  return typeof cell === "number" ? Number.isNaN(cell) : squeeze(cell) === "";
}

/** The number in a cell; a cell with nothing in it is a blank. */
export function numberIn({ name, cell }: NamedCell): number {
  if (isEmpty(cell)) return BLANK;
  if (typeof cell === "number") return cell;
  throw new CalcError(`${name} must be a number, got "${cell}"`);
}

/** A cell with the name that an error calls it by. */
export interface NamedCell {
  name: string;
  cell: Cell;
}

/** The cells of one row or one column that are filled. */
export function filledCells(argument: string, range: Cells): NamedCell[] {
  return filledLines({ [argument]: range }).flat();
}

/** The lines of ranges that are read side by side; one in which nothing is typed is spare. */
export function filledLines(ranges: Record<string, Cells>): NamedCell[][] {
  const columns = Object.entries(ranges).map(([name, range]) => ({
    name,
    cells: lineOf(name, range),
  }));
  const first = at(columns, 0);
  for (const { name, cells } of columns) sameLength(first.name, first.cells, name, cells);
  const lines: NamedCell[][] = [];
  // A whole column has a million cells, most of them empty: only the filled ones get a name.
  first.cells.forEach((_, i) => {
    if (columns.every(({ cells }) => isEmpty(at(cells, i)))) return;
    const place = first.cells.length > 1 ? `, cell ${i + 1},` : "";
    lines.push(columns.map(({ name, cells }) => ({ name: name + place, cell: at(cells, i) })));
  });
  return lines;
}

export interface UsedLine {
  /** The first cell of the line, above zero. */
  amount: number;
  beside: NamedCell[];
}

/**
 * The filled lines of which the first cell is not zero: of none of it nothing else needs to be
 * known.
 */
export function usedLines(
  ranges: Record<string, Cells>,
  guard: (name: string, value: number) => number,
): UsedLine[] {
  return filledLines(ranges).flatMap((line) => {
    const [first, beside] = [at(line, 0), line.slice(1)];
    const amount = guard(first.name, numberIn(first));
    return amount === 0 ? [] : [{ amount, beside }];
  });
}
