/** A book beside its copy as LibreOffice works it out. */
import { expect } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { readBook } from "../files/read-book";
import { cellOf, isSame, tell } from "./compare";
import { recalculated } from "./libreoffice";

/** Holds every cell of a book against that of its recalculated copy; gives how many were compared. */
export function holdCopy(bytes: Uint8Array): number {
  const [ours, theirs] = [readBook(bytes), readBook(recalculated(handOver(bytes).bytes))];
  let compared = 0;
  for (const [sheet, cells] of ours) {
    for (const [cell, own] of cells) {
      const other = cellOf(theirs, sheet, cell);
      expect(isSame(own, other), tell(sheet, cell, own, other)).toBe(true);
      compared++;
    }
  }
  return compared;
}
