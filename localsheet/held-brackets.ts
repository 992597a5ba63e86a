/**
 * Brackets in the texts of formulas, while the engine reads a file. Where the file has a table, it takes every
 * pair of brackets for the table's columns, and adds [undefined] to a formula with another pair.
 */
import { tokenize } from "@borgar/fx/xlsx";

/** Characters for private use, which no file has, and the brackets that they stand for. */
const HELD: Record<string, string> = { "[": "\uE05B", "]": "\uE05D" };
const FREED = Object.fromEntries(Object.entries(HELD).map(([mark, held]) => [held, mark]));

export function bracketsHeld(formula: string): string {
  if (!/".*[[\]].*"/s.test(formula)) return formula;
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) =>
      type === "string" ? value.replace(/[[\]]/g, (mark) => HELD[mark] ?? mark) : value,
    )
    .join("");
}

/** The data that the engine made of the file, with the brackets that were held. */
export function bracketsFreed(data: object): object {
  const text = JSON.stringify(data);
  if (!/[\uE05B\uE05D]/.test(text)) return data;
  // What was an object before is one again.
  return JSON.parse(text.replace(/[\uE05B\uE05D]/g, (held) => FREED[held] ?? held)) as object;
}
