/**
 * Sheets that were in the workbook before one that they draw from. What stands there as it was drawn without that
 * sheet is drawn anew, lines that were added included; what a person changed or typed stays.
 */
import { most } from "./most.ts";
import type { CellValue } from "../../functions/bind/cell.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import type { Placed, Redrawn, Workbook } from "../host/workbook.ts";
import { type Area, type DrawnCell, type Drawing, drawingOf, isWithin } from "./drawing.ts";
import { type RowsIn, areasOf, partsThere, placesOf, rowsBetween } from "./lay.ts";
import type { Other, Others, Places } from "./names.ts";
import { type Template, sourcesOf } from "./template.ts";

/** A sheet that was there, and what links it to those that are added; or why that cannot be. */
export interface Link {
  sheet: string;
  redrawn?: Redrawn;
  why?: string;
}

/** The templates of sheets that are there and that would draw from one that is added. */
export function waitingFor(
  added: readonly Template[],
  there: Others,
  known: readonly Template[],
): Template[] {
  const isNew = (title: string) =>
    !there.has(title) && added.some((template) => template.title === title);
  return known.filter((template) => there.has(template.title) && sourcesOf(template).some(isNew));
}

/** What links sheets that are there to those that are added; `of` tells what each can draw from, those counted. */
export async function linksOf(
  workbook: Workbook,
  waiting: readonly Template[],
  there: Others,
  of: (template: Template) => Others,
): Promise<Link[]> {
  if (waiting.length === 0) return [];
  const formulas = await workbook.formulas();
  const links: Link[] = [];
  for (const template of waiting) {
    const other = there.get(template.title);
    if (other) links.push(await linkOf(workbook, template, other, there, of(template), formulas));
  }
  return links;
}

async function linkOf(
  workbook: Workbook,
  template: Template,
  { sheet, places }: Other,
  there: Others,
  now: Others,
  formulas: readonly Placed[],
): Promise<Link> {
  const then = new Map([...now].filter(([title]) => there.has(title)));
  const before = placesOf(partsThere(template.parts, then));
  if (!areAlike(before, places)) return { sheet, why: "its rows or columns were moved" };
  const own = formulas.filter(({ spot }) => spot.sheet === sheet);
  const long = withLines(
    template,
    before,
    most(own, ({ spot }) => spot.row),
  );
  const [parts, among] = [partsThere(long.parts, then), partsThere(long.parts, now)];
  const rowsIn = rowsBetween(parts, among);
  const demo = drawingOf(long, true, then);
  const old = [demo, drawingOf(long, false, then)].map(contentsOf);
  const stands = await standing(workbook, sheet, own, demo.rows);
  const isOld = (content: CellValue | undefined, at: string) =>
    old.some((contents) => same(content, contents.get(at), demo.rows));
  const isDemo = demo.cells
    .filter(({ look }) => look === "input")
    .every((cell) => same(stands.get(placeOf(cell)), cell.content, demo.rows));
  const fresh = drawingOf(long, isDemo, now);
  const areas = [...areasOf(among)].flatMap(([part, area]) => (parts.includes(part) ? [] : [area]));
  const isOfNewPart = (cell: DrawnCell) => areas.some((area) => isWithin(cell, area));
  const added: DrawnCell[] = [];
  const changed: DrawnCell[] = [];
  for (const cell of fresh.cells) {
    const row = rowBefore(cell.row, rowsIn);
    const at = placeOf({ ...cell, row: row ?? -1 });
    const stood = stands.get(at);
    if (isOfNewPart(cell)) {
      if ((stood ?? "") !== "")
        return { sheet, why: `${cellName(row ?? 0, cell.column)} of it is filled` };
      added.push(cell);
    } else if (isOld(stood, at)) {
      // Where rows are put in, a formula that was drawn is written anew: what it leads to has moved.
      const isMoved = rowsIn.length > 0 && String(cell.content).startsWith("=");
      if (isMoved || !isOld(cell.content, at)) changed.push(cell);
    }
  }
  const isNew = <T extends Area>(all: readonly T[], ofOld: readonly T[]) => {
    const known = new Set(ofOld.map((each) => JSON.stringify(movedBy(each, rowsIn))));
    return all.filter((each) => !known.has(JSON.stringify(each)));
  };
  const { rows, columns, page } = fresh;
  const drawing: Drawing = {
    ...{ rows, columns, cells: [...added, ...changed] },
    ...{ rules: isNew(fresh.rules, demo.rules), marks: isNew(fresh.marks, demo.marks) },
    ...{ charts: [], widths: [] },
    hidden: fresh.hidden?.filter((column) => !demo.hidden?.includes(column)) ?? [],
    lists: fresh.lists?.filter(({ name }) => !demo.lists?.some((each) => each.name === name)) ?? [],
    ...(page && rowsIn.length > 0 && { page }),
  };
  return { sheet, redrawn: { sheet, rowsIn, drawing } };
}

/** What stands in the first rows of a sheet: its formulas, and else its values. */
async function standing(workbook: Workbook, sheet: string, own: readonly Placed[], rows: number) {
  const { columns } = await workbook.extent(sheet);
  const values = await workbook.read({ sheet, row: 0, column: 0 }, rows, columns);
  const stands = new Map<string, CellValue>(
    values.flatMap((line, row) => line.map((value, column) => [`${row},${column}`, value])),
  );
  for (const { spot, formula } of own) stands.set(`${spot.row},${spot.column}`, formula);
  return stands;
}

/** Where a row was before rows were put in; null for one of these. */
function rowBefore(row: number, rowsIn: readonly RowsIn[]): number | null {
  let before = row;
  for (const { row: at, count } of rowsIn) {
    if (before < at) break;
    if (before < at + count) return null;
    before -= count;
  }
  return before;
}

/** A rule or a mark where it is after rows were put in, with the cells of its sheet that it leads to. */
function movedBy<T extends Area & { from?: Area & { sheet?: string } }>(
  each: T,
  rowsIn: readonly RowsIn[],
): T {
  const moved = <A extends Area>(area: A): A => {
    const above = rowsIn.filter(({ row }) => row <= area.row);
    return { ...area, row: above.reduce((row, { count }) => row + count, area.row) };
  };
  const { from } = each;
  return { ...moved(each), ...(from && { from: from.sheet === undefined ? moved(from) : from }) };
}

/** Whether names stand where they did; one that the workbook has not is found nowhere. */
function areAlike(drawn: Places, found: Places): boolean {
  return [...drawn].every(([name, { row, column }]) => {
    const place = found.get(name);
    return !place || (place.row === row && place.column === column);
  });
}

/** The template with its growing list as long as the sheet is filled. */
function withLines(template: Template, places: Places, last: number): Template {
  const parts = template.parts.map((part) => {
    if (!("list" in part) || part.reach === undefined || typeof part.lines !== "number")
      return part;
    const first = part.columns.find(({ name }) => name !== undefined)?.name ?? "";
    const row = places.get(`${part.list}.${first}`)?.row ?? last;
    return { ...part, lines: Math.max(part.lines, last - row + 1) };
  });
  return { ...template, parts };
}

const placeOf = ({ row, column }: { row: number; column: number }) => `${row},${column}`;

function contentsOf({ cells }: Drawing): Map<string, DrawnCell["content"]> {
  return new Map(cells.map((cell) => [placeOf(cell), cell.content]));
}

/** Whether a cell holds what was drawn on so many rows. */
function same(
  has: CellValue | undefined,
  drawn: DrawnCell["content"] | undefined,
  rows: number,
): boolean {
  if (typeof has === "object" && has !== null) return false;
  return plain(has ?? "", rows) === plain(drawn ?? "", rows);
}

/**
 * Hosts write a formula in spaces, letters and figures of their own: 1E-9 for 0.000000001. Where a column ends that
 * goes on below all lines, the local sheet moves when it gets more rows.
 */
function plain(content: string | number | boolean, rows: number): string {
  return String(content)
    .replaceAll(/\s/g, "")
    .toUpperCase()
    .replaceAll(/:(\$?[A-Z]+\$?)(\d+)/g, (range, column: string, end: string) =>
      Number(end) > rows ? `:${column}` : range,
    )
    .replaceAll(/\d+(\.\d+)?(E[-+]?\d+)?/g, (figures) => String(Number(figures)));
}
