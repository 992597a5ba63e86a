/**
 * The headings of a file's tables. A column goes by the words in its heading, which other programs
 * take for damage when they differ from the column's name, are blank, are no text, or stand there
 * twice.
 */
import type { CellEdit } from "../functions/files/patch-sheet.ts";
import { escaped } from "../functions/files/package.ts";
import { renameColumns, tableIn } from "../functions/files/table-part.ts";
import type { Texts } from "../functions/files/texts.ts";
import type { CellState, SheetState } from "./state.ts";

/**
 * Writes headings that have changed into tables, formulas and the edits of cells; gives what is to
 * be told.
 */
export function followHeadings(
  texts: Texts,
  sheet: string,
  { cells, name: sheetName }: SheetState,
  edits: Map<string, CellEdit>,
): string[] {
  return texts.beside(sheet, "table").flatMap((path) => {
    const { columns, heads } = tableIn(texts.text(path));
    if (heads === 0) return [];
    const headings = columns.map(({ name, cell }) => {
      const shown = wordsOf(cells.get(cell));
      const isTyped = edits.get(cell)?.content !== undefined;
      return { name, cell, shown, isTyped, isOther: isTyped || shown === "" };
    });
    const taken = new Set(
      headings.flatMap(({ isOther, name }) => (isOther ? [] : [name.toLowerCase()])),
    );
    const names = new Map<string, string>();
    const told: string[] = [];
    for (const { name, cell, shown, isTyped, isOther } of headings) {
      if (!isOther) continue;
      const words = free(shown || name, taken);
      names.set(name, words);
      const content = ` t="inlineStr"><is><t xml:space="preserve">${escaped(words)}</t></is>`;
      edits.set(cell, { ...edits.get(cell), content });
      if (isTyped && words !== shown)
        told.push(
          `The heading ${cell} of "${sheetName}" is ${words} in the file: no heading of a table may be blank, or stand there twice.`,
        );
    }
    renameColumns(texts, path, names);
    return told;
  });
}

/**
 * The words of a heading: without the apostrophe of a text, or the address of a link; of a formula
 * its answer.
 */
function wordsOf(cell?: CellState): string {
  const { content = "", value } = cell ?? {};
  if (content.startsWith("=") && value) {
    // As state.ts writes it: what kind of value it is, and the value.
    const [, answer] = JSON.parse(value) as [string, string | number | boolean];
    return String(answer);
  }
  return /^\[(.+)\]\(.+\)$/.exec(content)?.[1] ?? content.replace(/^'/, "");
}

/** The same name, or with a number behind it where it is taken. */
function free(name: string, taken: Set<string>): string {
  let made = name;
  for (let n = 2; taken.has(made.toLowerCase()); n++) made = `${name}${n}`;
  taken.add(made.toLowerCase());
  return made;
}
