/**
 * A drawing as orders to Excel: contents and number formats as arrays over the whole rectangle, where null
 * leaves a cell as it is; looks, rules and widths once for all cells that have them alike.
 */
import { CHART_COLORS, LOOKS, MARK_PAINT, PAINT, labelFormat } from "../sheets/looks.ts";
import {
  type Area,
  type DrawnCell,
  type DrawnChart,
  type DrawnMark,
  type DrawnRule,
  type PlacedDrawing,
  addressOf,
  isWithin,
} from "../sheets/drawing.ts";
import type { Look } from "../sheets/block.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import { areUnits } from "../sheets/pack-units.ts";
import { alike, rectangles } from "./rectangles.ts";
import { isSupported } from "./run.ts";

/** Points in a pixel: templates measure widths in pixels, Excel in points. */
export const POINTS = 0.75;

/** Text and rules first, widths next, paint last, then charts; nothing is worked out or shown in between. */
export function order(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  drawing: PlacedDrawing,
) {
  context.application.suspendApiCalculationUntilNextSync();
  const whole = rangeOf(sheet, drawing);
  const together = togetherOn(sheet);
  if (drawing.cells.length > 0) whole.formulas = gridOf(drawing, ({ content }) => content);
  for (const rules of alike(drawing.rules, ({ words, from, limits }) => [words, from, limits]))
    orderRule(sheet, together(rules).dataValidation, rules[0]);
  for (const marks of alike(drawing.marks, ({ begins, mark }) => [begins, mark]))
    orderMark(together(marks).conditionalFormats, marks[0]);
  whole.setColumnProperties(columnsOf(drawing));
  orderPaint(drawing, whole, together);
  for (const chart of drawing.charts) orderChart(sheet, drawing.cells, chart);
}

export function rangeOf(sheet: Excel.Worksheet, { row, column, rows, columns }: Area): Excel.Range {
  return sheet.getRangeByIndexes(row, column, rows, columns);
}

/** The cells of a drawing as rows and columns; null where there is nothing to set. */
function gridOf<T>(
  { row, column, rows, columns, cells }: PlacedDrawing,
  of: (cell: DrawnCell) => T | null | undefined,
): (T | null)[][] {
  const places = new Map(cells.map((cell) => [`${cell.row},${cell.column}`, of(cell) ?? null]));
  return Array.from({ length: rows }, (_, i) =>
    Array.from({ length: columns }, (_, j) => places.get(`${row + i},${column + j}`) ?? null),
  );
}

/** The widths that are set; columns behind them, which only a chart covers, stay as they are. */
function columnsOf({ columns, widths }: PlacedDrawing): Excel.SettableColumnProperties[] {
  return Array.from({ length: columns }, (_, i) => {
    const width = widths[i];
    return width === undefined ? {} : { format: { columnWidth: width * POINTS } };
  });
}

/** Rectangles of a sheet as one; asked for once where several things are set on the same. */
function togetherOn(sheet: Excel.Worksheet) {
  const asked = new Map<string, Excel.RangeAreas>();
  return (areas: readonly Area[]): Excel.RangeAreas => {
    const address = areas.map(addressOf).join(",");
    const found = asked.get(address) ?? sheet.getRanges(address);
    asked.set(address, found);
    return found;
  };
}

function orderPaint(
  drawing: PlacedDrawing,
  whole: Excel.Range,
  together: ReturnType<typeof togetherOn>,
) {
  const { cells } = drawing;
  if (cells.some(({ format }) => format))
    whole.numberFormat = gridOf(drawing, ({ format }) => format);
  for (const look of LOOKS) {
    const painted = cells.filter((cell) => cell.look === look);
    if (painted.length === 0 || Object.keys(PAINT[look]).length === 0) continue;
    paint(together(rectangles(painted)).format, look);
  }
  const wrapped = cells.filter(({ wraps }) => wraps);
  if (wrapped.length > 0) wrap(together(rectangles(wrapped)).format);
  // Wrapped headings need their rows made taller; Excel does that by itself only for typed text.
  whole.format.autofitRows();
}

function paint(format: Excel.RangeFormat, look: Look) {
  const { fill, ink, bold, italic, size, align, wrap: goesOverLines } = PAINT[look];
  if (fill) format.fill.color = fill;
  if (ink) format.font.color = ink;
  if (bold) format.font.bold = true;
  if (italic) format.font.italic = true;
  if (size) format.font.size = size;
  if (align) format.horizontalAlignment = ALIGN[align];
  if (goesOverLines) wrap(format);
}

function wrap(format: Excel.RangeFormat) {
  format.wrapText = true;
  format.verticalAlignment = "Center";
}

function orderRule(sheet: Excel.Worksheet, dataValidation: Excel.DataValidation, rule: DrawnRule) {
  dataValidation.rule = excelRule(rule, sheet);
  dataValidation.errorAlert = {
    // A unit may be typed in any spelling; what is none is told by the formulas that read it.
    showAlert: !(rule.words && areUnits(rule.words)),
    style: "Stop",
    title: "Not on this sheet",
    message: ruleText(rule),
  };
}

function excelRule({ words, from, limits }: DrawnRule, sheet: Excel.Worksheet) {
  if (from?.sheet !== undefined)
    return { list: { inCellDropDown: true, source: `=${quoted(from.sheet)}!${held(from)}` } };
  if (from) return { list: { inCellDropDown: true, source: rangeOf(sheet, from) } };
  if (words) return { list: { inCellDropDown: true, source: words.join(",") } };
  const [formula1, formula2] = limits ?? [0, 0];
  return { decimal: { formula1, formula2, operator: "Between" as const } };
}

/** B8:B13 as $B$8:$B$13: a rule's own formula would move with its cells. */
function held(area: Area): string {
  return addressOf(area).replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
}

function ruleText({ words, from, limits }: DrawnRule): string {
  if (from) return "Pick one from the list, or add a line of your own to it further down.";
  if (words) return `Pick one of: ${words.join(", ")}.`;
  const [low, high] = limits ?? [0, 0];
  return high === 1
    ? "Type a percent from 0 % to 100 %, such as 5 %."
    : `Type a number from ${low} to ${high}.`;
}

function orderMark(marks: Excel.ConditionalFormatCollection, { begins, mark }: DrawnMark) {
  const { textComparison } = marks.add("ContainsText");
  const { fill, ink, bold, italic } = MARK_PAINT[mark];
  textComparison.rule = { operator: "BeginsWith", text: begins };
  textComparison.format.fill.color = fill;
  textComparison.format.font.color = ink;
  if (bold) textComparison.format.font.bold = true;
  if (italic) textComparison.format.font.italic = true;
}

function orderChart(
  sheet: Excel.Worksheet,
  cells: readonly DrawnCell[],
  { kind, title, unit, labels, series, over }: DrawnChart,
) {
  const [first] = series;
  if (!first) return;
  const chart = sheet.charts.add(CHART_TYPES[kind], rangeOf(sheet, first.values), "Columns");
  chart.title.text = title;
  chart.legend.visible = series.length > 1;
  chart.legend.position = "Bottom";
  chart.axes.valueAxis.title.text = unit;
  series.forEach(({ name, values }, j) => {
    const drawn = j === 0 ? chart.series.getItemAt(0) : chart.series.add(name);
    if (j > 0) drawn.setValues(rangeOf(sheet, values));
    drawn.name = name;
    drawn.setXAxisValues(rangeOf(sheet, labels));
    if (kind !== "lines") {
      drawn.hasDataLabels = true;
      const { format } = cells.find((cell) => isWithin(cell, values)) ?? {};
      if (isSupported("1.8")) drawn.dataLabels.numberFormat = labelFormat(format);
    }
    // Beyond our colours, Excel's own.
    const color = CHART_COLORS[j];
    if (!color) return;
    if (kind === "lines") drawn.format.line.color = color;
    else drawn.format.fill.setSolidColor(color);
  });
  const start = { ...over, rows: 1, columns: 1 };
  const end = { ...start, row: over.row + over.rows - 1, column: over.column + over.columns - 1 };
  chart.setPosition(rangeOf(sheet, start), rangeOf(sheet, end));
}

const CHART_TYPES = {
  columns: "ColumnClustered",
  bars: "BarClustered",
  lines: "XYScatterLines",
} as const;

const ALIGN = { left: "Left", center: "Center", right: "Right" } as const;
