/** What a template asks for and what it gives, each by the words that stand beside it on the sheet. */
import type { Block, Content } from "../sheets/block.ts";
import { drawsFrom } from "../sheets/names.ts";
import type { Part } from "../sheets/parts.ts";
import type { Template } from "../sheets/template.ts";

/** Something to type or to read on a sheet. */
export interface Thing {
  label: string;
  /** Typed by the maker; drawn from other sheets, and may be typed over; or worked out. */
  kind: "typed" | "drawn" | "worked";
  /** Typed or read once, on every line of a list, or in every column of a table. */
  often: "once" | "each line" | "each column";
  /** The other sheets that it comes from, by title. */
  from: string[];
  /** What may be typed, in words. */
  takes: string;
}

/** What fields, columns and rows have in common. */
interface Filled {
  look?: Block["look"] | undefined;
  format?: string | undefined;
  words?: Block["words"] | undefined;
  limits?: readonly [number, number] | undefined;
  formula?: string | undefined;
  draw?: string | undefined;
  over?: true | undefined;
}

/** Everything on a template, each label once. */
export function thingsOf({ parts }: Template): Thing[] {
  const things = parts.flatMap(ofPart);
  const isDrawn = (wanted: string) =>
    things.some(({ label, kind }) => kind === "drawn" && label === wanted);
  const seen = new Set<string>();
  return things.filter(({ label, kind }) => {
    const told = `${kind} ${label}`;
    if (seen.has(told) || (kind === "typed" && isDrawn(label))) return false;
    return seen.add(told);
  });
}

function ofPart(part: Part): Thing[] {
  if ("fields" in part) return part.fields.flatMap((each) => thing(each.label, each, each.demo));
  if ("list" in part)
    return part.columns
      .filter(({ hidden }) => !hidden)
      .flatMap((each) => thing(each.heading, each, each.demo, "each line"));
  if ("table" in part)
    return part.rows.flatMap((each) => thing(each.label, each, each.demo?.[0], "each column"));
  return [];
}

/** A thing for each label; none where nothing says what it is. */
function thing(
  label: Content | readonly Content[] | undefined,
  filled: Filled,
  demo: unknown,
  often: Thing["often"] = "once",
): Thing[] {
  const { draw, formula, over, look } = filled;
  if (look === "label" || look === "heading") return [];
  const isTyped = !formula && !over && (look ?? "input") === "input";
  const kind = draw ? "drawn" : isTyped ? "typed" : "worked";
  if (kind === "typed" && demo === undefined && look !== "input") return [];
  return [label]
    .flat()
    .filter(isWords)
    .map((text) => ({
      label: text,
      kind,
      often,
      from: [...new Set(drawsFrom(draw ?? formula ?? ""))],
      takes: takes(filled, demo, text),
    }));
}

function isWords(text: Content | undefined): text is string {
  return typeof text === "string" && text !== "" && !text.startsWith("=");
}

/** What may be typed; where the demo types nothing, a label that ends in a unit tells. */
function takes({ words, limits, format = "" }: Filled, demo: unknown, label: string): string {
  if (typeof words === "string") {
    const sheet = drawsFrom(words).at(0);
    return sheet === undefined ? "picked from a list of this sheet" : `picked from ${sheet}`;
  }
  if (words) return words.join(", ");
  if (limits && format.includes("%")) return `${limits[0] * 100} % to ${limits[1] * 100} %`;
  if (limits) return `${limits[0]} to ${limits[1]}`;
  if (format.includes("yy")) return "a date";
  if (format.includes("%")) return "a share, as 5 %";
  const first = [demo].flat(2).find((each) => each !== null && each !== undefined);
  if (first === undefined) return /\)$/.test(label) ? "a number" : "text";
  return typeof first === "string" ? "text" : "a number";
}
