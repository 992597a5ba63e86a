/** What a call was given for its arguments. */
import type { Piece } from "./piece.ts";

/** How many rows and columns of cells. */
export interface Spread {
  rows: number;
  columns: number;
}

/** What shape they have together, stretched over each other; null where one is not known. */
export function together(shapes: (Spread | null)[]): Spread | null {
  const known = shapes.filter((shape) => shape !== null);
  if (known.length < shapes.length) return null;
  return {
    rows: Math.max(1, ...known.map(({ rows }) => rows)),
    columns: Math.max(1, ...known.map(({ columns }) => columns)),
  };
}

/** What a call was given for an argument. */
export interface Given {
  piece: Piece;
  /** Its shape, where that is known before the sheet is worked out. */
  shape: Spread | null;
  /** A number, a number or "", or anything that a cell may hold. */
  holds: "number" | "number or blank" | "anything";
  /** Whether it may be a price that is a text, now that the copy is made. */
  hasPriceText?: () => boolean;
}
