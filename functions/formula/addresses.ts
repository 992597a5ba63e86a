/** Names of cells, and formulas moved to other cells. Rows and columns count from zero. */

/** "C8" for row 7, column 2. */
export function cellName(row: number, column: number): string {
  let letters = "";
  for (let left = column + 1; left > 0; left = Math.floor((left - 1) / 26)) {
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
  }
  return `${letters}${row + 1}`;
}

/** Row 7, column 2 for "C8". */
export function readCellName(name: string): { row: number; column: number } {
  const match = /^\$?([A-Z]{1,3})\$?(\d+)$/.exec(name);
  if (!match) throw new Error(`"${name}" is not the name of a cell`);
  const letters = Array.from(match[1] ?? "");
  const column = letters.reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(match[2]) - 1, column };
}

/**
 * A formula moved by some rows and columns. Where all of a sheet moves, every reference to that
 * sheet moves, and none to another; in a copy, as Fill makes one, those held by $ stay.
 */
export function moveFormula(
  formula: string,
  rows: number,
  columns: number,
  asCopy = false,
): string {
  // Texts in quotes stay; so do references to other sheets, but in a copy.
  const kept = asCopy
    ? /("[^"]*")/
    : /("[^"]*"|(?:'[^']*'|[\w.]+)!\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?)/;
  return formula
    .split(kept)
    .map((part, i) => (i % 2 ? part : moveReferences(part, rows, columns, asCopy)))
    .join("");
}

function moveReferences(text: string, rows: number, columns: number, asCopy: boolean): string {
  return text.replace(
    /(?<![\w.$])(\$?)([A-Z]{1,3})(\$?)([1-9]\d*)(?![\w(.])/g,
    (_, holdColumn: string, letters: string, holdRow: string, digits: string) => {
      const from = readCellName(letters + digits);
      const row = from.row + (asCopy && holdRow ? 0 : rows);
      const column = from.column + (asCopy && holdColumn ? 0 : columns);
      const name = cellName(row, column);
      const cut = name.search(/\d/);
      return `${holdColumn}${name.slice(0, cut)}${holdRow}${name.slice(cut)}`;
    },
  );
}
