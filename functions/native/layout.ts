/** The answer of a call as it lies in cells. */
import type { Spread } from "./given.ts";
import { type Piece, call, inArray, written } from "./piece.ts";
import { TooMuch } from "./too-much.ts";
import { type Several, type Value, single, turned } from "./values.ts";

export interface LaidOut {
  piece: Piece;
  shape: Spread | null;
}

/** An answer for each of the lines of a call, or one answer of several cells. */
export function laidOut(value: Value, lines: Spread | null): LaidOut {
  if (value.is === "one") return { piece: value.piece, shape: lines };
  if (value.is === "several") return beside(value, lines);
  if (!lines || lines.rows * lines.columns > 1)
    throw new TooMuch("a list for each of several lines");
  const piece = inArray(value.piece);
  if (value.is === "table") return { piece, shape: { rows: value.rows, columns: value.columns } };
  const { across, length } = value;
  return { piece, shape: across ? { rows: 1, columns: length } : { rows: length, columns: 1 } };
}

/** Cells side by side; for lines in a row, one above the other. */
function beside({ items }: Several, lines: Spread | null): LaidOut {
  const [first] = items;
  if (!lines) throw new TooMuch("an answer of several cells");
  if (first?.is === "list") return lists(items, first.across, first.length);
  if (lines.rows > 1 && lines.columns > 1)
    throw new TooMuch("several cells for each of a table of lines");
  const isRow = lines.columns > 1;
  const count = items.length;
  const shape = isRow
    ? { rows: count, columns: lines.columns }
    : { rows: lines.rows, columns: count };
  return { piece: inCells(items.map(single), isRow), shape };
}

function lists(items: Several["items"], across: boolean, length: number): LaidOut {
  const pieces = items.map((item) =>
    item.is === "list" ? turned(item, across, item.piece) : item.piece,
  );
  const shape = across
    ? { rows: items.length, columns: length }
    : { rows: length, columns: items.length };
  return { piece: inCells(pieces, across), shape };
}

/** Each piece in its cell: of two, IF({1,0},first,second). */
function inCells(pieces: Piece[], down: boolean): Piece {
  return pieces.reduceRight((rest, piece, place) => {
    const marks = pieces.map((_, i) => (i === place ? 1 : 0)).join(down ? ";" : ",");
    return inArray(call("IF", written(`{${marks}}`), piece, rest));
  });
}
