/** A template as a drawing: every cell, rule, mark and chart that a workbook takes, relative to one place. */
import { most } from "./most.ts";
import { cellName, moveFormula, readCellName } from "../../functions/formula/addresses.ts";
import type { Block, Look, Mark } from "./block.ts";
import { widthFor } from "./headings.ts";
import { NO_OTHERS, areasOf, lay, partsThere, placesOf } from "./lay.ts";
import { type Others, type Places, resolved } from "./names.ts";
import type { Part } from "./parts.ts";
import { type Template, TemplateSchema } from "./template.ts";

/** One cell to write, relative to the drawing's own first cell. */
export interface DrawnCell {
  row: number;
  column: number;
  content: string | number | null;
  look?: Look;
  format?: string;
  /** It goes over lines. */
  wraps?: true;
}

/** A rule on what may be typed, over a rectangle. */
export interface DrawnRule extends Area {
  words?: string[];
  /** The cells that hold the words, here or on another sheet. */
  from?: Area & { sheet?: string };
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

/** True for a cell that lies in the rectangle. */
export function isWithin({ row, column }: { row: number; column: number }, area: Area): boolean {
  const [down, across] = [row - area.row, column - area.column];
  return down >= 0 && down < area.rows && across >= 0 && across < area.columns;
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

/** Everything that an insert changes, and the rectangle that it needs empty. */
export interface Drawing {
  rows: number;
  columns: number;
  cells: DrawnCell[];
  rules: DrawnRule[];
  marks: DrawnMark[];
  charts: DrawnChart[];
  widths: number[];
  /** Columns that are hidden: they are for look-ups alone. */
  hidden?: number[];
  /** The lists that grow. */
  lists?: DrawnList[];
  /** How it is printed, where it has a sheet of its own. */
  page?: DrawnPage;
  /** Rows and columns that stay in sight when scrolling, where it has a sheet of its own. */
  frozen?: { rows: number; columns: number };
}

/** A list that grows: its headings and the lines drawn. Formulas look `reach` lines down. */
export interface DrawnList extends Area {
  name: string;
  reach: number;
}

/** A sheet on paper: each section one page wide and as many tall as it takes, numbered. */
export interface DrawnPage {
  landscape?: boolean;
  /** The last column that is printed. */
  last?: number;
  /** Columns at which a section begins, where there is more than one. */
  sections?: number[];
  /** Of a sheet that was drawn before there were sections: pages side by side. */
  wide?: number;
  /** Columns that every section repeats, the first and the last. */
  titleColumns?: [number, number];
  /** Rows that every page repeats, the first and the last. */
  titleRows?: [number, number];
  /** Rows at which a page begins. */
  breaks?: number[];
  /** The columns that are printed, the first and the last, where some at the right are left out. */
  only?: {
    columns: [number, number];
    /** Of a sheet that was drawn when workings stood below: the rows that are printed. */
    rows?: [number, number];
  };
  /** What every page says. */
  caution?: string;
}

/** A template as a drawing, as if the sheet began at its first cell. */
export function drawingOf(
  template: Template,
  filled: boolean,
  others: Others = NO_OTHERS,
): Drawing {
  const { parts, widths, charts = [], page } = TemplateSchema.parse(template);
  // Text that runs on to the right is cut where the columns end that stay in sight, or that each section on paper
  // repeats: it begins after them.
  const laid = lay(parts, others, page?.sections?.repeat ?? page?.columns);
  const { blocks } = laid;
  const area = (text: string) => areaNamed(resolvedRange(text, laid.places));
  const drawnCharts = charts.map((chart) => ({
    ...chart,
    labels: area(chart.labels),
    series: chart.series.map(({ name, values }) => ({ name, values: area(values) })),
    over: area(chart.over),
  }));
  const ends = drawnCharts.map(({ over }) => over);
  const cells = blocks.flatMap((block) => cellsOf(block, filled));
  refuseTwice(template.title, cells);
  const hidden = new Set(laid.hidden);
  const lists = laid.growing.map(({ name, row, column, rows, columns, reach }) => {
    return { name, row: row - 1, column, rows: rows + 1, columns, reach };
  });
  const shownCells = cells.filter(({ column }) => !hidden.has(column));
  const room = roomForHeadings(widths, shownCells, lists);
  const columns = Math.max(
    widths.length,
    ...cells.map((cell) => cell.column + 1),
    ...ends.map((at) => at.column + at.columns),
  );
  const paper = {
    last: columns - 1,
    ...sectionsOf(page, laid.places),
    ...paperOf(partsThere(parts, others)),
  };
  return {
    rows: Math.max(
      most(cells, ({ row }) => row + 1),
      most(ends, (at) => at.row + at.rows),
    ),
    columns,
    cells,
    rules: blocks.filter((block) => block.words ?? block.limits).map(ruleOf),
    marks: blocks.flatMap((block) =>
      (block.marks ?? []).map((mark) => ({ ...areaOfBlock(block), ...mark })),
    ),
    charts: drawnCharts,
    widths: room,
    ...(laid.hidden.length > 0 && { hidden: laid.hidden }),
    ...(lists.length > 0 && { lists }),
    ...(page && pageOf(page, laid.places, paper)),
  };
}

/** Where pages begin, and the columns that are printed where some at the right are left out. */
function paperOf(parts: readonly Part[]): Pick<DrawnPage, "breaks" | "only"> {
  const areas = areasOf(parts);
  const placesOn = (paper: Part["paper"]) =>
    parts.flatMap((part) => (part.paper === paper ? (areas.get(part) ?? []) : []));
  const breaks = placesOn("new page").map(({ row }) => row);
  const [leftOut] = placesOn("left out from here");
  return {
    ...(breaks.length > 0 && { breaks }),
    ...(leftOut && { only: { columns: [0, leftOut.column - 1] } }),
  };
}

/** Columns as wide as their headings need, which in a list that grows have a filter's button beside them. */
function roomForHeadings(
  widths: readonly number[],
  cells: readonly DrawnCell[],
  lists: readonly DrawnList[],
): number[] {
  const room = [...widths];
  for (const { row, column, content, look } of cells) {
    const width = room[column];
    if (look !== "heading" || content === null || isFormula(content) || !width) continue;
    const isBeside = lists.some((list) => isWithin({ row, column }, { ...list, rows: 1 }));
    room[column] = widthFor(String(content), width, isBeside);
  }
  return room;
}

/** The most rows that stay in sight: more would leave no room to scroll on a small screen. */
const MOST_FROZEN = 13;

/** The page set-up, and what stays in sight: all down to the headings, and the first columns. */
function pageOf(
  { landscape = false, caution, heads, columns = 0 }: NonNullable<Template["page"]>,
  places: Places,
  paper: Partial<DrawnPage>,
) {
  const place = heads === undefined ? undefined : namedOnPage(places, heads);
  const head = place && (place.head ?? place.row);
  const titleRows: [number, number] | undefined = head === undefined ? undefined : [head, head];
  return {
    page: {
      ...(landscape && { landscape }),
      ...(caution !== undefined && { caution }),
      ...(titleRows && { titleRows }),
      ...paper,
    },
    ...((head !== undefined || columns > 0) && {
      frozen: { rows: head === undefined || head >= MOST_FROZEN ? 0 : head + 1, columns },
    }),
  };
}

/** The sections of a list too wide for one page: side by side on the sheet, one after another on paper. */
function sectionsOf(page: Template["page"], places: Places): Partial<DrawnPage> {
  if (!page?.sections) return {};
  const { begin, repeat } = page.sections;
  const sections = begin.map((name) => namedOnPage(places, name).column);
  return { sections, titleColumns: [0, repeat - 1] };
}

function namedOnPage(places: Places, name: string) {
  const place = places.get(name);
  if (!place) throw new Error(`page: nothing has the name "${name}"`);
  return place;
}

/** Where the things stand that a template names, where it is inserted alone: "load" at $B$19. */
export function placeOf(template: Template, name: string): string {
  return resolved(`{${name}}`, placesOf(partsThere(template.parts)), {}, NO_OTHERS);
}

function resolvedRange(text: string, places: Places): string {
  return text.startsWith("{") ? resolved(text, places, {}, NO_OTHERS).replaceAll("$", "") : text;
}

function refuseTwice(title: string, cells: readonly DrawnCell[]) {
  const seen = new Set<string>();
  for (const { row, column } of cells) {
    const name = cellName(row, column);
    if (seen.has(name)) throw new Error(`${title}: two parts write ${name}`);
    seen.add(name);
  }
}

function cellsOf(block: Block, filled: boolean): DrawnCell[] {
  return block.rows.flatMap((line, i) =>
    line.map((written, j) => ({
      row: block.row + i,
      column: block.column + j,
      content: block.look === "input" && !filled ? null : written,
      look: block.look,
      ...(block.format !== undefined && { format: block.format }),
      ...(block.wraps && { wraps: block.wraps }),
    })),
  );
}

/** A drawing at its place: its rows, columns and formulas are those of the sheet. */
export interface PlacedDrawing extends Drawing {
  row: number;
  column: number;
}

const isFormula = (content: unknown) => typeof content === "string" && content.startsWith("=");

/** The drawing with its first cell at the row and column. The one place where anything is moved. */
export function placed(drawing: Drawing, row: number, column: number): PlacedDrawing {
  const moved = <T extends { row: number; column: number }>(part: T): T => {
    return { ...part, row: row + part.row, column: column + part.column };
  };
  const { hidden, lists, page, frozen } = drawing;
  return {
    ...drawing,
    row,
    column,
    cells: drawing.cells.map((cell) => ({
      ...moved(cell),
      content: isFormula(cell.content)
        ? moveFormula(String(cell.content), row, column)
        : cell.content,
    })),
    rules: drawing.rules.map((rule) => {
      const { from } = rule;
      // Another sheet does not move along.
      return {
        ...moved(rule),
        ...(from && { from: from.sheet === undefined ? moved(from) : from }),
      };
    }),
    marks: drawing.marks.map(moved),
    charts: drawing.charts.map((chart) => ({
      ...chart,
      labels: moved(chart.labels),
      series: chart.series.map(({ name, values }) => ({ name, values: moved(values) })),
      over: moved(chart.over),
    })),
    ...(hidden && { hidden: hidden.map((each) => column + each) }),
    ...(lists && { lists: lists.map(moved) }),
    ...(page && { page: movedPage(page, row, column) }),
    ...(frozen && { frozen: { rows: row + frozen.rows, columns: column + frozen.columns } }),
  };
}

function movedPage(
  { last, sections, titleRows, titleColumns, breaks, only, ...page }: DrawnPage,
  row: number,
  column: number,
): DrawnPage {
  const by = (moved: number, [first, last]: [number, number]): [number, number] => {
    return [moved + first, moved + last];
  };
  return {
    ...page,
    ...(last !== undefined && { last: column + last }),
    ...(sections && { sections: sections.map((each) => column + each) }),
    ...(titleRows && { titleRows: by(row, titleRows) }),
    ...(titleColumns && { titleColumns: by(column, titleColumns) }),
    ...(breaks && { breaks: breaks.map((each) => row + each) }),
    ...(only && {
      only: {
        columns: by(column, only.columns),
        ...(only.rows && { rows: by(row, only.rows) }),
      },
    }),
  };
}

function ruleOf(block: Block): DrawnRule {
  const { words, limits } = block;
  const area = areaOfBlock(block);
  if (typeof words === "string") return { ...area, from: fromNamed(words) };
  return { ...area, ...(words && { words }), ...(limits && { limits }) };
}

function areaOfBlock({ row, column, rows }: Block): Area {
  return { row, column, rows: rows.length, columns: rows[0]?.length ?? 0 };
}

/** The rectangle that a range such as B8:B13 names. */
function areaNamed(range: string): Area {
  const [from = range, to = from] = range.split(":");
  const [first, last] = [readCellName(from), readCellName(to)];
  return { ...first, rows: last.row - first.row + 1, columns: last.column - first.column + 1 };
}

/** The cells of a drop-down's words: B8:B13, or Materials!B8:B13. */
function fromNamed(words: string): Area & { sheet?: string } {
  const cut = words.lastIndexOf("!");
  const area = areaNamed(words.slice(cut + 1));
  if (cut < 0) return area;
  const sheet = words
    .slice(0, cut)
    .replace(/^'(.*)'$/, "$1")
    .replaceAll("''", "'");
  return { ...area, sheet };
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
