/**
 * While a list is scrolled so far that its headings are out of sight, their words stand where the letters of its
 * columns are, as in Excel.
 */
import { PAINT } from "../taskpane/sheets/looks.ts";
import { type Model, engine } from "./engine.ts";

type Getters = Model["getters"];

/** A heading, and the column over which it stands. */
interface Heading {
  col: number;
  words: string;
}

/** The headings of the list that the first of the scrolled rows is in, where their own row is out of sight. */
export function headingsOver(
  getters: Getters,
  sheetId: string,
  rows: readonly number[],
): Heading[] {
  const { ySplit } = getters.getPaneDivisions(sheetId);
  const first = rows.find((row) => row >= ySplit);
  if (first === undefined) return [];
  return getters.getTables(sheetId).flatMap(({ range: { zone }, config }) => {
    const { top: row, bottom, left, right } = zone;
    if (config.numberOfHeaders === 0 || rows.includes(row)) return [];
    if (first < row || first > bottom) return [];
    return Array.from({ length: right - left + 1 }, (_, i) => {
      const col = left + i;
      return { col, words: getters.getEvaluatedCell({ sheetId, row, col }).formattedValue };
    });
  });
}

/** What the engine draws with. */
interface Drawing {
  ctx: CanvasRenderingContext2D;
  sheetId: string;
  viewports: {
    getSheetViewVisibleCols: (sheetId: string) => number[];
    getSheetViewVisibleRows: (sheetId: string) => number[];
    getVisibleRect: (sheetId: string, zone: object) => { x: number; width: number };
  };
}

/** Pixels of the row of letters, of a line in it, and free at both ends of a line. */
const [HIGH, LINE, ENDS] = [26, 12, 4];

function drawHeadings(getters: Getters, { ctx, sheetId, viewports }: Drawing) {
  const shown = new Set(viewports.getSheetViewVisibleCols(sheetId));
  const rows = viewports.getSheetViewVisibleRows(sheetId);
  const { fill = "", ink = "" } = PAINT.heading;
  for (const { col, words } of headingsOver(getters, sheetId, rows)) {
    if (!shown.has(col)) continue;
    const place = { left: col, right: col, top: rows[0], bottom: rows[0] };
    const { x, width } = viewports.getVisibleRect(sheetId, place);
    ctx.save();
    ctx.beginPath();
    ctx.rect(x, 0, width - 1, HIGH - 1);
    ctx.clip();
    ctx.fillStyle = fill;
    ctx.fillRect(x, 0, width, HIGH);
    ctx.fillStyle = ink;
    ctx.font = ctx.font.replace(/^.*px/, "bold 10px");
    ctx.textAlign = "left";
    const lines = broken(words, (text) => ctx.measureText(text).width <= width - 2 * ENDS);
    for (const [i, line] of lines.entries())
      ctx.fillText(line, x + ENDS, HIGH / 2 + (i - (lines.length - 1) / 2) * LINE);
    ctx.restore();
  }
}

/** Words over two lines at most; what does not fit the second is cut off there. */
function broken(words: string, fits: (text: string) => boolean): string[] {
  if (fits(words)) return [words];
  const all = words.split(" ");
  const most = all.findLastIndex((_, i) => fits(all.slice(0, i).join(" ")));
  const cut = Math.max(1, most);
  return [all.slice(0, cut), all.slice(cut)].map((line) => line.join(" "));
}

/** What draws the grid and its letters. */
interface Renderer {
  getters: Getters;
  drawHeaders: (this: Renderer, drawing: Drawing) => void;
}

// Its types keep what it draws with to itself.
const renderer = engine.stores.GridRenderer.prototype as unknown as Renderer;
const { drawHeaders } = renderer;

renderer.drawHeaders = function (drawing) {
  drawHeaders.call(this, drawing);
  drawHeadings(this.getters, drawing);
};
