/**
 * A small Excel for tests: sheets of cells behind office-addin-mock, which turns a property that is read
 * before it was loaded and synced into an error text. What is set on a range is queued, as in Excel, and
 * lands in the sheet when the batch is synced; a sync can be made to fail halfway, as in Excel too.
 */
import { parseA1Ref } from "@borgar/fx/xlsx";
import { OfficeMockObject } from "office-addin-mock";
import { areaOf } from "../../taskpane/sheets/template";

interface Cell {
  formula?: unknown;
  /** What it shows, where that is not what was put in; an error is a text that opens with #. */
  value?: unknown;
  /** The first cell of the answer that spills into it. */
  spilledFrom?: { row: number; column: number };
  fill?: string;
  format?: unknown;
}

/** A conditional format: the cells that it is over, and what was set on it. */
export interface FakeMark {
  id: string;
  over: string;
  rule?: unknown;
  fill?: string;
  ink?: string;
  bold?: boolean;
  italic?: boolean;
}

export interface FakeSheet {
  name: string;
  /** Refuses every change. */
  isProtected?: boolean;
  cells: Map<string, Cell>;
  rules: string[];
  widths: Map<number, number>;
  charts: Set<string>;
  marks: FakeMark[];
}

type Writers = Record<string, (value: never) => void>;

export class FakeExcel {
  sheets: FakeSheet[] = [newSheet("Sheet1")];
  active = { sheet: "Sheet1", row: 1, column: 1 };
  /** The sheet that was last shown. */
  activated = "";
  /** Fails the next sync that changes anything, after this many changes. */
  failAfter = Number.POSITIVE_INFINITY;
  /** What names give that are added, by their formula. */
  readonly evaluates = new Map<string, unknown[][]>();
  /** Names that are there now. */
  readonly names = new Set<string>();
  /** The columns of tables, by "table.column"; the table of a cell has no name. */
  readonly tableColumns = new Map<string, number>();
  /** Who waits for a change. */
  readonly listeners: (() => Promise<void>)[] = [];
  private queue: (() => void)[] = [];
  private mocks: OfficeMockObject[] = [];

  sheet(name: string): FakeSheet {
    return this.sheets.find((sheet) => sheet.name === name) ?? newSheet(name);
  }

  /** Stands for Excel.run. */
  run<T>(batch: (context: unknown) => Promise<T>): Promise<T> {
    this.mocks = [];
    const workbook = {
      getActiveCell: () =>
        this.mock({ rowIndex: this.active.row, columnIndex: this.active.column }),
      worksheets: this.worksheets(),
      onSelectionChanged: this.event(),
      names: { add: (name: string, formula: string) => this.name(name, formula) },
      tables: { getItem: (table: string) => this.table(table) },
    };
    return batch({ sync: () => this.sync(), workbook });
  }

  private async sync() {
    const changes = this.queue.splice(0);
    for (const mock of this.mocks) await mock.sync();
    for (const [i, change] of changes.entries()) {
      if (i === this.failAfter) {
        this.failAfter = Number.POSITIVE_INFINITY;
        throw new Error("the range is locked");
      }
      change();
    }
  }

  private event() {
    return { add: (listener: () => Promise<void>) => this.listeners.push(listener) };
  }

  private name(name: string, formula: string) {
    this.queue.push(() => this.names.add(name));
    const values = this.evaluates.get(formula);
    if (!values) throw new Error(`Excel cannot work out ${formula}`);
    const types = values.map((row) => row.map(typeOf));
    const isArray = values.length * values[0].length > 1;
    const arrayValues = this.mock({ values, types });
    const single = { value: values[0][0], type: isArray ? "Array" : types[0][0] };
    const gone = () => this.queue.push(() => this.names.delete(name));
    return this.mock(single, {}, { arrayValues, delete: gone });
  }

  private table(table: string) {
    return {
      columns: {
        getItem: (column: string) => ({
          getDataBodyRange: () =>
            this.mock({ columnIndex: this.tableColumns.get(`${table}.${column}`) }),
        }),
      },
    };
  }

  private worksheets() {
    const items = this.sheets.map(({ name }) => ({ ...this.worksheet(name), name }));
    return {
      load: () => undefined,
      items,
      onChanged: this.event(),
      getActiveWorksheet: () => this.mock({ name: this.active.sheet }),
      getItem: (name: string) => this.worksheet(name),
      getItemOrNullObject: (name: string) => {
        return { ...this.worksheet(name), isNullObject: !this.sheets.some((s) => s.name === name) };
      },
      add: (name: string) => {
        this.queue.push(() => this.sheets.push(newSheet(name)));
        return this.worksheet(name);
      },
    };
  }

  private worksheet(name: string) {
    return {
      activate: () => this.queue.push(() => (this.activated = name)),
      delete: () => {
        this.queue.push(() => (this.sheets = this.sheets.filter((sheet) => sheet.name !== name)));
      },
      charts: this.charts(name),
      getRange: (address: string) => {
        const found = parseA1Ref(address);
        if (!found || !("range" in found)) throw new Error(`${address} is no range`);
        const { top, left, bottom, right } = found.range;
        const last = { row: bottom ?? 1_048_575, column: right ?? 16_383 };
        const [row, column] = [top ?? 0, left ?? 0];
        return this.range(name, row, column, last.row - row + 1, last.column - column + 1);
      },
      getUsedRangeOrNullObject: () => this.used(name),
      getRangeByIndexes: (row: number, column: number, rows: number, columns: number) => {
        return this.range(name, row, column, rows, columns);
      },
    };
  }

  private used(name: string) {
    const places = [...this.sheet(name).cells.keys()].map((key) => key.split(",").map(Number));
    if (places.length === 0) return { isNullObject: true, load: () => undefined };
    const [rows, columns] = [places.map(([row]) => row), places.map(([, column]) => column)];
    const [top, left] = [Math.min(...rows), Math.min(...columns)];
    return this.range(
      name,
      top,
      left,
      Math.max(...rows) - top + 1,
      Math.max(...columns) - left + 1,
    );
  }

  private charts(name: string) {
    const queue = (what: (charts: Set<string>) => void) => {
      this.queue.push(() => what(this.sheet(name).charts));
    };
    const anything = {
      title: {},
      legend: {},
      axes: { valueAxis: { title: {} } },
      setPosition: () => queue(() => undefined),
    };
    const series = {
      format: { fill: { setSolidColor: () => undefined }, line: {} },
      setXAxisValues: () => undefined,
    };
    return {
      add: () => {
        queue((charts) => charts.add("unnamed"));
        const renamed = (chart: string) =>
          queue((charts) => {
            charts.delete("unnamed");
            charts.add(chart);
          });
        return writable(
          { name: renamed },
          { ...anything, series: { getItemAt: () => series, add: () => series } },
        );
      },
      getItemOrNullObject: (chart: string) => ({
        isNullObject: !this.sheet(name).charts.has(chart),
        delete: () => queue((charts) => charts.delete(chart)),
      }),
    };
  }

  private marks(name: string, over: string) {
    const queue = (what: (marks: FakeMark[]) => void) => {
      this.queue.push(() => what(this.sheet(name).marks));
    };
    const items = this.sheet(name).marks.map(({ id }) => ({
      id,
      delete: () =>
        queue((marks) => {
          const at = marks.findIndex((mark) => mark.id === id);
          marks.splice(at, 1);
        }),
    }));
    const found = this.mock(
      { items },
      {},
      {
        // The one navigational load in use.
        load: (properties: string) => {
          if (properties !== "items/id") throw new Error(`${properties} is not loaded by us`);
          Object.getPrototypeOf(found).load.call(found, "items");
          return true;
        },
        add: (type: string) => {
          if (type !== "ContainsText") throw new Error(`${type} has no text to compare`);
          const mark: FakeMark = { id: crypto.randomUUID(), over };
          const set = (property: keyof FakeMark) => (value: unknown) =>
            queue(() => Object.assign(mark, { [property]: value }));
          queue((marks) => marks.push(mark));
          const fill = writable({ color: set("fill") }, {});
          const font = writable(
            { color: set("ink"), bold: set("bold"), italic: set("italic") },
            {},
          );
          return { textComparison: writable({ rule: set("rule") }, { format: { fill, font } }) };
        },
      },
    );
    return found;
  }

  private range(name: string, row: number, column: number, rows: number, columns: number) {
    const now = this.sheet(name);
    // What is too large to be read is not made.
    const isHuge = rows * columns > 100_000;
    const grid = <T>(of: (key: string, i: number, j: number) => T) =>
      Array.from({ length: isHuge ? 0 : rows }, (_, i) =>
        Array.from({ length: columns }, (_, j) => of(`${row + i},${column + j}`, i, j)),
      );
    const change = (what: (cell: Cell, i: number, j: number) => void) => {
      this.queue.push(() => {
        const { cells } = this.sheet(name);
        grid((key, i, j) => {
          const cell = cells.get(key) ?? {};
          what(cell, i, j);
          cells.set(key, cell);
        });
      });
    };
    const queue = (what: (sheet: FakeSheet) => void) =>
      this.queue.push(() => what(this.sheet(name)));
    const address = areaOf({ rows, columns }, row, column);
    const contents = grid((key) => now.cells.get(key)?.formula ?? "");
    const values = grid((key) => now.cells.get(key)?.value ?? now.cells.get(key)?.formula ?? "");
    const parent = now.cells.get(`${row},${column}`)?.spilledFrom;
    const format = this.mock(
      { columnWidth: now.widths.get(column) ?? 48 },
      { columnWidth: (width) => queue((sheet) => sheet.widths.set(column, width)) },
      {
        autofitRows: () => queue(() => undefined),
        font: {},
        fill: writable(
          { color: (v) => change((cell) => (cell.fill = v)) },
          {
            clear: () => change((cell) => delete cell.fill),
          },
        ),
      },
    );
    const dataValidation = this.mock(
      { type: now.rules.length > 0 ? "Custom" : "None" },
      { rule: (rule) => queue((sheet) => sheet.rules.push(JSON.stringify(rule))) },
      { clear: () => queue((sheet) => (sheet.rules = [])) },
    );
    return this.mock(
      {
        formulas: contents,
        values,
        valueTypes: values.map((line) => line.map(typeOf)),
        numberFormat: grid((key) => now.cells.get(key)?.format ?? "General"),
        rowIndex: row,
        columnIndex: column,
        cellCount: isHuge ? -1 : rows * columns,
      },
      {
        formulas: (v: unknown[][]) => {
          change((cell, i, j) => {
            if (now.isProtected) throw new Error("the sheet is protected");
            cell.formula = v[i][j];
            delete cell.value;
          });
        },
        numberFormat: (v: unknown[][]) => change((cell, i, j) => (cell.format = v[i][j])),
      },
      {
        format,
        dataValidation,
        conditionalFormats: this.marks(name, address),
        // A rule that refers to cells is kept with their address.
        toJSON: () => address,
        isNullObject: false,
        getSpillParentOrNullObject: () =>
          parent
            ? this.range(name, parent.row, parent.column, 1, 1)
            : { isNullObject: true, load: () => undefined },
        getUsedRangeOrNullObject: () => this.used(name),
        getTables: () => ({ getFirst: () => this.table("") }),
        load: (properties: string) => {
          // The one navigational load in use; everything else is the mock's own.
          if (properties === "format/columnWidth") format.load("columnWidth");
          else return undefined;
          return true;
        },
        clear: (what: string) => {
          if (what !== "Contents") throw new Error(`clear(${what}) takes more than the contents`);
          change((cell) => delete cell.formula);
        },
        getCellProperties: () => ({
          // Excel tells no fill as white.
          value: grid((key) => ({
            format: { fill: { color: now.cells.get(key)?.fill ?? "#FFFFFF" } },
          })),
        }),
        setCellProperties: (v: { format: { fill?: { color: string } } }[][]) => {
          change((cell, i, j) => {
            const color = v[i][j].format.fill?.color;
            if (color) cell.fill = color;
          });
        },
      },
    );
  }

  /** Readable values behind office-addin-mock, writers for what is set, and further members. */
  private mock(values: object, writers: Writers = {}, members: Record<string, unknown> = {}) {
    const mock = new OfficeMockObject(values as never, "excel" as never);
    this.mocks.push(mock);
    return writable(writers, members, mock) as OfficeMockObject;
  }
}

function typeOf(value: unknown): string {
  if (value === "") return "Empty";
  if (typeof value === "string") return value.startsWith("#") ? "Error" : "String";
  return typeof value === "number" ? "Double" : "Boolean";
}

function newSheet(name: string): FakeSheet {
  return { name, cells: new Map(), rules: [], widths: new Map(), charts: new Set(), marks: [] };
}

/** An object whose set properties go to writers, and whose methods act on the object behind it. */
function writable(writers: Writers, members: Record<string, unknown>, behind: object = {}): object {
  return new Proxy(behind, {
    get(target, name) {
      const member = members[String(name)];
      const own = (target as Record<string, unknown>)[String(name)];
      if (name === "load" && typeof member === "function") {
        return (properties: string) =>
          member(properties) ?? (own as (p: string) => unknown).call(target, properties);
      }
      if (member !== undefined) return member;
      return typeof own === "function" ? own.bind(target) : own;
    },
    set(_, name, value) {
      writers[String(name)]?.(value as never);
      return true;
    },
  });
}
