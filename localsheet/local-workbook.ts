/** The pane's port on the local sheet's engine. */
import type { CellValue } from "../functions/bind/cell.ts";
import { cellName } from "../functions/formula/addresses.ts";
import { edgesOf, rangeIn } from "../functions/formula/references.ts";
import { CHART_COLORS, MARK_PAINT, PAINT } from "../taskpane/sheets/looks.ts";
import {
  type Area,
  type DrawnCell,
  type DrawnChart,
  type Drawing,
  type DrawnList,
  type DrawnMark,
  type DrawnRule,
  type PlacedDrawing,
  addressOf,
  placed,
} from "../taskpane/sheets/drawing.ts";
import type { RowsIn } from "../taskpane/sheets/lay.ts";
import type { Look } from "../taskpane/sheets/block.ts";
import { areUnits } from "../taskpane/sheets/pack-units.ts";
import { freeName, quoted } from "../functions/formula/sheet-names.ts";
import type {
  CellBlock,
  CellContent,
  NewSheet,
  Placed,
  Redrawn,
  Spot,
  Workbook,
  TypedCell,
} from "../taskpane/host/workbook.ts";
import { toExcelError } from "./custom-functions.ts";
import { type Model, type Command as EngineCommand, engine } from "./engine.ts";
import { toXlsx } from "./files.ts";
import { giveWorkbook } from "../taskpane/host/give.ts";
import { formulaCells } from "./formula-cells.ts";
import "./blank-picks.ts";
import "./blanks-last.ts";
import "./concat.ts";
import "./first-key.ts";
import "./frozen-paste.ts";
import "./growing.ts";
import "./text-paste.ts";
import { headingsHeight } from "./heading-lines.ts";
import { pageCommand } from "./pages.ts";
import "./list-ranges.ts";
import "./large-arrays.ts";
import "./lean-calls.ts";
import "./loud-errors.ts";
import "./sheet-names.ts";
import "./used-colors.ts";
import "./where-words.ts";
import "./within-grid.ts";

type Command = { type: string } & Record<string, unknown>;

/** One command that carries many, so that an insert is one step to undo. */
interface DrawCommand {
  type: "MISTWRIGHT_DRAW";
  commands: Command[];
}

/** What the engine answers to a step that would change nothing; that is no refusal. */
const HARMLESS = new Set<string>(["NoChanges", "ValuesNotChanged"]);

/** The refusals of the last drawing: the engine copies a command, so they cannot travel back in it. */
let refusals: string[] = [];

class DrawPlugin extends engine.UIPlugin {
  override allowDispatch(command: EngineCommand | DrawCommand) {
    const isRefused =
      command.type === "MISTWRIGHT_DRAW" &&
      command.commands.some(({ sheetId }) => this.getters.isSheetLocked(String(sheetId)));
    // The engine names its results by words, in an enum that only its own files can read.
    return (isRefused ? "SheetLocked" : "Success") as never;
  }

  override handle(command: EngineCommand | DrawCommand) {
    // Every command of the engine comes by here.
    if (command.type !== "MISTWRIGHT_DRAW") return;
    refusals = command.commands.flatMap((step) => {
      // The engine's types ask for the kind of a command where it is written down.
      const { reasons } = this.dispatch(step.type as never, step as never);
      return reasons
        .filter((reason) => !HARMLESS.has(reason))
        .map((reason) => `${step.type}: ${reason}`);
    });
  }
}

engine.registries.featurePluginRegistry.add("mistwright_draw", DrawPlugin);
// What is drawn on another sheet is no concern of a locked one that is shown.
engine.lockedSheetAllowedCommands.add("MISTWRIGHT_DRAW" as never);

export class LocalWorkbook implements Workbook {
  /**
   * @param drawn called when something was drawn or written, so that the person goes on at the sheet.
   * @param bytes the workbook as a file: as a new one, where nothing else is said.
   */
  constructor(
    private readonly model: Model,
    private readonly drawn: () => void = () => undefined,
    private readonly bytes = () => toXlsx(model),
  ) {}

  async selection(): Promise<Spot> {
    const { getters } = this.model;
    const { left, top } = getters.getSelectedZone();
    return { sheet: getters.getSheetName(getters.getActiveSheetId()), row: top, column: left };
  }

  async selectedBlock(): Promise<CellBlock> {
    const { sheet } = await this.selection();
    const { left, top, right, bottom } = this.model.getters.getSelectedZone();
    return { sheet, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
  }

  async format({ sheet, row, column }: Spot): Promise<string> {
    const position = { sheetId: this.idOf(sheet), row, col: column };
    return this.model.getters.getCell(position)?.format ?? "";
  }

  async firstFilled(spot: Spot, rows: number, columns: number): Promise<string | null> {
    const sheetId = this.idOf(spot.sheet);
    for (let row = spot.row; row < spot.row + rows; row++) {
      for (let column = spot.column; column < spot.column + columns; column++) {
        if (this.isFilled(sheetId, row, column)) return cellName(row, column);
      }
    }
    return null;
  }

  async drawOnNewSheet(
    title: string,
    drawing: Drawing,
    redrawn: readonly Redrawn[] = [],
  ): Promise<string> {
    const name = freeName(title, await this.sheetNames());
    await this.drawOnNewSheets([{ name, drawing }], redrawn);
    return name;
  }

  async drawOnNewSheets(
    sheets: readonly NewSheet[],
    redrawn: readonly Redrawn[] = [],
  ): Promise<void> {
    const { getters } = this.model;
    const first = getters.getSheetIds().length;
    const size = { rows: 100, columns: 26 };
    const made = sheets.map(({ name, drawing }, i) => {
      const sheetId = this.newId();
      const there = placed(drawing, 0, 0);
      const { rows, columns } = size;
      const create = {
        type: "CREATE_SHEET",
        sheetId,
        name,
        position: first + i,
        cols: columns,
        rows,
      };
      return { sheetId, name, there, create };
    });
    // All are there, as large as they will be, before anything is written that leads from one to another:
    // a column added later would move what leads past it.
    this.run([
      ...made.map(({ create }) => create),
      ...made.flatMap(({ sheetId, there }) => grow(sheetId, size, there)),
      ...this.anew(redrawn),
      ...made.flatMap(({ sheetId, there }) => [
        ...draw(sheetId, there, this.newId),
        pageCommand(sheetId, there.page ?? {}),
        ...freeze(sheetId, there, getters.getSheetViewDimension()),
        ...hide(sheetId, there),
      ]),
    ]);
    if (made[0]) await this.show(made[0].name);
    this.drawn();
  }

  async sheetNames(): Promise<string[]> {
    const { getters } = this.model;
    return getters.getSheetIds().map((id) => getters.getSheetName(id));
  }

  async extent(sheet: string): Promise<{ rows: number; columns: number }> {
    const sheetId = this.idOf(sheet);
    const { getters } = this.model;
    return { rows: getters.getNumberRows(sheetId), columns: getters.getNumberCols(sheetId) };
  }

  async read({ sheet, row, column }: Spot, rows: number, columns: number): Promise<CellValue[][]> {
    const sheetId = this.idOf(sheet);
    const { getters } = this.model;
    const last = { row: getters.getNumberRows(sheetId), column: getters.getNumberCols(sheetId) };
    return Array.from({ length: rows }, (_, i) =>
      Array.from({ length: columns }, (_, j) =>
        row + i < last.row && column + j < last.column
          ? this.valueAt({ sheetId, row: row + i, col: column + j })
          : null,
      ),
    );
  }

  async write(cells: readonly TypedCell[]): Promise<void> {
    const { getters } = this.model;
    // A sheet that is too short for what is written gets more rows and columns first.
    const room = [...new Set(cells.map(({ spot }) => spot.sheet))].flatMap((sheet) => {
      const sheetId = this.idOf(sheet);
      const spots = cells.filter(({ spot }) => spot.sheet === sheet).map(({ spot }) => spot);
      const rows = spots.reduce((most, { row }) => Math.max(most, row + 1), 0);
      const columns = spots.reduce((most, { column }) => Math.max(most, column + 1), 0);
      const size = {
        rows: getters.getNumberRows(sheetId),
        columns: getters.getNumberCols(sheetId),
      };
      return grow(sheetId, size, { row: 0, column: 0, rows, columns });
    });
    const typed = cells.map(({ spot, content, format }) => {
      const at = { sheetId: this.idOf(spot.sheet), row: spot.row, col: spot.column };
      const text = content === null ? "" : String(content);
      return { type: "UPDATE_CELL", ...at, content: text, ...(format !== undefined && { format }) };
    });
    this.run([...room, ...typed]);
    this.drawn();
  }

  async drawAt(spot: Spot, drawing: Drawing, redrawn: readonly Redrawn[] = []): Promise<void> {
    const { getters } = this.model;
    const sheetId = this.idOf(spot.sheet);
    const size = { rows: getters.getNumberRows(sheetId), columns: getters.getNumberCols(sheetId) };
    const widen = drawing.widths.map((width, i) => {
      const column = spot.column + i;
      const now = column < size.columns ? getters.getColSize(sheetId, column) : 0;
      return Math.max(width, now);
    });
    const there = { ...placed(drawing, spot.row, spot.column), widths: widen };
    this.run([
      ...grow(sheetId, size, there),
      ...this.anew(redrawn),
      ...draw(sheetId, there, this.newId),
    ]);
    this.drawn();
  }

  async show(sheet: string): Promise<void> {
    const sheetIdFrom = this.model.getters.getActiveSheetId();
    const sheetIdTo = this.idOf(sheet);
    if (sheetIdTo !== sheetIdFrom)
      this.model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo });
  }

  async redraw(redrawn: readonly Redrawn[]): Promise<void> {
    this.run(this.anew(redrawn));
  }

  async onChange(listener: () => void): Promise<void> {
    this.model.selection.observe(this, { handleEvent: listener });
    this.model.on("update", this, listener);
  }

  async content(spot: Spot): Promise<CellContent> {
    const position = { sheetId: this.idOf(spot.sheet), row: spot.row, col: spot.column };
    const { getters } = this.model;
    const first = getters.getArrayFormulaSpreadingOn(position) ?? position;
    const isFormula = getters.getCell(first)?.isFormula ?? false;
    const formula = isFormula ? getters.getCellText(first, { showFormula: true }) : null;
    const from = { sheet: spot.sheet, row: first.row, column: first.col };
    return { formula, value: this.valueAt(position), from };
  }

  async values(spot: Spot, expressions: string[]): Promise<(CellValue[][] | null)[]> {
    return expressions.map(
      (expression) => this.rangeValues(spot, expression) ?? this.worked(spot, expression),
    );
  }

  async formulas(): Promise<Placed[]> {
    return formulaCells(this.model).map(({ sheet, position, formula }) => {
      const spot = { sheet, row: position.row, column: position.col };
      return { spot, formula, value: this.valueAt(position) };
    });
  }

  async enter(formulas: readonly Placed[]): Promise<(string | null)[]> {
    const commands = formulas.map(({ spot, formula }) => {
      const { row, column } = spot;
      return {
        type: "UPDATE_CELL",
        sheetId: this.idOf(spot.sheet),
        row,
        col: column,
        content: formula,
      };
    });
    this.run(commands);
    return formulas.map(() => null);
  }

  file(): Promise<Uint8Array> {
    return this.bytes();
  }

  async give(bytes: Uint8Array, name: string): Promise<string> {
    giveWorkbook(bytes, name);
    return `The copy was downloaded as ${name}.`;
  }

  /** Sheets drawn on anew; all are as large as they will be before anything leads from one to another. */
  private anew(redrawn: readonly Redrawn[]): Command[] {
    const { getters } = this.model;
    const all = redrawn.map(({ sheet, rowsIn = [], drawing }) => {
      const sheetId = this.idOf(sheet);
      const more = rowsIn.reduce((sum, { count }) => sum + count, 0);
      const rows = getters.getNumberRows(sheetId) + more;
      const size = { rows, columns: getters.getNumberCols(sheetId) };
      const { lists = [], ...there } = placed(drawing, 0, 0);
      const known = lists.filter(({ row, column: col }) =>
        getters.getCoreTable({ sheetId, row, col }),
      );
      const added = lists.filter((list) => !known.includes(list));
      return { sheetId, size, rowsIn, there, added, known };
    });
    return [
      ...all.flatMap(({ sheetId, size, rowsIn, there }) => [
        ...putIn(sheetId, rowsIn),
        ...grow(sheetId, size, there),
      ]),
      ...all.flatMap(({ sheetId, there, added, known }) => [
        // First: the engine makes a table wider when something is written right beside it.
        ...added.map((list) => tableCommand(sheetId, list)),
        ...draw(sheetId, there, this.newId),
        ...hide(sheetId, there),
        ...(there.page ? [pageCommand(sheetId, there.page)] : []),
        ...known.flatMap((list) => this.stretched(sheetId, list)),
      ]),
    ];
  }

  /** The table of a list made as long and as wide as the list is drawn. */
  private stretched(sheetId: string, list: DrawnList): Command[] {
    const { getters } = this.model;
    const { top, left, bottom, right } = zoneOf(list);
    const table = getters.getCoreTable({ sheetId, row: top, col: left });
    if (!table) return [];
    const { zone } = table.range;
    const wanted = {
      ...zone,
      left: Math.min(zone.left, left),
      right: Math.max(zone.right, right),
      bottom: Math.max(zone.bottom, bottom),
    };
    const newTableRange = getters.getRangeDataFromZone(sheetId, wanted);
    return [{ type: "UPDATE_TABLE", sheetId, zone, newTableRange }];
  }

  private valueAt(position: { sheetId: string; row: number; col: number }): CellValue {
    const cell = this.model.getters.getEvaluatedCell(position);
    if (cell.type === "error") return { fault: toExcelError(cell.value), text: cell.message };
    return cell.value;
  }

  /** The cells of a range, blanks as blanks; undefined for anything else. */
  private rangeValues(spot: Spot, expression: string): CellValue[][] | undefined {
    const found = rangeIn(expression);
    if (!found) return undefined;
    const sheetId = this.model.getters.getSheetIdByName(found.sheetName || spot.sheet);
    if (!sheetId) return undefined;
    const { getters } = this.model;
    const { top, left, bottom, right } = edgesOf(found);
    const lastRow = Math.min(bottom, getters.getNumberRows(sheetId) - 1);
    const lastColumn = Math.min(right, getters.getNumberCols(sheetId) - 1);
    const rows: CellValue[][] = [];
    for (let row = top; row <= lastRow; row++) {
      const cells: CellValue[] = [];
      for (let col = left; col <= lastColumn; col++)
        cells.push(this.valueAt({ sheetId, row, col }));
      rows.push(cells);
    }
    return rows;
  }

  private worked({ sheet, row, column }: Spot, expression: string): CellValue[][] | null {
    const sheetId = this.idOf(sheet);
    const position = { sheetId, row, col: column };
    const result = this.model.getters.evaluateFormulaResult(sheetId, `=${expression}`, position);
    const columns = Array.isArray(result) ? result : [[result]];
    return (columns[0] ?? []).map((_, i) => columns.map((cells) => cellValue(cells[i])));
  }

  /** Not the browser's own, which a page without https lacks. */
  private readonly newId = () => this.model.uuidGenerator.uuidv4();

  private idOf(sheet: string): string {
    const id = this.model.getters.getSheetIdByName(sheet);
    if (!id) throw new Error(`there is no sheet "${sheet}"`);
    return id;
  }

  private isFilled(sheetId: string, row: number, column: number): boolean {
    const position = { sheetId, col: column, row };
    const { getters } = this.model;
    if (column >= getters.getNumberCols(sheetId) || row >= getters.getNumberRows(sheetId))
      return false;
    // A formula that shows nothing is filled too, and so is a cell that another one spills into.
    const isFormula = getters.getCell(position)?.isFormula ?? false;
    return isFormula || getters.getEvaluatedCell(position).type !== "empty";
  }

  /** Runs the steps as one; when one is refused, all are taken back. */
  private run(commands: Command[]): void {
    const command: DrawCommand = { type: "MISTWRIGHT_DRAW", commands };
    // The engine's types name its own commands alone.
    const { isSuccessful, reasons } = this.model.dispatch(command.type as never, command as never);
    if (!isSuccessful) throw new Error(`Nothing was inserted: ${wordsFor(reasons[0])}.`);
    if (refusals.length === 0) return;
    this.model.dispatch("REQUEST_UNDO");
    throw new Error(`Nothing was inserted: the sheet refused it (${refusals[0]}).`);
  }
}

const REASONS: Record<string, string> = {
  Readonly: "this tab only reads",
  SheetLocked: 'the sheet is locked against typing: right-click its tab, then "Unlock for typing"',
};

function wordsFor(reason = "no reason told"): string {
  return REASONS[reason] ?? `the sheet refused it (${reason})`;
}

interface EngineResult {
  value: string | number | boolean | null;
  message?: string;
}

function cellValue(result: EngineResult | undefined): CellValue {
  if (!result) return null;
  const { value, message } = result;
  const isError = typeof value === "string" && engine.registries.errorTypes.has(value);
  return isError ? { fault: toExcelError(value), text: message } : value;
}

/** Whole rows put in, those furthest down first: the others stay where they are told to be. */
function putIn(sheetId: string, rowsIn: readonly RowsIn[]): Command[] {
  const all = { type: "ADD_COLUMNS_ROWS", sheetId, sheetName: "", dimension: "ROW" };
  return [...rowsIn]
    .reverse()
    .map(({ row, count }) => ({ ...all, base: row, quantity: count, position: "before" }));
}

/** Rows and columns that the sheet lacks for the drawing. */
function grow(
  sheetId: string,
  size: { rows: number; columns: number },
  { row, column, rows, columns }: Area,
): Command[] {
  const needs = [
    { dimension: "ROW", has: size.rows, wants: row + rows },
    { dimension: "COL", has: size.columns, wants: column + columns },
  ];
  return needs
    .filter(({ has, wants }) => wants > has)
    .map(({ dimension, has, wants }) => {
      const quantity = wants - has;
      const type = "ADD_COLUMNS_ROWS";
      return {
        type,
        sheetId,
        sheetName: "",
        dimension,
        base: has - 1,
        quantity,
        position: "after",
      };
    });
}

function draw(sheetId: string, drawing: PlacedDrawing, newId: () => string): Command[] {
  return [
    ...drawing.cells.map((cell) =>
      cellCommand(sheetId, cell, cell.column < (drawing.frozen?.columns ?? 0)),
    ),
    ...drawing.widths.map((size, i) => {
      return {
        type: "RESIZE_COLUMNS_ROWS",
        sheetId,
        dimension: "COL",
        elements: [drawing.column + i],
        size,
      };
    }),
    ...wrappedCommands(sheetId, drawing),
    ...drawing.rules.map((rule) => ruleCommand(sheetId, rule, newId)),
    ...drawing.marks.map((mark) => markCommand(sheetId, mark, newId)),
    ...drawing.charts.map((chart) => chartCommand(sheetId, chart, drawing, newId)),
    // Last, as the engine makes a table longer when something is written right below it.
    ...(drawing.lists ?? []).map((list) => tableCommand(sheetId, list)),
  ];
}

/** Height of a row that nobody has changed, in the engine's pixels. */
const ROW_HEIGHT = 23;
/** That of headings that go over three lines. */
const HEADINGS = 3 * ROW_HEIGHT;

/** Headings and names stay in sight, where they leave at least half of the window to scroll in. */
function freeze(
  sheetId: string,
  { frozen, widths }: PlacedDrawing,
  view: { width: number; height: number },
): Command[] {
  const { rows = 0, columns = 0 } = frozen ?? {};
  // Before the page shows the grid there is no window to ask.
  const [wide, high] = [view.width || Infinity, view.height || Infinity];
  const across = widths.slice(0, columns).reduce((sum, width) => sum + width, 0);
  return [
    ...(rows > 0 && (rows - 1) * ROW_HEIGHT + HEADINGS <= high / 2
      ? [{ type: "FREEZE_ROWS", sheetId, quantity: rows }]
      : []),
    ...(columns > 0 && across <= wide / 2
      ? [{ type: "FREEZE_COLUMNS", sheetId, quantity: columns }]
      : []),
  ];
}

function hide(sheetId: string, { hidden = [] }: PlacedDrawing): Command[] {
  if (hidden.length === 0) return [];
  return [{ type: "HIDE_COLUMNS_ROWS", sheetId, dimension: "COL", elements: hidden }];
}

/**
 * Rows of headings and of sentences over lines, as tall as their lines are, beside the filters' buttons where there
 * are such: a file that is saved where no page has drawn them has these heights, too.
 */
function wrappedCommands(sheetId: string, drawing: PlacedDrawing): Command[] {
  const { cells, lists = [], hidden = [], widths } = drawing;
  const shown = cells.filter(
    ({ look, column, content }) =>
      look && PAINT[look].wrap && content !== null && !hidden.includes(column),
  );
  return [...new Set(shown.map(({ row }) => row))].flatMap((row) => {
    const isBeside = lists.some((list) => list.row === row);
    const texts = shown
      .filter((cell) => cell.row === row && !String(cell.content).startsWith("="))
      .map(({ column, content }) => {
        return { text: String(content), width: widths[column - drawing.column] ?? 0, isBeside };
      });
    const size = headingsHeight(texts);
    if (size <= ROW_HEIGHT + 2) return [];
    return [{ type: "RESIZE_COLUMNS_ROWS", sheetId, dimension: "ROW", elements: [row], size }];
  });
}

/** A list as a table of the engine's, which keeps its name with the rest of its looks; ours are the cells' own. */
function tableCommand(sheetId: string, list: DrawnList): Command {
  const config = {
    name: list.name,
    styleId: "None",
    numberOfHeaders: 1,
    hasFilters: true,
    totalRow: false,
    firstColumn: false,
    lastColumn: false,
    bandedRows: false,
    bandedColumns: false,
    automaticAutofill: true,
  };
  const ranges = [{ _sheetId: sheetId, _zone: zoneOf(list) }];
  return { type: "CREATE_TABLE", sheetId, tableType: "static", ranges, config };
}

function chartCommand(
  sheetId: string,
  chart: DrawnChart,
  { column, widths }: PlacedDrawing,
  newId: () => string,
): Command {
  const { over } = chart;
  const width = widths
    .slice(over.column - column, over.column - column + over.columns)
    .reduce((sum, each) => sum + each, 0);
  // Charts stay when their cells are emptied, so that no name may come twice.
  const id = newId();
  return {
    type: "CREATE_CHART",
    sheetId,
    chartId: `chart-${id}`,
    figureId: `figure-${id}`,
    row: over.row,
    col: over.column,
    offset: { x: 4, y: 4 },
    size: { width: width - 8, height: over.rows * ROW_HEIGHT - 8 },
    definition: {
      ...(chart.kind === "lines"
        ? { type: "line", labelsAsText: false, cumulative: false }
        : { type: "bar", horizontal: chart.kind === "bars" }),
      stacked: false,
      dataSource: {
        type: "range",
        dataSets: chart.series.map(({ values }, i) => {
          return { dataSetId: String(i), dataRange: addressOf(values) };
        }),
        dataSetsHaveTitle: false,
        labelRange: addressOf(chart.labels),
      },
      dataSetStyles: Object.fromEntries(
        chart.series.map(({ name: label }, i) => [i, { label, backgroundColor: CHART_COLORS[i] }]),
      ),
      title: { text: chart.title },
      legendPosition: chart.series.length > 1 ? "bottom" : "none",
      showValues: chart.kind !== "lines",
      axesDesign: { [chart.kind === "bars" ? "x" : "y"]: { title: { text: chart.unit } } },
    },
  };
}

/** What is written on the sheet itself, and runs on over the cells beside it. */
const RUNS_ON = new Set<Look | undefined>(["title", "section", "label", "note", "caution"]);

/** The engine cuts words off at the edge of columns that stay in sight: there they go over lines. */
function cellCommand(sheetId: string, cell: DrawnCell, staysInSight: boolean): Command {
  const paint = cell.look ? PAINT[cell.look] : {};
  const style = {
    ...(paint.bold && { bold: true }),
    ...(paint.italic && { italic: true }),
    ...(paint.fill && { fillColor: paint.fill }),
    ...(paint.ink && { textColor: paint.ink }),
    ...(paint.size && { fontSize: paint.size }),
    ...(paint.align && { align: paint.align }),
    ...(staysInSight && RUNS_ON.has(cell.look) && { wrapping: "wrap" }),
    ...((paint.wrap || cell.wraps) && { wrapping: "wrap", verticalAlign: "middle" }),
  };
  return {
    type: "UPDATE_CELL",
    sheetId,
    row: cell.row,
    col: cell.column,
    content: cell.content === null ? "" : String(cell.content),
    ...(cell.look && { style }),
    ...(cell.format && { format: cell.format }),
  };
}

function ruleCommand(sheetId: string, rule: DrawnRule, newId: () => string): Command {
  const zone = zoneOf(rule);
  return {
    type: "ADD_DATA_VALIDATION_RULE",
    sheetId,
    ranges: [{ _sheetId: sheetId, _zone: zone }],
    rule: {
      // Rules move with their cells, so that no name may come twice.
      id: `mistwright-${newId()}`,
      criterion: criterionOf(rule),
      // As in Excel, where a file of it is opened there; what is no unit at all is refused by the cell editor.
      isBlocking: !(rule.words && areUnits(rule.words)),
    },
  };
}

function criterionOf({ words, from, limits }: DrawnRule) {
  if (from) {
    const sheet = from.sheet === undefined ? "" : `${quoted(from.sheet)}!`;
    const values = [sheet + addressOf(from)];
    return { type: "isValueInRange", values, displayStyle: "arrow" };
  }
  if (words) return { type: "isValueInList", values: words, displayStyle: "arrow" };
  return { type: "isBetween", values: (limits ?? []).map(String) };
}

function markCommand(sheetId: string, mark: DrawnMark, newId: () => string): Command {
  const { fill, ink, bold, italic } = MARK_PAINT[mark.mark];
  const style = { fillColor: fill, textColor: ink, bold, italic };
  const rule = { type: "CellIsRule", operator: "beginsWithText", values: [mark.begins], style };
  return {
    type: "ADD_CONDITIONAL_FORMAT",
    sheetId,
    // Marks stay when their cells are emptied, so that no name may come twice.
    cf: { id: `mark-${newId()}`, rule },
    ranges: [{ _sheetId: sheetId, _zone: zoneOf(mark) }],
  };
}

function zoneOf({ row, column, rows, columns }: Area) {
  return { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
}
