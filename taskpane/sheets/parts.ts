/**
 * A template by its parts: texts, fields, lists, tables and rectangles, one under the other. What stands where
 * is worked out here, and formulas are written in names (see names.ts), so that one more row is one edit.
 */
import * as z from "zod/mini";
import { LOOKS, cellAspects, content } from "./block.ts";

const name = z.string().check(z.regex(/^[a-z]\w*$/i));
const formula = z.string().check(z.startsWith("="));

/** Where a part stands: under all before it, or where this says. */
const where = {
  /** Rows left free above it. */
  gap: z.optional(z.int().check(z.nonnegative())),
  /** Right of the part of that name, its first rows level. */
  beside: z.optional(name),
  /** Under the part of that name, and no further down. */
  under: z.optional(name),
  /** Columns left free to its left. */
  skip: z.optional(z.int().check(z.nonnegative())),
  /** The titles of sheets without which it is not there, and takes no room. */
  needs: z.optional(z.array(z.string())),
  /** On paper it begins a page, or is left out with its columns and all that stands right of them. */
  paper: z.optional(z.enum(["new page", "left out from here"])),
};

const filled = {
  ...cellAspects,
  look: z.optional(z.enum(LOOKS)),
  /** The formula where a sheet that it draws from is not in the workbook. Without it the cell stays empty. */
  alone: z.optional(formula),
  /**
   * The formula that draws it from other sheets, in place of what the demo types, where all of them are in
   * the workbook. One may type over it; a field says so beside it, a list in its column `over`, a table
   * with `over` right of its rows.
   */
  draw: z.optional(formula),
  /** Words may be typed here beside numbers: "not limited", a pack's text. */
  worded: z.optional(z.literal(true)),
  /** A person's own list may draw it: then it holds an empty text where nothing is known. */
  ownDraws: z.optional(z.literal(true)),
};

/** Lines of text, or of headings. */
const Text = z.strictObject({
  ...where,
  text: z.enum(LOOKS),
  name: z.optional(name),
  rows: z.array(z.union([z.string(), z.array(content)])).check(z.minLength(1)),
});
export type Text = z.infer<typeof Text>;

/** One thing to fill in or to read: its label, its value beside it, and what is said of it. */
const Field = z.strictObject({
  ...filled,
  name: z.optional(name),
  label: z.string(),
  /** What the demo types; null where it types nothing. */
  demo: z.optional(content),
  formula: z.optional(formula),
  /** Its unit, or a formula that says something of it, in the column beside it. */
  note: z.optional(z.string()),
});

type Field = z.infer<typeof Field>;

const Fields = z.strictObject({
  ...where,
  fields: z.array(Field).check(z.minLength(1)),
  name: z.optional(name),
  /** Columns from the labels to the values. */
  apart: z.optional(z.int().check(z.positive())),
});
export type Fields = z.infer<typeof Fields>;

const Column = z.strictObject({
  ...filled,
  name: z.optional(name),
  /** One heading, or one for each of several columns that are alike. */
  heading: z.optional(z.union([content, z.array(content).check(z.minLength(1))])),
  headLook: z.optional(z.enum(LOOKS)),
  headFormat: z.optional(z.string()),
  /** What the demo types, line by line; what is missing at the end stays empty. */
  demo: z.optional(z.array(z.union([content, z.array(content)]))),
  /** The formula of a line. */
  formula: z.optional(formula),
  /** How many lines at its end are the maker's own, to type in; on those above stands what is known. */
  own: z.optional(z.int().check(z.positive())),
  /** For look-ups alone: the column is hidden, and not printed. */
  hidden: z.optional(z.literal(true)),
  /** The column that says which drawn cells of the line are typed over. */
  over: z.optional(z.literal(true)),
  /** Rows and columns that one answer fills; it is then written once for each such stretch. */
  spills: z.optional(z.tuple([z.int().check(z.positive()), z.int().check(z.positive())])),
});
export type Column = z.infer<typeof Column>;

/** Headings, and lines under them. */
const List = z.strictObject({
  ...where,
  list: name,
  /** How many, or a name for each. */
  lines: z.union([z.int().check(z.positive()), z.array(name).check(z.minLength(1))]),
  /** How many lines formulas look down, where lines will be added: then nothing may stand under it. */
  reach: z.optional(z.int().check(z.positive())),
  /** Of a list that does not grow: what is said in the row under it, where something is typed there. */
  end: z.optional(z.string()),
  columns: z.array(Column).check(z.minLength(1)),
  /** False where its headings stand elsewhere. */
  headed: z.optional(z.boolean()),
});
export type List = z.infer<typeof List>;

const Row = z.strictObject({
  ...filled,
  name: z.optional(name),
  /** One label, or one for each row that an answer fills. */
  label: z.optional(z.union([z.string(), z.array(z.string()).check(z.minLength(1))])),
  demo: z.optional(z.array(content)),
  formula: z.optional(formula),
  /** Rows that one answer fills, over all columns. */
  spills: z.optional(z.int().check(z.positive())),
  /** What is said of it, right of the last column. */
  note: z.optional(z.string()),
});
export type Row = z.infer<typeof Row>;

/** Labels at the left, and columns that are alike: pours, sizes, prices. */
const Table = z.strictObject({
  ...where,
  table: name,
  across: z.int().check(z.positive()),
  /** Columns from the labels to the first value. */
  apart: z.optional(z.int().check(z.positive())),
  heads: z.optional(z.array(content)),
  /** Says right of each drawn row, before its note, what is typed over. Its columns are known by their heads. */
  over: z.optional(z.literal(true)),
  rows: z.array(Row).check(z.minLength(1)),
});
export type Table = z.infer<typeof Table>;

/** Any rectangle: what the other parts are made of. */
const Rectangle = z.strictObject({
  ...where,
  ...filled,
  block: name,
  look: z.enum(LOOKS),
  rows: z.optional(z.array(z.array(content)).check(z.minLength(1))),
  formula: z.optional(formula),
  spills: z.optional(z.tuple([z.int().check(z.positive()), z.int().check(z.positive())])),
});

/** Nothing, as large as this: room for a chart. */
const Room = z.strictObject({
  ...where,
  room: name,
  rows: z.int().check(z.positive()),
  columns: z.int().check(z.positive()),
});

export const Part = z.union([Text, Fields, List, Table, Rectangle, Room]);
export type Part = z.infer<typeof Part>;

/** A field, a column of a list or a row of a table. */
export interface Member {
  /** Its whole name: "batch", "packs.price"; undefined for most labels. */
  name: string | undefined;
  /** What it is known by on the sheet. */
  label: unknown;
  cell: Field | Column | Row;
  /** Where it is a column. */
  column?: { list: List; column: Column };
}

/** What stands in a part under names; nothing for texts, blocks and rooms. */
export function membersOf(part: Part): Member[] {
  const within = (of: string, name?: string) => name && `${of}.${name}`;
  if ("fields" in part)
    return part.fields.map((cell) => ({ name: cell.name, label: cell.label, cell }));
  if ("list" in part)
    return part.columns.map((cell) => ({
      name: within(part.list, cell.name),
      label: cell.heading,
      cell,
      column: { list: part, column: cell },
    }));
  if ("table" in part)
    return part.rows.map((cell) => ({
      name: within(part.table, cell.name),
      label: cell.label,
      cell,
    }));
  return [];
}
