/** Spare lines of lists: they count as nothing where a list is summed, and are not told as a line of zeros. */
import { argumentsOf } from "../bind/arguments.ts";
import { isEmpty } from "../bind/cell.ts";
import type { CatalogEntry } from "../catalog/entry.ts";

/** True of a line that is blank in every list of so many lines that the call was given. */
export type IsSpare = (line: number, count: number) => boolean;

export function spareLines(entry: CatalogEntry, args: readonly unknown[]): IsSpare {
  const lists = argumentsOf(entry, args)
    .filter(({ param }) => param.range)
    .map(({ grid }) => (grid.length === 1 ? (grid[0] ?? []).map((cell) => [cell]) : grid));
  return (line, count) => {
    const alike = lists.filter((list) => list.length === count);
    return alike.length > 0 && alike.every((list) => (list[line] ?? []).every(isEmpty));
  };
}
