/** What a cell of a template can be: its look, its format, what may be typed; and rectangles of such cells. */
import * as z from "zod/mini";

// Some pages forbid eval, which zod would otherwise use to compile its checks.
z.config({ jitless: true });

/** The looks a cell can have. Hosts turn them into fills and fonts; see looks.ts. */
export const LOOKS = [
  "title",
  "note",
  "caution",
  "section",
  "heading",
  "label",
  "input",
  "drawn",
  "result",
  "answer",
] as const;

/** How a cell can be marked by the words that its text opens with; see looks.ts, too. */
export const MARKS = ["over", "doubt", "within", "lacking"] as const;

export type Look = (typeof LOOKS)[number];
export type Mark = (typeof MARKS)[number];

export const content = z.union([z.string(), z.number(), z.null()]);
export type Content = z.infer<typeof content>;

/** Cells by their addresses, such as B8:B13, or by a name in braces. */
export const range = z.string().check(z.regex(/^([A-Z]{1,2}[1-9]\d*:[A-Z]{1,2}[1-9]\d*|\{.+\})$/));

/** A word of a drop-down. Excel parts such a list at its commas, and has no way around it. */
const word = z.string().check(z.regex(/^[^,]+$/));

/** Such a list within a rule; Excel takes 255 characters, commas counted. A longer one stands in cells. */
const words = z.array(word).check(
  z.minLength(1),
  z.refine((all) => all.join(",").length <= 255, "a list has at most 255 characters"),
);

/** What is said of cells beside their contents. */
export const cellAspects = {
  look: z.enum(LOOKS),
  /** Number format, in Excel's language. */
  format: z.optional(z.string()),
  /** What is typed goes over lines, where it is longer than its cell is wide. */
  wraps: z.optional(z.literal(true)),
  /** The only words that may be picked, or the range of cells that has them. */
  words: z.optional(z.union([range, words])),
  /** The only numbers that may be typed. */
  limits: z.optional(z.tuple([z.number(), z.number()])),
  /** How its cells are marked, by the words that their text opens with. */
  marks: z.optional(z.array(z.strictObject({ begins: z.string(), mark: z.enum(MARKS) }))),
};

/** What is said of cells beside their contents and their look. */
export type Aspects = {
  [aspect in "format" | "wraps" | "words" | "limits" | "marks"]?:
    z.infer<(typeof cellAspects)[aspect]> | undefined;
};

/** A rectangle of cells of one look, at its place. Rows and columns count from zero. */
export interface Block extends Aspects {
  row: number;
  column: number;
  look: Look;
  /** Rows of texts and numbers; a text that opens with = is a formula, null leaves a cell empty. */
  rows: Content[][];
}
