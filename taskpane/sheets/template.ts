/**
 * What a template is, and how its data becomes a drawing that a workbook can take.
 *
 * One template is one data file in templates/: blocks of cells at their places, as if the sheet began
 * at A1. Cream cells are inputs; they hold the demo, and stay empty when the template is inserted empty.
 */
import * as z from "zod/mini";
import { cellName, moveFormula, readCellName } from "../../functions/formula/addresses";

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
  "result",
  "answer",
] as const;

/** How a cell can be marked by the words that its text opens with; see looks.ts, too. */
export const MARKS = ["over", "doubt", "within", "lacking"] as const;

const content = z.union([z.string(), z.number(), z.null()]);

const range = z.string().check(z.regex(/^[A-Z]{1,2}[1-9]\d*:[A-Z]{1,2}[1-9]\d*$/));

/** A word of a drop-down. Excel parts such a list at its commas, and has no way around it. */
const word = z.string().check(z.regex(/^[^,]+$/));

/** Such a list within a rule; Excel takes 255 characters, commas counted. A longer one stands in cells. */
const words = z.array(word).check(
  z.minLength(1),
  z.refine((all) => all.join(",").length <= 255, "a list has at most 255 characters"),
);

const Block = z.strictObject({
  /** Where its first cell stands. */
  at: z.string().check(z.regex(/^[A-Z]{1,2}[1-9]\d*$/)),
  look: z.enum(LOOKS),
  /** Rows of texts and numbers; a text that opens with = is a formula, null leaves a cell empty. */
  rows: z.optional(z.array(z.array(content)).check(z.minLength(1))),
  /** One formula, written for the first cell and repeated as a sheet would fill it. */
  formula: z.optional(z.string().check(z.startsWith("="))),
  down: z.optional(z.int().check(z.positive())),
  across: z.optional(z.int().check(z.positive())),
  /** Rows and columns that the formula's own answer spills over. */
  spills: z.optional(z.tuple([z.int().check(z.positive()), z.int().check(z.positive())])),
  /** Number format, in Excel's language. */
  format: z.optional(z.string()),
  /** The only words that may be picked, or the range of cells that has them. */
  words: z.optional(z.union([range, words])),
  /** The only numbers that may be typed. */
  limits: z.optional(z.tuple([z.number(), z.number()])),
  /** How its cells are marked, by the words that their text opens with. */
  marks: z.optional(z.array(z.strictObject({ begins: z.string(), mark: z.enum(MARKS) }))),
});

const Chart = z.strictObject({
  title: z.string(),
  /** Upright columns, bars that lie, for long labels, or lines with a mark at each value. */
  kind: z.enum(["columns", "bars", "lines"]),
  /** What the values are, with their unit: the title of their axis. */
  unit: z.string(),
  labels: range,
  series: z.array(z.strictObject({ name: z.string(), values: range })).check(z.minLength(1)),
  /** The cells that it covers. */
  over: range,
});

export const TemplateSchema = z.strictObject({
  title: z.string().check(z.maxLength(31)),
  use: z.string(),
  /** Its place in the pane: the order in which a maker meets the sheets. */
  step: z.int().check(z.positive()),
  /** Column widths in pixels, from column A. */
  widths: z.array(z.number().check(z.positive())),
  blocks: z.array(Block).check(z.minLength(1)),
  charts: z.optional(z.array(Chart)),
});

export type Template = z.infer<typeof TemplateSchema>;
export type Look = (typeof LOOKS)[number];
export type Mark = (typeof MARKS)[number];
type BlockData = z.infer<typeof Block>;

/** One cell to write, relative to the drawing's own first cell. */
export interface DrawnCell {
  row: number;
  column: number;
  content: string | number | null;
  look?: Look;
  format?: string;
}

/** A rule on what may be typed, over a rectangle. */
export interface DrawnRule extends Area {
  words?: string[];
  /** The cells that hold the words. */
  from?: Area;
  limits?: [number, number];
}

/** A look over a rectangle, for the cells whose text begins with these words. */
export interface DrawnMark extends Area {
  begins: string;
  mark: Mark;
}

/** A rectangle relative to the drawing's first cell. */
export interface Area {
  row: number;
  column: number;
  rows: number;
  columns: number;
}

/** A chart over some cells. */
export interface DrawnChart {
  title: string;
  kind: "columns" | "bars" | "lines";
  unit: string;
  labels: Area;
  series: { name: string; values: Area }[];
  over: Area;
}

/** A list that grows: its headings and the lines that are drawn; typing below them makes it longer. */
export interface DrawnList extends Area {
  name: string;
  /** The lines that formulas elsewhere look down, from the first; the drawn ones are among them. */
  reach: number;
}

/** A new sheet on paper, besides being one page wide, with the number of each page at its foot. */
export interface DrawnPage {
  landscape?: boolean;
  /** The first and the last row that stand on top of each page. */
  titleRows?: [number, number];
  /** Said at the top of each page. */
  caution?: string;
}

/** Everything that an insert changes, and the rectangle that it needs empty. */
export interface Drawing {
  rows: number;
  columns: number;
  cells: DrawnCell[];
  rules: DrawnRule[];
  marks: DrawnMark[];
  charts: DrawnChart[];
  widths: number[];
  lists?: DrawnList[];
  /** Used on a new sheet alone: a sheet that was there keeps its own. */
  page?: DrawnPage;
  /** Rows and columns from the first that stay in sight; used on a new sheet alone. */
  frozen?: { rows: number; columns: number };
}

/** A template as a drawing, as if the sheet began at its first cell. */
export function drawingOf(template: Template, filled: boolean): Drawing {
  const { blocks, widths, charts = [] } = TemplateSchema.parse(template);
  const drawnCharts = charts.map((chart) => ({
    ...chart,
    labels: areaNamed(chart.labels),
    series: chart.series.map(({ name, values }) => ({ name, values: areaNamed(values) })),
    over: areaNamed(chart.over),
  }));
  const ends = drawnCharts.map(({ over }) => over);
  const cells = blocks.flatMap((block) => cellsOf(block, filled));
  return {
    rows: Math.max(...cells.map((cell) => cell.row + 1), ...ends.map((at) => at.row + at.rows)),
    columns: Math.max(
      widths.length,
      ...cells.map((cell) => cell.column + 1),
      ...ends.map((at) => at.column + at.columns),
    ),
    cells,
    rules: blocks.filter((block) => block.words ?? block.limits).map(ruleOf),
    marks: blocks.flatMap((block) =>
      (block.marks ?? []).map((mark) => ({ ...areaOfBlock(block), ...mark })),
    ),
    charts: drawnCharts,
    widths,
  };
}

function cellsOf(block: BlockData, filled: boolean): DrawnCell[] {
  const origin = readCellName(block.at);
  return contentsOf(block).flatMap((line, i) =>
    line.map((written, j) => ({
      row: origin.row + i,
      column: origin.column + j,
      content: block.look === "input" && !filled ? null : written,
      look: block.look,
      format: block.format,
    })),
  );
}

/** A drawing at its place: its rows, columns and formulas are those of the sheet. */
export interface PlacedDrawing extends Drawing {
  row: number;
  column: number;
}

/** The drawing with its first cell at the row and column. The one place where anything is moved. */
export function placed(drawing: Drawing, row: number, column: number): PlacedDrawing {
  const moved = <T extends { row: number; column: number }>(part: T): T => {
    return { ...part, row: row + part.row, column: column + part.column };
  };
  const isFormula = (content: unknown) => typeof content === "string" && content.startsWith("=");
  const { lists, page, frozen } = drawing;
  return {
    ...drawing,
    row,
    column,
    ...(lists && { lists: lists.map(moved) }),
    ...(page && { page: movedPage(page, row) }),
    ...(frozen && { frozen: { rows: row + frozen.rows, columns: column + frozen.columns } }),
    cells: drawing.cells.map((cell) => ({
      ...moved(cell),
      content: isFormula(cell.content)
        ? moveFormula(String(cell.content), row, column)
        : cell.content,
    })),
    rules: drawing.rules.map((rule) => ({ ...moved(rule), from: rule.from && moved(rule.from) })),
    marks: drawing.marks.map(moved),
    charts: drawing.charts.map((chart) => ({
      ...chart,
      labels: moved(chart.labels),
      series: chart.series.map(({ name, values }) => ({ name, values: moved(values) })),
      over: moved(chart.over),
    })),
  };
}

function movedPage({ titleRows, ...page }: DrawnPage, row: number): DrawnPage {
  if (!titleRows) return page;
  const [first, last] = titleRows;
  return { ...page, titleRows: [row + first, row + last] };
}

/** The rows of a block: as written, or its one formula filled down, across, and over its spill. */
function contentsOf(block: BlockData): (string | number | null)[][] {
  if (block.rows) return block.rows;
  const formula = block.formula ?? "";
  const [spillRows, spillColumns] = block.spills ?? [1, 1];
  const rows = (block.down ?? 1) * spillRows;
  const columns = (block.across ?? 1) * spillColumns;
  return Array.from({ length: rows }, (_, i) =>
    Array.from({ length: columns }, (_, j) => {
      if (i % spillRows > 0 || j % spillColumns > 0) return null;
      return moveFormula(formula, i, j, true);
    }),
  );
}

function ruleOf(block: BlockData): DrawnRule {
  const { words, limits } = block;
  const area = areaOfBlock(block);
  if (typeof words === "string") return { ...area, from: areaNamed(words) };
  return { ...area, words, limits };
}

function areaOfBlock(block: BlockData): Area {
  const rows = contentsOf(block);
  return { ...readCellName(block.at), rows: rows.length, columns: rows[0].length };
}

/** The rectangle that a range such as B8:B13 names. */
function areaNamed(range: string): Area {
  const [first, last] = range.split(":").map(readCellName);
  return { ...first, rows: last.row - first.row + 1, columns: last.column - first.column + 1 };
}

/** A rectangle of a sheet as an address. */
export function addressOf(area: Area): string {
  return areaOf(area, area.row, area.column);
}

/** The rectangle of a drawing put at a place, as an address: A1:N17. */
export function areaOf(drawing: Pick<Drawing, "rows" | "columns">, row: number, column: number) {
  const last = cellName(row + drawing.rows - 1, column + drawing.columns - 1);
  return `${cellName(row, column)}:${last}`;
}
