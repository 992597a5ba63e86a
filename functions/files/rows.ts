/**
 * The rows of a sheet, as the local sheet's engine takes them in a time that grows with what is
 * filled: it makes its grid as large as the last cell's place, and for each row looks through all
 * that it is given.
 */
import { escaped } from "./package.ts";

export interface ReadCell {
  column: number;
  xml: string;
  /** Whether it holds something; one that does not has a look alone. */
  isUsed: boolean;
}

export interface ReadRow {
  number: number;
  attributes: Record<string, string>;
  cells: ReadCell[];
}

/**
 * The rows as XML: what is beyond the last row and column is left out; plain rows stand together.
 */
export function rowsXml(
  rows: readonly ReadRow[],
  last: { row: number; column: number },
  usualHeight: string | undefined,
): string {
  const written: string[] = [];
  let plain: ReadRow[] = [];
  const writePlain = () => {
    const end = plain.at(-1);
    // The engine takes a cell's place from its name, and from the row only how far the sheet
    // reaches.
    if (end) written.push(rowXml(end.number, "", plain, last.column));
    plain = [];
  };
  for (const row of rows) {
    if (row.number > last.row) continue;
    const own = ownAttributes(row.attributes, usualHeight);
    if (own === "") plain.push(row);
    else {
      writePlain();
      written.push(rowXml(row.number, own, [row], last.column));
    }
  }
  writePlain();
  return written.join("");
}

function rowXml(number: number, own: string, rows: ReadRow[], lastColumn: number): string {
  const cells = rows.flatMap((row) => row.cells).filter(({ column }) => column < lastColumn);
  return `<row r="${number}"${own}>${cells.map(({ xml }) => xml).join("")}</row>`;
}

/** What the engine reads of a row, where it says more than nothing. */
function ownAttributes(attributes: Record<string, string>, usualHeight: string | undefined) {
  const isUsual = (key: string, value: string) =>
    key === "ht" ? value === usualHeight : ["0", "false", ""].includes(value);
  return ["ht", "hidden", "s", "outlineLevel", "collapsed"]
    .flatMap((key) => {
      const value = attributes[key] ?? "";
      return value === "" || isUsual(key, value) ? [] : [` ${key}="${escaped(value)}"`];
    })
    .join("");
}
