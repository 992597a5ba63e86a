/** What the catalog knows of one worksheet function; all of it comes from its doc comment. */
import type { Kind } from "./kinds.ts";
import type { Topic } from "./topics.ts";

/** The namespace that stands before every function: =MIST.OILFOR(...). */
export const NAMESPACE = "MIST";

export interface Param {
  name: string;
  kind: Kind;
  /** A whole range, read as one list; otherwise a single value that broadcasts over a range. */
  range: boolean;
  /** A range whose cells may be numbers or words, passed on as they are. */
  mixed?: boolean;
  optional: boolean;
  /** What is taken where it is left out. */
  default?: number | string;
  text: string;
}

/** One line of how a number comes about, in the language of mathjs. */
export interface WorkingLine {
  /**
   * When it applies: "basis is base", "counts given", or an expression; always where it is missing.
   */
  when?: string;
  /** The same in a reader's words. */
  where?: string;
  name: string;
  /** What its value is measured in, as functions/working/measures.ts reads it. */
  measure: string;
  /** With {names} where a working has their values. */
  what: string;
  expression: string;
  /** The expression as it is written on paper. */
  how: string;
}

/**
 * What must hold for there to be an answer, in the language of mathjs; for a range, in each cell.
 */
export interface Need {
  /** Where it fails on a line without any required quantity, the cell shows blank, not an error. */
  orBlank?: boolean;
  /** As in a working line. */
  when?: string;
  where?: string;
  expression: string;
  /** The same in a reader's words. */
  says: string;
}

export interface Example {
  formula: string;
  result: string;
}

export interface CatalogEntry {
  id: string;
  topic: Topic;
  /** The exported name in src. */
  name: string;
  summary: string;
  need: string;
  /** Everyday words that people look for it by. */
  words: string;
  remarks: string;
  params: Param[];
  returns: { kind: Kind; range: boolean; text: string };
  throws: string[];
  /**
   * In the order in which they are looked at. Only functions that are plain arithmetic have them.
   */
  needs: Need[];
  /** Line by line; the last that applies gives what the cell shows. */
  working: WorkingLine[];
  source: string;
  examples: Example[];
}

/** What the binding needs of a function: a workbook loads no more of the catalog than that. */
export interface Bound {
  id: string;
  params: Pick<Param, "name" | "kind" | "range" | "mixed" | "optional" | "default">[];
  returns: Pick<CatalogEntry["returns"], "range">;
}

/** As it is read from src, with the file that holds it. */
export interface SourceEntry extends CatalogEntry {
  file: string;
}

/** The words that an argument takes, as its text has them in quotes. */
export function wordsOf({ text }: Param): string[] {
  return [...text.matchAll(/"([\w-]+)"/g)].flatMap(([, word]) => word ?? []);
}

/** The name of an argument as calls show it: in brackets where it may be left out. */
export function shownName({ name, optional }: Param): string {
  return optional ? `[${name}]` : name;
}

/** What a working line is, and where it applies. */
export function meaning({ what, where }: WorkingLine): string {
  const named = what.replace(/\{(\w+)\}/g, "$1").replace(/,$/, "");
  return where ? `${named}, where ${where}` : named;
}

/** The call with its arguments named, as a person would type it: OILFOR(batch, load, [basis]). */
export function signature(entry: CatalogEntry): string {
  return `${entry.id}(${entry.params.map(shownName).join(", ")})`;
}
