/** The answer of a line in words. */
import type { CellValue, Grid } from "../../functions/bind/cell.ts";
import type { Line } from "../../functions/bind/arguments.ts";
import type { Labelled, Measure } from "../../functions/working/measures.ts";
import { type Digits, shown } from "../../functions/working/shown.ts";

export interface Said {
  /** All cells, with what each is. */
  all: string;
  /** The selected cell, and what it is where it is one of several. */
  cell?: { says: string; label: string; measure: Measure };
}

/** Most cells that are told one after the other. */
const MOST = 12;

/** An answer, and which of its cells is selected. */
export function answerSaid(
  answer: Grid,
  part: Line | undefined,
  measures: Measure | Labelled[],
  digits: Digits,
): Said {
  const cells = answer.flat();
  const columns = answer[0]?.length ?? 0;
  const of = (place: number): Measure & { label?: string } => {
    if (!Array.isArray(measures)) return measures;
    // Of several lines, each has all the cells that are told apart.
    const cell = cells.length > measures.length ? place % columns : place;
    return measures[cell] ?? measures[0] ?? { kind: "number" };
  };
  const says = (place: number) => shown(cells[place] ?? null, of(place), digits);
  if (cells.length === 1)
    return { all: says(0), cell: { says: says(0), label: "", measure: of(0) } };
  const labelled = (_: CellValue, place: number) =>
    [of(place).label, says(place)].filter(Boolean).join(" ");
  const all =
    cells.length > MOST
      ? `${answer.length} rows and ${columns} columns`
      : cells.map(labelled).join(", ");
  if (!part) return { all };
  const place = part.row * columns + part.column;
  return {
    all,
    cell: {
      says: says(place),
      label: of(place).label ?? placeOf(part, answer),
      measure: of(place),
    },
  };
}

/** Where in an answer without labels a cell stands. */
function placeOf({ row, column }: Line, answer: Grid): string {
  const rows = answer.length > 1 ? [`row ${row + 1}`] : [];
  const columns = (answer[0]?.length ?? 0) > 1 ? [`column ${column + 1}`] : [];
  return [...rows, ...columns].join(", ");
}
