/** Names of sheets. */

/** Excel allows so many characters in a sheet's name. */
export const LONGEST_NAME = 31;

/** A sheet's name as a formula has it where it needs quotation marks. */
export function inQuotes(sheet: string): string {
  return `'${sheet.replaceAll("'", "''")}'`;
}

/** A sheet's name as a formula has it: bare only where it can be nothing else. */
export function quoted(sheet: string): string {
  return /^[A-Za-z_]\w*$/.test(sheet) && !/^[A-Za-z]{1,3}\d+$/.test(sheet)
    ? sheet
    : inQuotes(sheet);
}

/** A name for a new sheet: the title, or the title with the first free number. */
export function freeName(title: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const ending = n === 1 ? "" : ` ${n}`;
    const name = title.slice(0, LONGEST_NAME - ending.length) + ending;
    if (!used.has(name.toLowerCase())) return name;
  }
}
