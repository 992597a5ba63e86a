/**
 * The pane's port on Excel, through Office.js.
 *
 * A drawing is queued whole and sent with one sync: text first, rules and widths next, paint last. When
 * Excel refuses it, a new sheet is removed again; at a selection (which was empty) the text and the rules
 * are cleared and the paint and widths from before are put back.
 */
import type { CellValue } from "../../functions/bind/lift";
import { cellName } from "../../functions/formula/addresses";
import { CHART_COLORS, MARK_PAINT, PAINT } from "../sheets/looks";
import type { Area, DrawnCell, Drawing, DrawnRule } from "../sheets/template";
import { type CellContent, type Placed, type Spot, type Workbook } from "../host/workbook";
import { freeName } from "../../functions/formula/sheet-names";

/** Points in a pixel: templates measure widths in pixels, Excel in points. */
const POINTS = 0.75;

/** The most bytes that Excel hands out at a time. */
const LARGEST_SLICE = 4_194_304;

/** What is remembered of each cell's paint, to put it back. */
const REMEMBERED: Excel.CellPropertiesLoadOptions = {
  format: {
    fill: { color: true },
    font: { bold: true, italic: true, color: true, size: true },
    horizontalAlignment: true,
    verticalAlignment: true,
    wrapText: true,
  },
};

/** The reader of formulas, which few callers want, is loaded with the first of them. */
const references = () => import("../../functions/formula/references");

export class ExcelWorkbook implements Workbook {
  selection(): Promise<Spot> {
    return run(async (context) => {
      const cell = context.workbook.getActiveCell();
      cell.load("rowIndex");
      cell.load("columnIndex");
      const sheet = context.workbook.worksheets.getActiveWorksheet();
      sheet.load("name");
      await context.sync();
      return { sheet: sheet.name, row: cell.rowIndex, column: cell.columnIndex };
    });
  }

  firstFilled(spot: Spot, rows: number, columns: number): Promise<string | null> {
    return run(async (context) => {
      const sheet = context.workbook.worksheets.getItem(spot.sheet);
      const area = sheet.getRangeByIndexes(spot.row, spot.column, rows, columns);
      area.load("formulas");
      area.load("values");
      await context.sync();
      // A formula that shows nothing is filled, and so is a cell that another one spills into.
      const { formulas, values } = area;
      for (let row = 0; row < rows; row++) {
        for (let column = 0; column < columns; column++) {
          if (formulas[row][column] === "" && values[row][column] === "") continue;
          return cellName(spot.row + row, spot.column + column);
        }
      }
      return null;
    });
  }

  drawOnNewSheet(title: string, drawing: Drawing): Promise<string> {
    return run(async (context) => {
      const sheets = context.workbook.worksheets;
      sheets.load("items/name");
      await context.sync();
      const name = freeName(
        title,
        sheets.items.map((sheet) => sheet.name),
      );
      try {
        const sheet = sheets.add(name);
        queueContents(sheet, drawing, 0, 0);
        drawing.widths.forEach((width, i) => {
          sheet.getRangeByIndexes(0, i, 1, 1).format.columnWidth = width * POINTS;
        });
        queuePaint(sheet, drawing, 0, 0);
        queueCharts(sheet, drawing, 0, 0, newNames(drawing));
        sheet.activate();
        await context.sync();
      } catch (error) {
        await removeSheet(name);
        throw refusal(error);
      }
      return name;
    });
  }

  drawAt(spot: Spot, drawing: Drawing): Promise<void> {
    return run(async (context) => {
      const sheet = context.workbook.worksheets.getItem(spot.sheet);
      const area = sheet.getRangeByIndexes(spot.row, spot.column, drawing.rows, drawing.columns);
      const before = area.getCellProperties(REMEMBERED);
      const columns = drawing.widths.map((_, i) => {
        return sheet.getRangeByIndexes(spot.row, spot.column + i, 1, 1);
      });
      columns.forEach((column) => column.load("format/columnWidth"));
      area.load("numberFormat");
      // eslint-disable-next-line office-addins/load-object-before-read, office-addins/call-sync-before-read -- only gone through, its type is loaded below
      const rules = area.dataValidation;
      rules.load("type");
      const marks = marksOn(area);
      await context.sync();
      if (drawing.rules.length > 0 && rules.type !== "None") {
        throw new Error(
          "Nothing was inserted: the cells there already have a rule on what may be typed.",
        );
      }
      const formats = area.numberFormat;
      const theirs = marks.items.map(({ id }) => id);
      const charts = newNames(drawing);
      const widths = columns.map((column) => column.format.columnWidth);
      try {
        queueContents(sheet, drawing, spot.row, spot.column);
        // Other cells stand in these columns too: they may grow, never shrink.
        columns.forEach((column, i) => {
          column.format.columnWidth = Math.max(widths[i], drawing.widths[i] * POINTS);
        });
        queuePaint(sheet, drawing, spot.row, spot.column);
        queueCharts(sheet, drawing, spot.row, spot.column, charts);
        await context.sync();
      } catch (error) {
        // eslint-disable-next-line office-addins/load-object-before-read -- a ClientResult has no load
        await putBack(spot, drawing, { paint: before.value, formats, widths, charts, theirs });
        throw refusal(error);
      }
    });
  }

  onChange(listener: () => void): Promise<void> {
    return run(async (context) => {
      const told = async () => listener();
      context.workbook.onSelectionChanged.add(told);
      // Not when something is calculated: looking into an expression is a calculation, too.
      context.workbook.worksheets.onChanged.add(told);
      await context.sync();
    });
  }

  content({ sheet, row, column }: Spot): Promise<CellContent> {
    return run(async (context) => {
      const cell = context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row, column, 1, 1);
      cell.load("formulas");
      cell.load("values");
      cell.load("valueTypes");
      const spills = Office.context.requirements.isSetSupported("ExcelApi", "1.12");
      const parent = spills ? cell.getSpillParentOrNullObject() : cell;
      parent.load("formulas");
      parent.load("rowIndex");
      parent.load("columnIndex");
      await context.sync();
      const first = parent.isNullObject
        ? { formulas: cell.formulas, rowIndex: row, columnIndex: column }
        : parent;
      const formula = String(first.formulas[0][0]);
      return {
        formula: formula.startsWith("=") ? formula : null,
        value: valuesOf(cell)[0][0],
        from: { sheet, row: first.rowIndex, column: first.columnIndex },
      };
    });
  }

  /** Ranges are read; other expressions are worked out as a name that is added and taken away again. */
  async values(spot: Spot, expressions: string[]): Promise<(CellValue[][] | null)[]> {
    const { isRange } = await references();
    const found: (CellValue[][] | null)[] = [];
    // One by one: what fails is left out, and fails nothing else.
    for (const expression of expressions) {
      const read = isRange(expression)
        ? rangeValues(spot, expression)
        : workedOut(spot, expression);
      found.push(await read.catch(() => null));
    }
    return found;
  }

  formulas(): Promise<Placed[]> {
    return run(async (context) => {
      const sheets = context.workbook.worksheets;
      sheets.load("items/name");
      await context.sync();
      const used = sheets.items.map((sheet) => {
        const range = sheet.getUsedRangeOrNullObject();
        range.load("formulas");
        range.load("values");
        range.load("valueTypes");
        range.load("rowIndex");
        range.load("columnIndex");
        return { sheet: sheet.name, range };
      });
      await context.sync();
      return used
        .filter(({ range }) => !range.isNullObject)
        .flatMap(({ sheet, range }) => {
          const values = valuesOf(range);
          return range.formulas.flatMap((line: unknown[], i) =>
            line.flatMap((formula, j) => {
              if (typeof formula !== "string" || !formula.startsWith("=")) return [];
              const spot = { sheet, row: range.rowIndex + i, column: range.columnIndex + j };
              return [{ spot, formula, value: values[i][j] }];
            }),
          );
        });
    });
  }

  /** All of a sheet at once; where it refuses, one by one, so that each is told of its own. */
  async enter(formulas: readonly Placed[]): Promise<(string | null)[]> {
    const refused = new Map<Placed, string | null>();
    for (const sheet of new Set(formulas.map(({ spot }) => spot.sheet))) {
      const ofSheet = formulas.filter(({ spot }) => spot.sheet === sheet);
      if ((await entered(ofSheet)) === null) continue;
      for (const each of ofSheet) refused.set(each, await entered([each]));
    }
    return formulas.map((each) => refused.get(each) ?? null);
  }

  async file(): Promise<Uint8Array> {
    try {
      const bytes = await wholeFile();
      if (bytes.length > 0) return bytes;
      throw new Error("it is empty");
    } catch (error) {
      // On the web, Microsoft's table of file types names only PDF for Excel; others report that it works.
      throw new Error(
        `Excel did not hand out this workbook's file: ${(error as Error).message}. Save a copy of it on your ` +
          "computer (File, Create a copy, Download a copy), then choose that file with the button below.",
      );
    }
  }

  async give(bytes: Uint8Array): Promise<string> {
    await Excel.createWorkbook(base64(bytes));
    return "The copy is open as a new workbook: save it under a name of its own.";
  }
}

/** Enters formulas in one go; gives why they were refused, or null. */
function entered(formulas: readonly Placed[]): Promise<string | null> {
  const done = run(async (context) => {
    for (const { spot, formula } of formulas) {
      const sheet = context.workbook.worksheets.getItem(spot.sheet);
      sheet.getRangeByIndexes(spot.row, spot.column, 1, 1).formulas = [[formula]];
    }
    await context.sync();
    return null;
  });
  return done.catch((error: Error) => error.message);
}

function rangeValues(spot: Spot, expression: string): Promise<CellValue[][]> {
  return run(async (context) => {
    const { absolute } = await references();
    const { sheet, address } = absolute(expression, spot.sheet);
    const range = context.workbook.worksheets.getItem(sheet).getRange(address);
    // Of whole columns, what is used.
    const used = range.getUsedRangeOrNullObject(true);
    range.load("cellCount");
    await context.sync();
    const isLarge = range.cellCount < 0 || range.cellCount > 10_000;
    const read = isLarge && !used.isNullObject ? used : range;
    read.load("values");
    read.load("valueTypes");
    await context.sync();
    return valuesOf(read);
  });
}

function workedOut(spot: Spot, expression: string): Promise<CellValue[][]> {
  return run(async (context) => {
    const names = context.workbook.names;
    const formula = `=${await withTableRows(context, spot, expression)}`;
    const scratch = names.add(`Mistwright_${crypto.randomUUID().replaceAll("-", "_")}`, formula);
    scratch.visible = false;
    scratch.load("value");
    scratch.load("type");
    scratch.arrayValues.load("values");
    scratch.arrayValues.load("types");
    try {
      await context.sync();
      if (scratch.type === "Array" || scratch.type === "Range") {
        const { values, types } = scratch.arrayValues;
        return values.map((row, i) =>
          row.map((value: unknown, j: number) => valueOf(value, types[i][j])),
        );
      }
      return [[valueOf(scratch.value, scratch.type)]];
    } finally {
      scratch.delete();
      await context.sync();
    }
  });
}

/** An expression that means the same wherever it stands: cells with their sheet, table rows as cells. */
async function withTableRows(
  context: Excel.RequestContext,
  spot: Spot,
  expression: string,
): Promise<string> {
  const { absoluteAll, thisRow } = await references();
  const rows = thisRow(expression);
  const sheet = context.workbook.worksheets.getItem(spot.sheet);
  const here = sheet.getRangeByIndexes(spot.row, spot.column, 1, 1);
  const columns = rows.map(({ table, column }) => {
    const found = table ? context.workbook.tables.getItem(table) : here.getTables(false).getFirst();
    const body = found.columns.getItem(column).getDataBodyRange();
    body.load("columnIndex");
    return body;
  });
  await context.sync();
  const cells = columns.map((body) => cellName(spot.row, body.columnIndex));
  return absoluteAll(expression, spot.sheet, new Map(rows.map(({ text }, i) => [text, cells[i]])));
}

/** A cell's value as Excel tells it: an error is a text that opens with # and has that type. */
function valueOf(value: unknown, type: string): CellValue {
  if (type === "Empty") return null;
  if (type === "Error") return { fault: String(value) };
  return value as CellValue;
}

function valuesOf(range: { values: unknown[][]; valueTypes: string[][] }): CellValue[][] {
  return range.values.map((row, i) =>
    row.map((value, j) => valueOf(value, range.valueTypes[i][j])),
  );
}

/** The whole document, slice by slice. */
function wholeFile(): Promise<Uint8Array> {
  const failed = (error: Office.Error) => new Error(error.message);
  return new Promise((resolve, reject) => {
    const options = { sliceSize: LARGEST_SLICE };
    Office.context.document.getFileAsync(Office.FileType.Compressed, options, (opened) => {
      if (opened.status === Office.AsyncResultStatus.Failed) return reject(failed(opened.error));
      const file = opened.value;
      const bytes = new Uint8Array(file.size);
      let filled = 0;
      const next = (index: number) => {
        if (index === file.sliceCount) {
          file.closeAsync();
          return resolve(bytes);
        }
        file.getSliceAsync(index, (slice) => {
          if (slice.status === Office.AsyncResultStatus.Failed) {
            file.closeAsync();
            return reject(failed(slice.error));
          }
          const data = slice.value.data as number[];
          bytes.set(data, filled);
          filled += data.length;
          next(index + 1);
        });
      };
      next(0);
    });
  });
}

/** Bytes as base64, a piece at a time, as a call takes only so many arguments. */
function base64(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 8192) {
    text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  }
  return btoa(text);
}

/** One undo step where Excel can do that (ExcelApi 1.20). */
function run<T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
  const merges = Office.context.requirements.isSetSupported("ExcelApi", "1.20");
  return Excel.run(merges ? { mergeUndoGroup: true } : {}, batch);
}

function queueContents(sheet: Excel.Worksheet, drawing: Drawing, row: number, column: number) {
  for (const cell of drawing.cells) {
    if (cell.content === null) continue;
    cellRange(sheet, cell, row, column).formulas = [[cell.content]];
  }
  for (const rule of drawing.rules) {
    const { rows, columns } = rule;
    const area = sheet.getRangeByIndexes(row + rule.row, column + rule.column, rows, columns);
    area.dataValidation.rule = excelRule(rule, sheet, row, column);
    area.dataValidation.errorAlert = {
      showAlert: true,
      style: "Stop",
      title: "Not on this sheet",
      message: ruleText(rule),
    };
  }
  for (const { begins, mark, ...place } of drawing.marks) {
    const area = sheet.getRangeByIndexes(
      row + place.row,
      column + place.column,
      place.rows,
      place.columns,
    );
    const { textComparison } = area.conditionalFormats.add("ContainsText");
    const { fill, ink, bold, italic } = MARK_PAINT[mark];
    textComparison.rule = { operator: "BeginsWith", text: begins };
    textComparison.format.fill.color = fill;
    textComparison.format.font.color = ink;
    textComparison.format.font.bold = bold;
    textComparison.format.font.italic = italic;
  }
}

function queuePaint(sheet: Excel.Worksheet, drawing: Drawing, row: number, column: number) {
  for (const cell of drawing.cells) {
    const range = cellRange(sheet, cell, row, column);
    if (cell.format) range.numberFormat = [[cell.format]];
    if (!cell.look) continue;
    const paint = PAINT[cell.look];
    const { format } = range;
    if (paint.fill) format.fill.color = paint.fill;
    if (paint.ink) format.font.color = paint.ink;
    if (paint.bold) format.font.bold = true;
    if (paint.italic) format.font.italic = true;
    if (paint.size) format.font.size = paint.size;
    if (paint.align) format.horizontalAlignment = ALIGN[paint.align];
    if (paint.wrap) {
      format.wrapText = true;
      format.verticalAlignment = "Center";
    }
  }
  // Wrapped headings need their rows made taller; Excel does that by itself only for typed text.
  sheet.getRangeByIndexes(row, column, drawing.rows, drawing.columns).format.autofitRows();
}

/** A name of its own for each chart, to find it again. */
function newNames({ charts }: Drawing): string[] {
  return charts.map(() => `Mistwright ${crypto.randomUUID()}`);
}

function queueCharts(
  sheet: Excel.Worksheet,
  drawing: Drawing,
  row: number,
  column: number,
  names: string[],
) {
  const at = (area: Area) => {
    return sheet.getRangeByIndexes(row + area.row, column + area.column, area.rows, area.columns);
  };
  for (const [i, { kind, title, unit, labels, series, over }] of drawing.charts.entries()) {
    const chart = sheet.charts.add(CHART_TYPES[kind], at(series[0].values), "Columns");
    chart.name = names[i];
    chart.title.text = title;
    chart.legend.visible = series.length > 1;
    chart.legend.position = "Bottom";
    chart.axes.valueAxis.title.text = unit;
    series.forEach(({ name, values }, j) => {
      const drawn = j === 0 ? chart.series.getItemAt(0) : chart.series.add(name);
      if (j > 0) drawn.setValues(at(values));
      drawn.name = name;
      drawn.setXAxisValues(at(labels));
      if (kind === "lines") {
        drawn.format.line.color = CHART_COLORS[j];
      } else {
        drawn.hasDataLabels = true;
        drawn.format.fill.setSolidColor(CHART_COLORS[j]);
      }
    });
    chart.setPosition(at({ ...over, rows: 1, columns: 1 }), at(lastCell(over)));
  }
}

function lastCell({ row, column, rows, columns }: Area): Area {
  return { row: row + rows - 1, column: column + columns - 1, rows: 1, columns: 1 };
}

const CHART_TYPES = {
  columns: "ColumnClustered",
  bars: "BarClustered",
  lines: "XYScatterLines",
} as const;

const ALIGN = { left: "Left", center: "Center", right: "Right" } as const;

function cellRange(
  sheet: Excel.Worksheet,
  cell: DrawnCell,
  row: number,
  column: number,
): Excel.Range {
  return sheet.getRangeByIndexes(row + cell.row, column + cell.column, 1, 1);
}

function excelRule(
  { words, from, limits }: DrawnRule,
  sheet: Excel.Worksheet,
  row: number,
  column: number,
): Excel.DataValidationRule {
  if (from) {
    const source = sheet.getRangeByIndexes(
      row + from.row,
      column + from.column,
      from.rows,
      from.columns,
    );
    return { list: { inCellDropDown: true, source } };
  }
  if (words) return { list: { inCellDropDown: true, source: words.join(",") } };
  const [formula1, formula2] = limits ?? [0, 0];
  return { decimal: { formula1, formula2, operator: "Between" } };
}

function ruleText({ words, from, limits }: DrawnRule): string {
  if (from) return "Pick one from the list, or add a line of your own to it further down.";
  if (words) return `Pick one of: ${words.join(", ")}.`;
  const [low, high] = limits ?? [0, 0];
  return high === 1
    ? "Type a percent from 0 % to 100 %, such as 5 %."
    : `Type a number from ${low} to ${high}.`;
}

async function removeSheet(name: string) {
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItemOrNullObject(name);
    await context.sync();
    if (!sheet.isNullObject) sheet.delete();
    await context.sync();
  });
}

interface Before {
  paint: Excel.CellProperties[][];
  formats: unknown[][];
  widths: number[];
  charts: string[];
  /** Marks that were there already. */
  theirs: string[];
}

async function putBack(spot: Spot, drawing: Drawing, before: Before) {
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem(spot.sheet);
    const area = sheet.getRangeByIndexes(spot.row, spot.column, drawing.rows, drawing.columns);
    area.clear("Contents");
    if (drawing.rules.length > 0) area.dataValidation.clear();
    // Clearing takes the fill away; only the cells that had one are given it again.
    area.format.fill.clear();
    area.setCellProperties(before.paint.map((row) => row.map(withoutWhite)));
    area.numberFormat = before.formats as string[][];
    const marks = marksOn(area);
    const charts = before.charts.map((name) => sheet.charts.getItemOrNullObject(name));
    before.widths.forEach((width, i) => {
      sheet.getRangeByIndexes(spot.row, spot.column + i, 1, 1).format.columnWidth = width;
    });
    await context.sync();
    for (const chart of charts) if (!chart.isNullObject) chart.delete();
    for (const mark of marks.items) if (!before.theirs.includes(mark.id)) mark.delete();
    await context.sync();
  });
}

/** The marks on some cells; after the next sync, by their ids. */
function marksOn(area: Excel.Range): Excel.ConditionalFormatCollection {
  const marks = area.conditionalFormats;
  marks.load("items/id");
  return marks;
}

/** Excel tells no fill as white, so white is left out. */
function withoutWhite({ format }: Excel.CellProperties): Excel.SettableCellProperties {
  const { fill, ...rest } = format ?? {};
  return { format: fill?.color && fill.color !== "#FFFFFF" ? { fill, ...rest } : rest };
}

function refusal(error: unknown): Error {
  const reason = error instanceof Error ? error.message : String(error);
  return new Error(`Nothing was inserted: Excel refused it (${reason})`);
}
