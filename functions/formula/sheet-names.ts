/** Names of sheets. */

/** A name for a new sheet: the title, or the title with the first free number. */
export function freeName(title: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toLowerCase()));
  for (let n = 1; ; n++) {
    const ending = n === 1 ? "" : ` ${n}`;
    // Excel allows 31 characters in a sheet's name.
    const name = title.slice(0, 31 - ending.length) + ending;
    if (!used.has(name.toLowerCase())) return name;
  }
}
