/** What stands under the names of a sheet, and lines to write into its lists. */
import type { CellValue, Workbook, TypedCell } from "../host/workbook.ts";
import { asTyped } from "../sheets/as-typed.ts";
import { Refused } from "../sheets/insert.ts";
import type { Other } from "../sheets/names.ts";
import type { Template } from "../sheets/template.ts";

/** A line of a list, by the names of its columns. */
export type ListLine = Record<string, string | number | null>;

/** What stands in the cells of a name: one of a field, several of a column or a row. None where it is not there. */
export async function valuesAt(
  workbook: Workbook,
  { sheet, places }: Other,
  name: string,
): Promise<CellValue[]> {
  const place = places.get(name);
  if (!place) return [];
  const { row, column, rows, columns } = place;
  return (await workbook.read({ sheet, row, column }, rows, columns)).flat();
}

export const isBlank = (value: CellValue | undefined): boolean =>
  value === null || value === undefined || value === "";

/** What a person reads in a cell, as text; an error is none. */
export const textOf = (value: CellValue | undefined): string =>
  isBlank(value) || typeof value === "object" ? "" : String(value).trim();

/** A name as the look-ups of a sheet compare it: in any capitals. */
export const inAnyCapitals = (name: string): string => name.toLowerCase();

/** The columns of a list that people fill; the others are worked out. */
export function typedColumns({ parts }: Template, list: string): string[] {
  const found = parts.find((part) => "list" in part && part.list === list);
  if (!found || !("list" in found)) throw new Error(`there is no list "${list}"`);
  return found.columns.flatMap(({ name, formula, draw, over }) =>
    name && !formula && !draw && !over ? [name] : [],
  );
}

/** Lines right under the last one that is filled, as cells to write. */
export async function linesAdded(
  workbook: Workbook,
  on: Other,
  template: Template,
  list: string,
  lines: readonly ListLine[],
): Promise<TypedCell[]> {
  const columns = typedColumns(template, list);
  let next = 0;
  let room = 0;
  for (const column of columns) {
    const values = await valuesAt(workbook, on, `${list}.${column}`);
    next = Math.max(next, values.findLastIndex((value) => !isBlank(value)) + 1);
    room = Math.max(room, values.length);
  }
  if (next + lines.length > room)
    throw new Refused(`Nothing was booked: ${template.title} is full at ${room} lines.`);
  return lines.flatMap((line, i) =>
    columns.flatMap((column) => {
      const content = line[column] ?? null;
      return content === null ? [] : [cellAt(on, `${list}.${column}`, next + i, content)];
    }),
  );
}

/** The filled cells of the lines of a list, as cells to empty. */
export function linesEmptied(
  on: Other,
  template: Template,
  list: string,
  lines: readonly number[],
): TypedCell[] {
  return lines.flatMap((line) =>
    typedColumns(template, list).map((column) => cellAt(on, `${list}.${column}`, line, null)),
  );
}

/** A cell of a list's line, as one types it. */
export function cellAt(
  { sheet, places }: Other,
  name: string,
  line: number,
  content: string | number | null,
): TypedCell {
  const place = places.get(name);
  if (!place) throw new Refused(`"${sheet}" has no column for ${name}: put its heading back.`);
  const spot = { sheet, row: place.row + line, column: place.column };
  return { spot, content: typeof content === "string" ? asTyped(content) : content };
}
