/** Holds the cells of a recalculated workbook against ours. */
import { parseA1Ref } from "@borgar/fx/xlsx";
import { readFormula } from "../../functions/formula/reader";
import { type Node, childrenOf } from "../../functions/formula/tree";
import { cellsIn } from "../../functions/files/cells";
import type { FileCell } from "../files/read-book";

type Books = Map<string, Map<string, FileCell>>;

const NOTHING: FileCell = { value: undefined, isError: false };

export function cellOf(book: Books, sheet: string, cell: string): FileCell {
  return book.get(sheet)?.get(cell) ?? NOTHING;
}

/** A blank and an empty text look alike; an error is an error. */
export function isSame(ours: FileCell, theirs: FileCell): boolean {
  if (ours.isError || theirs.isError) return ours.isError === theirs.isError;
  const [a, b] = [ours.value ?? "", theirs.value ?? ""];
  if (typeof a !== "number" || typeof b !== "number") return a === b;
  return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
}

export function tell(
  sheet: string,
  cell: string,
  ours: FileCell,
  theirs: FileCell,
  what?: string,
): string {
  const shown = (each: FileCell) => JSON.stringify(each.value ?? "");
  return `${sheet}!${cell}: ours ${shown(ours)}, LibreOffice ${shown(theirs)}${what ? `, from ${what}` : ""}`;
}

/** The cells whose values no longer follow: those that are fixed, and all that are reckoned from them. */
export function notFollowing(
  book: Books,
  fixed: readonly { sheet: string; cell: string }[],
  /** Whether a fixed value is another one now: one that is not still says what is true. */
  isOther: (sheet: string, cell: string) => boolean = () => true,
): Set<string> {
  const still = new Set(
    fixed.flatMap(({ sheet, cell }) =>
      cellsIn(cell)
        .filter((name) => isOther(sheet, name))
        .map((name) => `${sheet}!${name}`),
    ),
  );
  const formulas = [...book].flatMap(([sheet, cells]) =>
    [...cells].flatMap(([cell, { formula }]) =>
      formula
        ? [{ place: `${sheet}!${cell}`, reads: precedents(readFormula(formula), sheet) }]
        : [],
    ),
  );
  for (let before = -1; before < still.size;) {
    before = still.size;
    for (const { place, reads } of formulas)
      if (reads.some((each) => still.has(each))) still.add(place);
  }
  return still;
}

/** The cells that a formula reads. */
function precedents(node: Node, sheet: string): string[] {
  if (node.type !== "ReferenceIdentifier")
    return childrenOf(node).flatMap((child) => (child ? precedents(child, sheet) : []));
  const found = parseA1Ref(node.value);
  const on = found?.sheetName || sheet;
  return cellsIn(node.value.replace(/^.*!/, "")).map((name) => `${on}!${name}`);
}
