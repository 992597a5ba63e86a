/**
 * Sheets that were in the workbook before one that they draw from. What stands there as it was drawn without that
 * sheet is drawn anew, lines that were added included; what a person changed or typed stays.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import type { Placed, Redrawn, Workbook } from "../host/workbook.ts";
import { type DrawnCell, type DrawnRule, type Drawing, drawingOf } from "./drawing.ts";
import { partsThere, placesOf } from "./lay.ts";
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
  const after = placesOf(partsThere(template.parts, now));
  if (before.size !== after.size || !areAlike(before, after))
    return { sheet, why: "it looks otherwise beside them" };
  if (!areAlike(before, places)) return { sheet, why: "its rows or columns were moved" };
  const own = formulas.filter(({ spot }) => spot.sheet === sheet);
  const long = withLines(template, before, Math.max(...own.map(({ spot }) => spot.row)));
  const fresh = drawingOf(long, false, now);
  const values = await workbook.read({ sheet, row: 0, column: 0 }, fresh.rows, fresh.columns);
  const stands = new Map<string, CellValue>(
    values.flatMap((line, row) => line.map((value, column) => [`${row},${column}`, value])),
  );
  for (const { spot, formula } of own) stands.set(`${spot.row},${spot.column}`, formula);
  const asDrawn = drawingOf(long, true, then);
  const old = [asDrawn, drawingOf(long, false, then)].map(contentsOf);
  const cells = fresh.cells.filter((cell) => {
    const at = placeOf(cell);
    const isOld = (content: CellValue | undefined) =>
      old.some((contents) => same(content, contents.get(at), fresh.rows));
    return !isOld(cell.content) && isOld(stands.get(at));
  });
  const rulesBefore = new Set(asDrawn.rules.map(ruleText));
  const rules = fresh.rules.filter((rule) => !rulesBefore.has(ruleText(rule)));
  const { rows, columns } = fresh;
  const drawing = { rows, columns, cells, rules, marks: [], charts: [], widths: [] };
  return { sheet, redrawn: { sheet, drawing } };
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

const placeOf = ({ row, column }: DrawnCell) => `${row},${column}`;
const ruleText = (rule: DrawnRule) => JSON.stringify(rule);

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
