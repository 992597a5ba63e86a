/**
 * Sheets that were in the workbook before one that they draw from. What stands there as it was drawn without that
 * sheet is drawn anew, lines that were added included; what a person changed or typed stays.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import type { Placed, Workbook } from "../host/workbook.ts";
import { type DrawnCell, type DrawnRule, type Drawing, drawingOf } from "./drawing.ts";
import { findSheets } from "./find.ts";
import { partsThere, placesOf } from "./lay.ts";
import type { Other, Others, Places } from "./names.ts";
import { type Template, sourcesOf } from "./template.ts";

/** Links the sheets that were there to those that were added; says which draw from them now, and which cannot. */
export async function relink(
  workbook: Workbook,
  added: readonly Template[],
  there: Others,
  known: readonly Template[],
): Promise<string> {
  const isNew = (title: string) =>
    !there.has(title) && added.some((template) => template.title === title);
  const waiting = known.filter(
    (template) => there.has(template.title) && sourcesOf(template).some(isNew),
  );
  if (waiting.length === 0) return "";
  const now = await findSheets(workbook, known);
  const formulas = await workbook.formulas();
  const linked: string[] = [];
  const left: string[] = [];
  for (const template of waiting) {
    const sheet = now.get(template.title);
    if (!sheet) continue;
    // One that is refused is told like one that cannot be linked: what to do is the same.
    const isLinked = await linkSheet(workbook, template, sheet, there, now, formulas).catch(
      () => false,
    );
    (isLinked ? linked : left).push(`"${sheet.sheet}"`);
  }
  const it = added.length === 1 ? "it" : "them";
  return [
    linked.length > 0 ? ` What was here before draws from ${it} now: ${linked.join(", ")}.` : "",
    left.length > 0
      ? ` Still without ${it}: ${left.join(", ")}. Insert such a sheet anew, and delete the old one.`
      : "",
  ].join("");
}

/** False where it looks otherwise beside the new sheets, or where its columns or rows were moved. */
async function linkSheet(
  workbook: Workbook,
  template: Template,
  { sheet, places }: Other,
  there: Others,
  now: Others,
  formulas: readonly Placed[],
): Promise<boolean> {
  const before = placesOf(partsThere(template.parts, there));
  const after = placesOf(partsThere(template.parts, now));
  if (before.size !== after.size || !areAlike(before, after) || !areAlike(before, places))
    return false;
  const own = formulas.filter(({ spot }) => spot.sheet === sheet);
  const long = withLines(template, before, Math.max(...own.map(({ spot }) => spot.row)));
  const fresh = drawingOf(long, false, now);
  const values = await workbook.read({ sheet, row: 0, column: 0 }, fresh.rows, fresh.columns);
  const stands = new Map<string, CellValue>(
    values.flatMap((line, row) => line.map((value, column) => [`${row},${column}`, value])),
  );
  for (const { spot, formula } of own) stands.set(`${spot.row},${spot.column}`, formula);
  const asDrawn = drawingOf(long, true, there);
  const old = [asDrawn, drawingOf(long, false, there)].map(contentsOf);
  const cells = fresh.cells.filter((cell) => {
    const at = placeOf(cell);
    const isOld = (content: CellValue | undefined) =>
      old.some((contents) => same(content, contents.get(at)));
    return !isOld(cell.content) && isOld(stands.get(at));
  });
  const rulesBefore = new Set(asDrawn.rules.map(ruleText));
  const rules = fresh.rules.filter((rule) => !rulesBefore.has(ruleText(rule)));
  const { rows, columns } = fresh;
  await workbook.redraw(sheet, { rows, columns, cells, rules, marks: [], charts: [], widths: [] });
  return true;
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

/** Whether a cell holds what was drawn. */
function same(has: CellValue | undefined, drawn: DrawnCell["content"] | undefined): boolean {
  if (typeof has === "object" && has !== null) return false;
  return plain(has ?? "") === plain(drawn ?? "");
}

/** Hosts write a formula in spaces, letters and figures of their own: 1E-9 for 0.000000001. */
function plain(content: string | number | boolean): string {
  return String(content)
    .replaceAll(/\s/g, "")
    .toUpperCase()
    .replaceAll(/\d+(\.\d+)?(E[-+]?\d+)?/g, (figures) => String(Number(figures)));
}
