/** Cells as few rectangles, so that many are told to Excel at once. */
import type { Area } from "../sheets/drawing.ts";

interface CellPlace {
  row: number;
  column: number;
}

/** The cells as rectangles that do not overlap: runs along each row, joined where they lie below each other. */
export function rectangles(cells: readonly CellPlace[]): Area[] {
  const sorted = [...cells].sort((a, b) => a.row - b.row || a.column - b.column);
  const runs: Area[] = [];
  for (const { row, column } of sorted) {
    const last = runs.at(-1);
    if (last && last.row === row && last.column + last.columns === column) last.columns++;
    else runs.push({ row, column, rows: 1, columns: 1 });
  }
  const areas: Area[] = [];
  for (const run of runs) {
    const above = areas.find((area) => {
      const isBelow = area.row + area.rows === run.row;
      return isBelow && area.column === run.column && area.columns === run.columns;
    });
    if (above) above.rows++;
    else areas.push(run);
  }
  return areas;
}

/** Things that are alike, together, in the order of the first of them. */
export function alike<T>(things: readonly T[], keyOf: (thing: T) => unknown): [T, ...T[]][] {
  const groups = new Map<string, [T, ...T[]]>();
  for (const thing of things) {
    const key = JSON.stringify(keyOf(thing));
    const group = groups.get(key);
    if (group) group.push(thing);
    else groups.set(key, [thing]);
  }
  return [...groups.values()];
}
