/** What a template asks for and what it gives, each by the words that stand beside it on the sheet. */
import { readCellName } from "../../functions/formula/addresses";
import type { Block, Content } from "../sheets/block";
import { type DrawnCell, drawingOf } from "../sheets/drawing";
import { NO_OTHERS } from "../sheets/lay";
import { type Others, drawsFrom } from "../sheets/names";
import type { Part } from "../sheets/parts";
import type { Template } from "../sheets/template";

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
export function thingsOf(template: Template, others: Others = NO_OTHERS): Thing[] {
  const things = [...(template.parts ?? []).flatMap(ofPart), ...ofBlocks(template, others)];
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
  const labels = (Array.isArray(label) ? label : [label]) as readonly Content[];
  const isTyped = !formula && !over && (look ?? "input") === "input";
  const kind = draw ? "drawn" : isTyped ? "typed" : "worked";
  if (kind === "typed" && demo === undefined && look !== "input") return [];
  return labels.filter(isWords).map((text) => ({
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

const READ = new Set<unknown>(["result", "answer"]);
const FILLED = new Set<unknown>(["input", "drawn", "note", ...READ]);

/** Blocks have addresses in place of names: their words are the heading above, or the label to the left. */
function ofBlocks(template: Template, others: Others): Thing[] {
  const { blocks } = template;
  if (!blocks) return [];
  const cells = new Map(drawingOf(template, true, others).cells.map((cell) => [key(cell), cell]));
  return blocks.flatMap((block) => {
    if (block.look !== "input" && !READ.has(block.look)) return [];
    const { row, column } = readCellName(block.at);
    const { draw, rows = [[block.formula ?? ""]], down = rows.length } = block;
    const wide = Math.max(block.across ?? 1, rows[0]?.length ?? 1);
    return Array.from({ length: down * wide }, (_, i) => {
      const [line, across] = [Math.floor(i / wide), i % wide];
      const at = { row: row + line, column: column + across };
      const demo = rows[line]?.[across];
      const all = rows.map((each) => each[across]);
      const drawn = draw?.[line]?.[across];
      const filled: Filled = {
        ...block,
        formula: block.look === "input" ? undefined : String(block.formula ?? demo),
        draw: typeof drawn === "string" ? drawn : undefined,
      };
      const above = headingOver(cells, at);
      return above === undefined
        ? thing(labelLeft(cells, at), filled, demo)
        : thing(above, filled, all, "each line");
    }).flat();
  });
}

interface Spot {
  row: number;
  column: number;
}

const key = ({ row, column }: Spot) => `${row} ${column}`;

function headingOver(cells: ReadonlyMap<string, DrawnCell>, { row, column }: Spot) {
  for (let above = row - 1; above >= 0; above--) {
    const cell = cells.get(key({ row: above, column }));
    if (cell?.look === "heading") return isWords(cell.content) ? cell.content : undefined;
    if (!FILLED.has(cell?.look)) return undefined;
  }
  return undefined;
}

function labelLeft(cells: ReadonlyMap<string, DrawnCell>, { row, column }: Spot) {
  for (let left = column - 1; left >= 0; left--) {
    const cell = cells.get(key({ row, column: left }));
    if (cell?.look === "label" && isWords(cell.content)) return cell.content;
  }
  return undefined;
}
