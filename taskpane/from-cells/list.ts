/** The list that a maker has on a sheet, found around a cell: its headings and its lines. */
import { moneyIn } from "../../src/written-money.ts";
import { type CellValue, isBlank, looksLikeNumber } from "../../functions/bind/cell.ts";
import type { Spot, Workbook } from "../host/workbook.ts";

export interface FoundColumn {
  column: number;
  heading: string;
  /** What stands in its lines. */
  values: CellValue[];
}

/** Rows count from zero. */
export interface FoundList {
  sheet: string;
  /** The row of the headings, and the first and last line under it. */
  head: number;
  first: number;
  last: number;
  columns: FoundColumn[];
}

/** So far down and across a sheet is looked at. */
const LOOKED_AT = { rows: 2000, columns: 40 };

/** The list that a cell stands in or beside; the longest of the sheet where it stands in none. */
export async function listAround(workbook: Workbook, spot: Spot): Promise<FoundList | null> {
  const lists = await listsOn(workbook, spot.sheet);
  const near = lists.find(
    ({ head, last, columns }) =>
      spot.row >= head &&
      spot.row <= last + 1 &&
      // The cell right beside a list is where its answers go.
      spot.column >= (columns[0]?.column ?? 0) &&
      spot.column <= (columns.at(-1)?.column ?? 0) + 1,
  );
  return near ?? longest(lists);
}

/** The longest list of a sheet, with those beside it: a column of its own may have no heading. */
export async function mainList(workbook: Workbook, sheet: string): Promise<FoundList | null> {
  const lists = await listsOn(workbook, sheet);
  const found = longest(lists);
  const columns = lists.filter(({ head }) => head === found?.head).flatMap((list) => list.columns);
  return found && { ...found, columns };
}

/** The lists of a sheet. */
async function listsOn(workbook: Workbook, sheet: string): Promise<FoundList[]> {
  const from = { sheet, row: 0, column: 0 };
  const cells = await workbook.read(from, LOOKED_AT.rows, LOOKED_AT.columns);
  return headRows(cells)
    .flatMap((head, i, heads) => listsUnder(cells, head, heads[i + 1] ?? cells.length))
    .map((list) => ({ ...list, sheet }));
}

function longest(lists: readonly FoundList[]): FoundList | null {
  return [...lists].sort((a, b) => b.last - b.head - (a.last - a.head))[0] ?? null;
}

/**
 * Rows of headings: of the lines of words that open a block, above its first number, the one with the most cells.
 * A title or a note above has fewer.
 */
function headRows(cells: readonly CellValue[][]): number[] {
  const heads: number[] = [];
  let open: { row: number; filled: number } | null = null;
  let isOpening = true;
  const close = () => {
    if (open) heads.push(open.row);
    open = null;
  };
  for (const [row, line] of cells.entries()) {
    const filled = line.filter((cell) => !isBlank(cell));
    if (filled.length === 0) {
      close();
      isOpening = true;
    } else if (!filled.every(isText)) {
      close();
      isOpening = false;
    } else if (isOpening && filled.length >= 2 && filled.length > (open?.filled ?? 0)) {
      open = { row, filled: filled.length };
    }
  }
  return heads;
}

function isText(cell: CellValue): cell is string {
  const isWord = typeof cell === "string" && cell.trim() !== "";
  return isWord && !looksLikeNumber(cell) && !moneyIn(cell);
}

/** What a person reads in a cell; an error is nothing. */
export function textOf(cell: CellValue): string {
  return cell === null || typeof cell === "object" ? "" : String(cell).trim();
}

/** The lists under a row of headings: an empty column parts two of them. */
function listsUnder(cells: readonly CellValue[][], head: number, end: number) {
  const headings = cells[head] ?? [];
  const lists: Omit<FoundList, "sheet">[] = [];
  for (let column = 0; column < headings.length; column++) {
    if (isBlank(headings[column] ?? null)) continue;
    const from = column;
    while (column + 1 < headings.length && !isBlank(headings[column + 1] ?? null)) column++;
    const last = lastLine(cells, { head, end, from, to: column });
    if (last === head) continue;
    const columns = Array.from({ length: column - from + 1 }, (_, i) => ({
      column: from + i,
      heading: textOf(headings[from + i] ?? null),
      values: cells.slice(head + 1, last + 1).map((line) => line[from + i] ?? null),
    }));
    lists.push({ head, first: head + 1, last, columns });
  }
  return lists;
}

interface Edges {
  head: number;
  end: number;
  from: number;
  to: number;
}

/** The last filled line before two empty ones; a line of totals is none. */
function lastLine(cells: readonly CellValue[][], { head, end, from, to }: Edges): number {
  let last = head;
  for (let row = head + 1; row < end && row - last <= 2; row++) {
    const filled = (cells[row] ?? []).slice(from, to + 1).filter((cell) => !isBlank(cell));
    if (filled.length === 0) continue;
    if (/^(sub|grand )?total|^sum\b/i.test(textOf(filled[0] ?? null))) break;
    last = row;
  }
  return last;
}
