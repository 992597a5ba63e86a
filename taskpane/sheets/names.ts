/**
 * Names in formulas: `{batch}` becomes `$B$10` when a template is drawn.
 *
 * | written | stands for |
 * |---|---|
 * | `{batch}` | a field, or a named block, whole: `$B$10` |
 * | `{price}` in a list's own formula | the cell of this line: `$C8` |
 * | `{load}` in a table's own formula | the cell of this column: `B$19` |
 * | `{packs.price}` | the whole column of a list, or row of a table: `$C$8:$C$13` |
 * | `{packs}` | a list or a table, whole, without its headings |
 * | `{packs.price:head}`, `:first`, `:last` | its heading, its first cell, its last |
 * | `{packs.price:same}` | its cell beside this one: of the same line, or of the same column of a table |
 * | `{limits.low:voc}` | its cell of the line named voc |
 * | `{packs.price:size}` | both columns and those between: from price to size |
 * | `{packs.price:all}` | from its heading down, further than formulas look: to count what is typed |
 * | `{packs.price:upto}`, `:above` | from its heading to this line: `$C$7:$C8`; to the one above |
 * | `{sizes.fill:across}` | this one of columns that are alike, here or in another part: `D$15` |
 * | `{sizes.fill:nth}` | which of them it is, from 1: `2` |
 * | `{Materials!packs.price}` | the same on the sheet of another template |
 *
 * What stands in quotes is text and stays; an array such as `{1,2}` begins with no letter and stays.
 */
import { cellName } from "../../functions/formula/addresses.ts";

/** Where a named thing stands; rows and columns count from zero. */
export interface Place {
  row: number;
  column: number;
  rows: number;
  columns: number;
  /** The list or table that it is a column or a row of. */
  of?: string;
  /** Lists go down, a line a row; tables go across, a line a column. */
  lies?: "down" | "across";
  /** The row of its headings, or the column of its labels. */
  head?: number;
  /** The names of its lines, where they have names. */
  lines?: readonly string[];
}

export type Places = ReadonlyMap<string, Place>;

/** Lines below those that formulas look at: what is typed there is counted as not looked at. */
const BEYOND = 1000;

/** The cell that a formula is written for. */
export interface Here {
  /** The list or table that the formula belongs to. */
  of?: string;
  line?: number;
  across?: number;
}

/** Another sheet: its name in the workbook, and what stands where on it. */
export interface Other {
  sheet: string;
  places: Places;
}

/** The other sheets of the workbook, by the titles of their templates. */
export type Others = ReadonlyMap<string, Other>;

/** Forms mean the same everywhere, also where a column or a line has such a name. */
const FORMS: ReadonlySet<string> = new Set([
  "first",
  "last",
  "head",
  "same",
  "upto",
  "above",
  "across",
  "nth",
  "all",
]);

const NAMED =
  /"(?:[^"]|"")*"|\{(?:([A-Za-z][\w ]*)!)?([A-Za-z]\w*(?:\.[A-Za-z]\w*)?)(?::([a-z]\w*))?\}/g;

/** The titles of the other templates that a formula draws from. */
export function drawsFrom(formula: string): string[] {
  return [...formula.matchAll(NAMED)].flatMap(([, title]) => (title ? [title] : []));
}

/** True where every sheet is there that a formula draws from, and it names nothing that is absent. */
export function isThere(
  formula: string,
  others: Others,
  absent: ReadonlySet<string> = new Set(),
): boolean {
  const names = [...formula.matchAll(NAMED)];
  return names.every(([, title, name = ""]) => (title ? others.has(title) : !absent.has(name)));
}

/** The formula in addresses. */
export function resolved(formula: string, places: Places, here: Here, others: Others): string {
  return formula.replace(NAMED, (all, title?: string, name?: string, which?: string) => {
    if (!name) return all;
    const other = title === undefined ? undefined : others.get(title);
    if (title !== undefined && !other) throw new Error(`${all}: no sheet "${title}" is known`);
    const own = here.of && !title && !name.includes(".") ? `${here.of}.${name}` : undefined;
    const known = other?.places ?? places;
    const place = (own && known.get(own)) ?? known.get(name);
    if (!place) throw new Error(`${all}: nothing has that name`);
    const until = place.of && which && !FORMS.has(which) && known.get(`${place.of}.${which}`);
    const address = until
      ? addressIn(
          { ...place, columns: until.column + until.columns - place.column },
          "whole",
          here,
          all,
        )
      : addressIn(place, which ?? (own && known.has(own) ? "own" : "whole"), here, all);
    return other ? `${quoted(other.sheet)}!${address}` : address;
  });
}

/** A sheet's name as a formula has it. */
export function quoted(sheet: string): string {
  return /^[A-Za-z_][\w]*$/.test(sheet) && !/^[A-Za-z]{1,3}\d+$/.test(sheet)
    ? sheet
    : `'${sheet.replaceAll("'", "''")}'`;
}

function addressIn(place: Place, which: string, here: Here, said: string): string {
  const { row, column, rows, columns } = place;
  const last = { row: row + rows - 1, column: column + columns - 1 };
  const isDown = place.lies === "down";
  const line = row + (here.line ?? 0);
  const across = column + (here.across ?? 0);
  const named = FORMS.has(which) ? -1 : (place.lines?.indexOf(which) ?? -1);
  if (named >= 0) return span(row + named, column, row + named, last.column);
  switch (which) {
    case "whole":
      return span(row, column, last.row, last.column);
    case "own":
    case "same":
      if (!isDown) return span(row, across, last.row, across, "", "$");
      if (here.across !== undefined && columns > 1) return span(line, across, line, across, "", "");
      return span(line, column, line, last.column, "$", "");
    case "first":
      return isDown ? span(row, column, row, last.column) : span(row, column, last.row, column);
    case "last":
      return isDown
        ? span(last.row, column, last.row, last.column)
        : span(row, last.column, last.row, last.column);
    case "upto":
      // Never one cell alone: the engine of the local sheet fails on a range of one beside a longer one.
      return `${hold(place.head ?? row - 1, column)}:${hold(line, last.column, "$", "")}`;
    case "across":
      return span(row, across, last.row, across, "", "$");
    case "nth":
      return String((here.across ?? 0) + 1);
    case "above":
      return `${hold(place.head ?? row - 1, column)}:${hold(line - 1, last.column, "$", "")}`;
    case "all":
      return span(place.head ?? row, column, last.row + BEYOND, last.column);
    case "head":
      if (place.head === undefined) break;
      return isDown
        ? span(place.head, column, place.head, last.column)
        : span(row, place.head, last.row, place.head);
  }
  throw new Error(`${said}: ":${which}" is no line and no form that is known of it (see names.ts)`);
}

function span(top: number, left: number, bottom: number, right: number, column = "$", row = "$") {
  const first = hold(top, left, column, row);
  const last = hold(bottom, right, column, row);
  return first === last ? first : `${first}:${last}`;
}

function hold(row: number, column: number, holdColumn = "$", holdRow = "$") {
  const name = cellName(row, column);
  const cut = name.search(/\d/);
  return `${holdColumn}${name.slice(0, cut)}${holdRow}${name.slice(cut)}`;
}
