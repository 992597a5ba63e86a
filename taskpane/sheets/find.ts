/**
 * Where the sheets of the workbook stand that others draw from, as they are now: a sheet may be renamed and
 * moved, its columns and rows may have moved too. A sheet is known by the title in its first cell, a list by its
 * headings, a field or a row by its label.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import type { Workbook } from "../host/workbook.ts";
import { partsThere, placesOf } from "./lay.ts";
import type { Other, Others, Place } from "./names.ts";
import type { List, Part } from "./parts.ts";
import type { Template } from "./template.ts";

/** How far headings and labels are looked for. */
const ROWS = 80;
const COLUMNS = 80;

type Corner = readonly (readonly CellValue[])[];

/** The sheets of these templates that the workbook has. Of two alike, the first. */
export async function findSheets(
  workbook: Workbook,
  templates: readonly Template[],
): Promise<Map<string, Other>> {
  const found = new Map<string, Other>();
  for (const [sheet, title] of await titled(workbook)) {
    const template = templates.find((each) => each.title === title);
    if (!template || found.has(template.title)) continue;
    found.set(template.title, await foundOn(workbook, sheet, template.parts));
  }
  return found;
}

/** The sheets of one template, several alike, in their order. */
export async function findAll(workbook: Workbook, { title, parts }: Template) {
  const found: Other[] = [];
  for (const [sheet, its] of await titled(workbook))
    if (its === title) found.push(await foundOn(workbook, sheet, parts));
  return found;
}

/** All sheets with what stands in their first cell. */
async function titled(workbook: Workbook): Promise<[sheet: string, title: CellValue][]> {
  const found: [string, CellValue][] = [];
  for (const sheet of await workbook.sheetNames()) {
    const first = await workbook.read({ sheet, row: 0, column: 0 }, 1, 1);
    found.push([sheet, first[0]?.[0] ?? null]);
  }
  return found;
}

async function foundOn(workbook: Workbook, sheet: string, parts: readonly Part[]): Promise<Other> {
  const corner = await workbook.read({ sheet, row: 0, column: 0 }, ROWS, COLUMNS);
  return { sheet, places: placesIn(corner, parts) };
}

/** Of new sheets, beside those that are there: what they name, where it is drawn. */
export function plannedSheets(
  added: readonly { sheet: string; template: Template }[],
  there: Iterable<string> = [],
): Others {
  const titles = new Set([...there, ...added.map(({ template }) => template.title)]);
  return new Map(
    added.map(({ sheet, template: { title, parts } }) => [
      title,
      { sheet, places: placesOf(partsThere(parts, titles)) },
    ]),
  );
}

/** What a template names, where it stands on a sheet. What is no longer there is left out. */
export function placesIn(corner: Corner, parts: readonly Part[]): Map<string, Place> {
  const drawn = placesOf(parts);
  const found = new Map<string, Place>();
  for (const part of parts) {
    if ("fields" in part) {
      const { apart = 1 } = part;
      for (const { name, label } of part.fields) {
        const at = name && spotOf(corner, label, (drawn.get(name)?.column ?? 0) - apart);
        if (at) found.set(name, { row: at.row, column: at.column + apart, rows: 1, columns: 1 });
      }
    } else if ("list" in part) addColumns(corner, part, drawn, found);
    else if ("table" in part) {
      const { apart = 1 } = part;
      for (const { name, label } of part.rows) {
        const key = `${part.table}.${name ?? ""}`;
        const place = drawn.get(key);
        const first = Array.isArray(label) ? label[0] : label;
        const at = place && first !== undefined && spotOf(corner, first, place.column - apart);
        if (at)
          found.set(key, { ...place, row: at.row, column: at.column + apart, head: at.column });
      }
    } else if ("block" in part) {
      const place = drawn.get(part.block);
      if (place) found.set(part.block, place);
    }
  }
  return found;
}

/** A label: in the column that it was drawn in, or else anywhere. */
function spotOf(corner: Corner, label: string, column: number) {
  const spots = corner.flatMap((line, row) =>
    line.flatMap((value, at) => (value === label ? [{ row, column: at }] : [])),
  );
  return spots.find((spot) => spot.column === column) ?? spots[0];
}

function addColumns(
  corner: Corner,
  list: List,
  drawn: ReadonlyMap<string, Place>,
  found: Map<string, Place>,
) {
  const headings = list.columns.map(({ heading }) =>
    Array.isArray(heading) ? heading[0] : heading,
  );
  const counts = corner.map(
    (line) => headings.filter((text) => text && line.includes(text)).length,
  );
  const most = Math.max(0, ...counts);
  if (most === 0) return;
  const head = counts.indexOf(most);
  const line = corner[head] ?? [];
  const shift = shiftOf(line, headings, list, drawn);
  list.columns.forEach(({ name }, i) => {
    const place = name ? drawn.get(`${list.list}.${name}`) : undefined;
    if (!name || !place) return;
    const text = headings[i];
    // A heading that is worked out has no text of its own to be known by.
    const isText = typeof text === "string" && !text.startsWith("=");
    const column = isText ? nearest(line, text, place.column + shift) : place.column + shift;
    if (column !== undefined)
      found.set(`${list.list}.${name}`, { ...place, row: head + 1, column, head });
  });
}

/** By how much the list has moved to the side: as its first heading has. */
function shiftOf(
  line: readonly CellValue[],
  headings: readonly unknown[],
  list: List,
  drawn: ReadonlyMap<string, Place>,
): number {
  for (const [i, text] of headings.entries()) {
    const name = list.columns[i]?.name;
    const place = name && drawn.get(`${list.list}.${name}`);
    const at = typeof text === "string" ? line.indexOf(text) : -1;
    if (place && at >= 0) return at - place.column;
  }
  return 0;
}

/** Of headings that are alike, the one nearest to where it was drawn. */
function nearest(line: readonly CellValue[], text: string, column: number): number | undefined {
  const all = line.flatMap((value, at) => (value === text ? [at] : []));
  return all.sort((a, b) => Math.abs(a - column) - Math.abs(b - column))[0];
}
