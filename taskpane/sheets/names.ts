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
 * | `{packs.price:around}` | from its heading to the free row under its last line: what was put in or typed below is in it |
 * | `{packs.price:upto}`, `:above` | from its heading to this line: `$C$7:$C8`; to the one above |
 * | `{sizes.fill:across}` | this one of columns that are alike, here or in another part: `D$15` |
 * | `{sizes.fill:nth}` | which of them it is, from 1: `2` |
 * | `{Materials!packs.price}` | the same on the sheet of another template |
 *
 * What stands in quotes is text and stays; an array such as `{1,2}` begins with no letter and stays.
 */
import { cellName } from "../../functions/formula/addresses.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";

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

const NAMED =
  /"(?:[^"]|"")*"|\{(?:([A-Za-z][\w ]*)!)?([A-Za-z]\w*(?:\.[A-Za-z]\w*)?)(?::([a-z]\w*))?\}/g;

/** A name in a formula, with the title of the other template that it is of, and what stands behind its colon. */
export interface Named {
  title?: string | undefined;
  name: string;
  which?: string | undefined;
}

/** All names that stand in a formula. */
export function namesIn(formula: string): Named[] {
  return [...formula.matchAll(NAMED)].flatMap(([, title, name, which]) =>
    name ? [{ title, name, which }] : [],
  );
}

/** The titles of the other templates that a formula draws from. */
export function drawsFrom(formula: string): string[] {
  return namesIn(formula).flatMap(({ title }) => title ?? []);
}

/** True where every sheet is there that a formula draws from, and it names nothing that is absent. */
export function isThere(
  formula: string,
  others: Others,
  absent: ReadonlySet<string> = new Set(),
): boolean {
  return namesIn(formula).every(({ title, name }) =>
    title ? others.has(title) : !absent.has(name),
  );
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
    const isOwn = own !== undefined && known.has(own);
    const address = addressIn(place, which, { here, known, isOwn });
    if (address === undefined)
      throw new Error(
        `${all}: ":${which}" is no line and no form that is known of it (see names.ts)`,
      );
    return other ? `${quoted(other.sheet)}!${address}` : address;
  });
}

interface Asked {
  here: Here;
  known: Places;
  /** The formula belongs to the same list or table. */
  isOwn: boolean;
}

/** Undefined where the place has no such form. */
function addressIn(
  place: Place,
  which: string | undefined,
  { here, known, isOwn }: Asked,
): string | undefined {
  if (which === undefined) return isOwn ? beside(place, here) : whole(place);
  // A form means the same everywhere, also where a column or a line has its name.
  const form = FORMS.get(which);
  if (form) return form(place, here);
  const until = place.of === undefined ? undefined : known.get(`${place.of}.${which}`);
  if (until) return whole({ ...place, columns: until.column + until.columns - place.column });
  const line = place.lines?.indexOf(which) ?? -1;
  return line < 0 ? undefined : whole({ ...place, row: place.row + line, rows: 1 });
}

type Form = (place: Place, here: Here) => string | undefined;

const whole = ({ row, column, rows, columns }: Place) =>
  span(row, column, row + rows - 1, column + columns - 1);

/** The cell of the same line, or of the same column of a table. */
const beside: Form = ({ row, column, rows, columns, lies }, { line = 0, across }) => {
  const at = column + (across ?? 0);
  if (lies !== "down") return span(row, at, row + rows - 1, at, "", "$");
  if (across !== undefined && columns > 1) return span(row + line, at, row + line, at, "", "");
  return span(row + line, column, row + line, column + columns - 1, "$", "");
};

/** From the heading down to a line, counted from the first. */
const fromHead = ({ row, column, columns, head = row - 1 }: Place, line: number) =>
  `${hold(head, column)}:${hold(row + line, column + columns - 1, "$", "")}`;

const FORMS: ReadonlyMap<string, Form> = new Map<string, Form>([
  ["same", beside],
  [
    "first",
    (place) => whole({ ...place, ...(place.lies === "down" ? { rows: 1 } : { columns: 1 }) }),
  ],
  [
    "last",
    (place) => {
      const { row, column, rows, columns, lies } = place;
      return lies === "down"
        ? whole({ ...place, row: row + rows - 1, rows: 1 })
        : whole({ ...place, column: column + columns - 1, columns: 1 });
    },
  ],
  [
    "head",
    ({ head, ...place }) => {
      if (head === undefined) return undefined;
      return place.lies === "down"
        ? whole({ ...place, row: head, rows: 1 })
        : whole({ ...place, column: head, columns: 1 });
    },
  ],
  // Never one cell alone: the engine of the local sheet fails on a range of one beside a longer one.
  ["upto", (place, { line = 0 }) => fromHead(place, line)],
  ["above", (place, { line = 0 }) => fromHead(place, line - 1)],
  [
    "around",
    ({ row, column, rows, columns, head = row }) =>
      span(head, column, row + rows, column + columns - 1),
  ],
  [
    "across",
    ({ row, column, rows }, { across = 0 }) =>
      span(row, column + across, row + rows - 1, column + across, "", "$"),
  ],
  ["nth", (_, { across = 0 }) => String(across + 1)],
  [
    "all",
    ({ row, column, rows, columns, head = row }) =>
      span(head, column, row + rows - 1 + BEYOND, column + columns - 1),
  ],
]);

function span(top: number, left: number, bottom: number, right: number, column = "$", row = "$") {
  const first = hold(top, left, column, row);
  const last = hold(bottom, right, column, row);
  return first === last ? first : `${first}:${last}`;
}

/** The name of a cell, held in place by dollars unless told otherwise. */
export function hold(row: number, column: number, holdColumn = "$", holdRow = "$") {
  const name = cellName(row, column);
  const cut = name.search(/\d/);
  return `${holdColumn}${name.slice(0, cut)}${holdRow}${name.slice(cut)}`;
}
