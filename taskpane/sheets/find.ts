/**
 * Where the sheets of the workbook stand that others draw from, as they are now: a sheet may be renamed and
 * moved, its columns and rows may have moved too. A sheet is known by its title, or else by its name, a list by its
 * headings, a field or a row by its label.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import type { Workbook } from "../host/workbook.ts";
import { partsThere, placesOf } from "./lay.ts";
import type { Other, Others, Place, Places } from "./names.ts";
import { type List, type Part, membersOf } from "./parts.ts";
import type { Template } from "./template.ts";

/** Rows in which titles stand, and that are read at first; a sheet is read on while something is not found. */
const ROWS = 80;

type Corner = readonly (readonly CellValue[])[];

/** The sheets of these templates that the workbook has. Of two alike, the first. */
export async function findSheets(
  workbook: Workbook,
  templates: readonly Template[],
): Promise<Map<string, Other>> {
  const found = new Map<string, Other>();
  for (const { template, other } of await allOf(workbook, templates))
    if (!found.has(template.title)) found.set(template.title, other);
  return found;
}

/** The sheets of one template, several alike, in their order. */
export async function findAll(workbook: Workbook, template: Template): Promise<Other[]> {
  return (await allOf(workbook, [template])).map(({ other }) => other);
}

async function allOf(workbook: Workbook, templates: readonly Template[]) {
  const found: { template: Template; other: Other }[] = [];
  for (const sheet of await workbook.sheetNames()) {
    const sheetOf = await ReadSheet.read(workbook, sheet);
    const first = sheetOf.corner[0]?.[0];
    // Above a title rows may have been put in, and its column may have been taken out.
    const titles = new Set([...sheetOf.corner.flat(), sheet]);
    for (const template of templates) {
      // A sheet that only names another one is not that one.
      const isFirst = first === template.title;
      if (!isFirst && !titles.has(template.title)) continue;
      const places = await sheetOf.placesOf(template.parts);
      if (!isFirst && places.size * 2 < namesOf(template.parts).length) continue;
      found.push({ template, other: { sheet, places } });
      break;
    }
  }
  return found;
}

/** A sheet, read from its top as far down as it is looked for. */
class ReadSheet {
  private constructor(
    private readonly workbook: Workbook,
    private readonly name: string,
    private readonly size: { rows: number; columns: number },
    readonly corner: CellValue[][] = [],
  ) {}

  static async read(workbook: Workbook, name: string): Promise<ReadSheet> {
    const sheet = new ReadSheet(workbook, name, await workbook.extent(name));
    await sheet.readOn();
    return sheet;
  }

  private async readOn() {
    const row = this.corner.length;
    const rows = Math.min(Math.max(ROWS, row), this.size.rows - row);
    const spot = { sheet: this.name, row, column: 0 };
    if (rows > 0) this.corner.push(...(await this.workbook.read(spot, rows, this.size.columns)));
  }

  async placesOf(parts: readonly Part[]): Promise<Places> {
    for (;;) {
      const places = placesIn(this.corner, parts);
      const isWhole = namesOf(parts).every((name) => places.has(name));
      if (isWhole || this.corner.length >= this.size.rows) return places;
      await this.readOn();
    }
  }
}

/** The names of parts that are looked for. */
function namesOf(parts: readonly Part[]): string[] {
  return parts.flatMap(membersOf).flatMap(({ name }) => name ?? []);
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
  const found = foundIn(corner, parts);
  // Parts that need other sheets take no room where these were not there; some of their labels come twice.
  const isThere = ({ needs }: Part) => {
    const alike = parts.filter((part) => String(part.needs) === String(needs));
    const names = namesOf(alike);
    return names.filter((name) => found.has(name)).length * 2 >= names.length;
  };
  const there = parts.filter((part) => !part.needs || isThere(part));
  return there.length === parts.length ? found : foundIn(corner, there);
}

function foundIn(corner: Corner, parts: readonly Part[]): Map<string, Place> {
  const drawn = placesOf(parts);
  const found = new Map<string, Place>();
  // What stands lower has moved like what was found last.
  let moved = { row: 0, column: 0 };
  const label = (text: string, { row, column }: { row: number; column: number }) => {
    const at = spotOf(corner, text, { row: row + moved.row, column: column + moved.column });
    if (at) moved = { row: at.row - row, column: at.column - column };
    return at;
  };
  for (const part of parts) {
    if ("fields" in part) {
      const { apart = 1 } = part;
      for (const { name, label: text } of part.fields) {
        const place = name && drawn.get(name);
        const at = place && label(text, { row: place.row, column: place.column - apart });
        if (at) found.set(name, { row: at.row, column: at.column + apart, rows: 1, columns: 1 });
      }
    } else if ("list" in part && part.headed !== false) {
      moved = addColumns(corner, part, drawn, found) ?? moved;
    } else if ("table" in part) {
      const { apart = 1 } = part;
      for (const { name, label: text } of part.rows) {
        const key = `${part.table}.${name ?? ""}`;
        const place = drawn.get(key);
        if (!place) continue;
        const first = Array.isArray(text) ? text[0] : text;
        const at = first ? label(first, { row: place.row, column: place.column - apart }) : null;
        if (at)
          found.set(key, { ...place, row: at.row, column: at.column + apart, head: at.column });
        else if (!first) found.set(key, movedBy(place, moved));
      }
    } else {
      // Nothing to be known by.
      const own = "list" in part ? namesOf([part]) : "block" in part ? [part.block] : [];
      for (const name of own) {
        const place = drawn.get(name);
        if (place) found.set(name, movedBy(place, moved));
      }
    }
  }
  return found;
}

function movedBy(place: Place, by: { row: number; column: number }): Place {
  const { head } = place;
  return {
    ...place,
    row: place.row + by.row,
    column: place.column + by.column,
    ...(head !== undefined && { head: head + (place.lies === "down" ? by.row : by.column) }),
  };
}

/** A label: of several alike one in the column where it is looked for, and of these the nearest. */
function spotOf(corner: Corner, label: string, near: { row: number; column: number }) {
  const spots = corner.flatMap((line, row) =>
    line.flatMap((value, column) => (value === label ? [{ row, column }] : [])),
  );
  const away = ({ row, column }: { row: number; column: number }) =>
    [Math.abs(column - near.column), Math.abs(row - near.row)] as const;
  return spots.sort((a, b) => away(a)[0] - away(b)[0] || away(a)[1] - away(b)[1])[0];
}

/** Adds the columns of a list that are found; tells by how much it has moved. */
function addColumns(
  corner: Corner,
  list: List,
  drawn: ReadonlyMap<string, Place>,
  found: Map<string, Place>,
): { row: number; column: number } | undefined {
  const headings = list.columns.map(({ heading }) =>
    Array.isArray(heading) ? heading[0] : heading,
  );
  const counts = corner.map(
    (line) => headings.filter((text) => text && line.includes(text)).length,
  );
  const most = Math.max(0, ...counts);
  if (most === 0) return undefined;
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
  return { row: head - (drawn.get(list.list)?.head ?? head), column: shift };
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
