/** A new sheet on paper, and what stays in sight when it is scrolled. */
import { cellName } from "../../functions/formula/addresses.ts";
import { MARGINS, PAGE_NUMBER, cautionOf, printedOf, titlesOf } from "../sheets/page.ts";
import type { PlacedDrawing } from "../sheets/drawing.ts";
import { rangeOf } from "./orders.ts";
import { isSupported } from "./run.ts";

export function orderPage(sheet: Excel.Worksheet, drawing: PlacedDrawing) {
  for (const [column, columns] of runs(drawing.hidden ?? []))
    rangeOf(sheet, { row: 0, column, rows: 1, columns }).columnHidden = true;
  if (isSupported("1.7")) orderFrozen(sheet, drawing);
  if (isSupported("1.9")) orderPaper(sheet, drawing);
}

function orderFrozen(sheet: Excel.Worksheet, { frozen }: PlacedDrawing) {
  if (!frozen) return;
  const { rows, columns } = frozen;
  const { freezePanes } = sheet;
  if (rows > 0 && columns > 0)
    freezePanes.freezeAt(rangeOf(sheet, { row: 0, column: 0, ...frozen }));
  else if (rows > 0) freezePanes.freezeRows(rows);
  else if (columns > 0) freezePanes.freezeColumns(columns);
}

/** Each section one page wide, and as many long as it takes: its columns have no end, as lists grow. */
function orderPaper(sheet: Excel.Worksheet, drawing: PlacedDrawing) {
  const { page = {} } = drawing;
  const layout = sheet.pageLayout;
  layout.orientation = page.landscape ? "Landscape" : "Portrait";
  layout.zoom = { horizontalFitToPages: 1 };
  layout.setPrintMargins("Inches", MARGINS);
  const printed = printedOf(page);
  if (printed.length > 0)
    layout.setPrintArea(sheet.getRanges(printed.join(",").replaceAll("$", "")));
  for (const row of page.breaks ?? []) sheet.horizontalPageBreaks.add(cellName(row, 0));
  const { columns, rows } = titlesOf(page);
  if (columns) layout.setPrintTitleColumns(columns);
  if (rows) layout.setPrintTitleRows(rows);
  const texts = layout.headersFooters.defaultForAllPages;
  texts.centerFooter = PAGE_NUMBER;
  if (page.caution) texts.leftHeader = cautionOf(page);
}

/** Numbers that follow each other, as the first of them and how many there are. */
function runs(numbers: readonly number[]): [first: number, count: number][] {
  const found: [number, number][] = [];
  for (const each of numbers) {
    const last = found.at(-1);
    if (last && last[0] + last[1] === each) last[1]++;
    else found.push([each, 1]);
  }
  return found;
}
