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
import { quoted } from "../taskpane/sheets/names.ts";
import { freeName } from "../functions/formula/sheet-names.ts";
import type {
  Block,
  CellContent,
  NewSheet,
  Placed,
  Spot,
  Workbook,
  Written,
} from "../taskpane/host/workbook.ts";
import { toExcelError } from "./custom-functions.ts";
import { download } from "./download.ts";
import { type Model, type Command as EngineCommand, engine } from "./engine.ts";
import { toXlsx } from "./files.ts";
import { formulaCells } from "./formula-cells.ts";
import "./frozen-paste.ts";
import "./growing.ts";
import { headingsHeight } from "./heading-lines.ts";
import { pageCommand } from "./pages.ts";
import "./list-ranges.ts";
import "./loud-errors.ts";
import "./used-colors.ts";

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

  async selectedBlock(): Promise<Block> {
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

  async drawOnNewSheet(title: string, drawing: Drawing): Promise<string> {
    const name = freeName(title, await this.sheetNames());
    await this.drawOnNewSheets([{ name, drawing }]);
    return name;
  }

  async drawOnNewSheets(sheets: readonly NewSheet[]): Promise<void> {
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
      ...made.flatMap(({ sheetId, there }) => [
        ...draw(sheetId, there, this.newId),
        pageCommand(sheetId, there.page ?? {}),
        ...freeze(sheetId, there, getters.getSheetViewDimension()),
        ...hide(sheetId, there),
      ]),
    ]);
    const shown = made[0];
    if (shown) {
      const sheetIdFrom = getters.getActiveSheetId();
      this.model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo: shown.sheetId });
    }
    this.drawn();
  }

  async sheetNames(): Promise<string[]> {
    const { getters } = this.model;
    return getters.getSheetIds().map((id) => getters.getSheetName(id));
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

  async write(cells: readonly Written[]): Promise<void> {
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

  async drawAt(spot: Spot, drawing: Drawing): Promise<void> {
    const { getters } = this.model;
    const sheetId = this.idOf(spot.sheet);
    const size = { rows: getters.getNumberRows(sheetId), columns: getters.getNumberCols(sheetId) };
    const widen = drawing.widths.map((width, i) => {
      const column = spot.column + i;
      const now = column < size.columns ? getters.getColSize(sheetId, column) : 0;
      return Math.max(width, now);
    });
    const there = { ...placed(drawing, spot.row, spot.column), widths: widen };
    this.run([...grow(sheetId, size, there), ...draw(sheetId, there, this.newId)]);
    this.drawn();
  }

  async redraw(sheet: string, drawing: Drawing): Promise<void> {
    this.run(draw(this.idOf(sheet), placed(drawing, 0, 0), this.newId));
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
    download(bytes, name);
    return `The copy was downloaded as ${name}.`;
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

function wordsFor(reason: string | undefined): string {
  return reason === "Readonly"
    ? "this tab only reads"
    : `the sheet refused it (${reason ?? "no reason told"})`;
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
    ...drawing.cells.map((cell) => cellCommand(sheetId, cell)),
    ...drawing.widths.map((size, i) => {
      return {
        type: "RESIZE_COLUMNS_ROWS",
        sheetId,
        dimension: "COL",
        elements: [drawing.column + i],
        size,
      };
    }),
    ...(drawing.lists ?? []).map((list) => headingsCommand(sheetId, list, drawing)),
    ...drawing.rules.map((rule, i) => ruleCommand(sheetId, rule, i)),
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

/** The row of a list's headings, as tall as their lines beside the filters' buttons. */
function headingsCommand(sheetId: string, list: DrawnList, drawing: PlacedDrawing): Command {
  const headings = drawing.cells
    .filter(({ row, column }) => row === list.row && column < list.column + list.columns)
    .filter(({ column }) => !drawing.hidden?.includes(column))
    .map(({ column, content }) => {
      return { text: String(content ?? ""), width: drawing.widths[column - drawing.column] ?? 0 };
    });
  const size = headingsHeight(headings);
  return { type: "RESIZE_COLUMNS_ROWS", sheetId, dimension: "ROW", elements: [list.row], size };
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

function cellCommand(sheetId: string, cell: DrawnCell): Command {
  const paint = cell.look ? PAINT[cell.look] : {};
  const style = {
    ...(paint.bold && { bold: true }),
    ...(paint.italic && { italic: true }),
    ...(paint.fill && { fillColor: paint.fill }),
    ...(paint.ink && { textColor: paint.ink }),
    ...(paint.size && { fontSize: paint.size }),
    ...(paint.align && { align: paint.align }),
    ...(paint.wrap && { wrapping: "wrap", verticalAlign: "middle" }),
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

function ruleCommand(sheetId: string, rule: DrawnRule, index: number): Command {
  const zone = zoneOf(rule);
  return {
    type: "ADD_DATA_VALIDATION_RULE",
    sheetId,
    ranges: [{ _sheetId: sheetId, _zone: zone }],
    rule: {
      id: `mistwright-${sheetId}-${zone.top}-${zone.left}-${index}`,
      criterion: criterionOf(rule),
      isBlocking: true,
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
