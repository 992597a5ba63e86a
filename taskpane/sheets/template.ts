/**
 * What a template is: data, one file in templates/. Cream cells are inputs; they hold the demo, and stay
 * empty when the template is inserted empty. What a template shows stands in parts (parts.ts), whose places
 * and formulas are worked out when it is drawn (lay.ts, drawing.ts).
 */
import * as z from "zod/mini";
import { range } from "./block.ts";
import { type Named, namesIn } from "./names.ts";
import { Part } from "./parts.ts";

const Chart = z.strictObject({
  title: z.string(),
  /** Upright columns, bars that lie, for long labels, or lines with a mark at each value. */
  kind: z.enum(["columns", "bars", "lines"]),
  /** What the values are, with their unit: the title of their axis. */
  unit: z.string(),
  labels: range,
  series: z.array(z.strictObject({ name: z.string(), values: range })).check(z.minLength(1)),
  /** The cells that it covers: a room, by its name. */
  over: range,
});

/** How a sheet is printed: one page wide, with page numbers; a wide one section after section. */
const Page = z.strictObject({
  landscape: z.optional(z.boolean()),
  /** What every page says; Excel takes 255 characters. */
  caution: z.optional(z.string().check(z.maxLength(200))),
  /** The list or table whose headings each page repeats, and which stay in sight when scrolling. */
  heads: z.optional(z.string()),
  /** Columns at the left that stay in sight. */
  columns: z.optional(z.int().check(z.positive())),
  /** Of a list too wide for a page: the columns that begin a section, and how many of the first each repeats. */
  sections: z.optional(
    z.strictObject({ begin: z.array(z.string()), repeat: z.int().check(z.positive()) }),
  ),
});

export const TemplateSchema = z.strictObject({
  title: z.string().check(z.maxLength(31)),
  use: z.string(),
  /** Everyday words that people look for it by. */
  words: z.optional(z.string()),
  /** Its place in the pane: the order in which a maker meets the sheets. */
  step: z.int().check(z.positive()),
  /** Column widths in pixels, from column A. */
  widths: z.array(z.number().check(z.positive())),
  parts: z.array(Part).check(z.minLength(1)),
  charts: z.optional(z.array(Chart)),
  page: z.optional(Page),
});

export type Template = z.infer<typeof TemplateSchema>;

/** What a template draws from other sheets. */
export function drawnBy({ title, parts }: Template): Named[] {
  // Without the quotes of JSON: what stands within quotes is text, and names nothing.
  const formulas = JSON.stringify(parts).replaceAll('"', " ");
  return namesIn(formulas).filter((each) => each.title !== undefined && each.title !== title);
}

/** The titles of the sheets that a template draws from, each once. */
export function sourcesOf(template: Template): string[] {
  return [...new Set(drawnBy(template).flatMap(({ title }) => title ?? []))];
}
