/** As names of tables go: letters, figures, points and low lines, not in use. */
export function freeTableName(wanted: string, taken: Set<string>): string {
  const plain = wanted.replace(/[^\p{L}\p{N}.]+/gu, "_").replace(/^(?=[\p{N}.])/u, "_");
  let name = plain;
  for (let i = 2; taken.has(name.toLowerCase()); i++) name = `${plain}_${i}`;
  taken.add(name.toLowerCase());
  return name;
}
