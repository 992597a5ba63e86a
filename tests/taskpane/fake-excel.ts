/**
 * A small Excel for tests: sheets of cells behind Microsoft's own client, which sends its real requests here.
 *
 * A request is a list of orders, done one by one; where one is refused, those before it stay done and those
 * after it are not looked at, as in Excel. Every order is kept, to be counted and read.
 */
import { edgesOf, rangeIn } from "../../functions/formula/references";
import { vi } from "vitest";
import { type Area, addressOf } from "../../taskpane/sheets/drawing";
import { rangesOf, typeOf } from "./fake-cells";
import { paperOf, tablesOf } from "./fake-sheet";
import { type Execute, officeClient } from "./office-client";

export interface Cell {
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
  [property: string]: unknown;
}

export interface FakeSheet {
  name: string;
  /** Refuses every change. */
  isProtected?: boolean;
  cells: Map<string, Cell>;
  rules: { over: string; rule: string }[];
  widths: Map<number, number>;
  charts: Set<string>;
  /** How the numbers at the bars of its charts are written. */
  labels: unknown[];
  marks: FakeMark[];
  tables: FakeTable[];
  /** What was set on its page, by name, and what stays in sight. */
  page: Record<string, unknown>;
  frozen?: string;
}

/** A table of a sheet, and what was set on it. */
export interface FakeTable {
  id: string;
  over: string;
  [property: string]: unknown;
}

export interface FakeName {
  /** The sheet whose own it is; the workbook's, where none is said. */
  sheet?: string;
  name: string;
  formula: string;
  visible: boolean;
}

/** One order of a request. */
export interface Order {
  /** What the client says it is: an object asked for, a load, a call, a property set. */
  kind: "object" | "load" | "call" | "set";
  name: string;
  args: unknown[];
}

/** The numbers that the client has for what it asks. */
const KINDS: Record<number, Order["kind"]> = { 1: "object", 2: "load", 3: "call", 4: "set" };

const TRACE = 5;

interface Path {
  ObjectPathType: number;
  Name: string;
  ParentObjectPathId?: number;
  ArgumentInfo?: { Arguments?: unknown[]; ReferencedObjectPathIds?: number[] };
}

interface Action {
  Id: number;
  ActionType: number;
  Name: string;
  ObjectPathId: number;
  ArgumentInfo?: Path["ArgumentInfo"];
  QueryInfo?: { Select?: string[] };
}

/** Anything that orders can reach: its properties are read, set and called by their names. */
export type Thing = Record<string, unknown>;

/** Rows of a sheet. */
const ROWS = 1_048_576;

export class Refusal extends Error {
  constructor(
    message: string,
    readonly code = "AccessDenied",
  ) {
    super(message);
  }
}

/** Calls that only look. */
const LOOKS = /^(get|_|suspend)/;

export class FakeExcel {
  sheets: FakeSheet[] = [newSheet("Sheet1")];
  active = { sheet: "Sheet1", row: 1, column: 1 };
  /** The sheet that was last shown. */
  activated = "";
  /** Fails once, after this many changes of a run. */
  failAfter = Number.POSITIVE_INFINITY;
  /** Refuses an order, with a text. */
  refuses: (order: Order) => string | Refusal | undefined = () => undefined;
  /** Refuses changes in one step of undo, as Excel does for many. */
  refusesUndo = false;
  readonly names: FakeName[] = [];
  /** Where the columns of tables stand, by "table.column"; the table of a cell has no name. */
  readonly tables = new Map<string, Area & { sheet?: string }>();
  /** Each request, order by order. */
  readonly requests: Order[][] = [];
  /** What each run was asked for. */
  readonly runs: { mergeUndoGroup?: boolean }[] = [];
  /** Workbooks that were opened. */
  readonly opened: string[] = [];
  private readonly references = new Map<string, Thing>();
  private isOneStep = false;
  private changes = 0;

  /** What the workbook holds, without cells that were touched and emptied again. */
  contents() {
    return this.sheets.map(({ name, cells, rules, widths, charts, marks }) => ({
      name,
      rules,
      marks,
      widths: [...widths],
      charts: [...charts],
      cells: [...cells].filter(
        ([, { formula, fill }]) => formula !== undefined || fill !== undefined,
      ),
    }));
  }

  /** Puts it behind Microsoft's client, in place of Excel. */
  install(version = "1.18"): void {
    const client = officeClient();
    client.answer(this.execute);
    const minor = (set: string) => Number(set.split(".")[1]);
    const isSetSupported = (_: string, asked = "1.1") => minor(asked) <= minor(version);
    client.setContext({ requirements: { isSetSupported } });
    const run = async (first: unknown, second?: unknown) => {
      const options = (second ? first : {}) as { mergeUndoGroup?: boolean };
      this.runs.push(options);
      this.changes = 0;
      this.isOneStep = options.mergeUndoGroup === true;
      return client.Excel.run((second ?? first) as never);
    };
    const createWorkbook = client.Excel.createWorkbook;
    vi.stubGlobal("Excel", { run, createWorkbook });
    vi.stubGlobal("OfficeExtension", client.OfficeExtension);
    vi.stubGlobal("Office", { context: { requirements: { isSetSupported } } });
  }

  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name === name);
    if (!found) throw new Refusal(`there is no sheet ${name}`, "ItemNotFound");
    return found;
  }

  /** All orders so far. */
  get orders(): Order[] {
    return this.requests.flat();
  }

  /** Orders that change the workbook. */
  get changesAsked(): Order[] {
    return this.orders.filter(isChange);
  }

  private readonly execute: Execute = (body) => {
    const { Actions, ObjectPaths } = JSON.parse(body) as {
      Actions: Action[];
      ObjectPaths: Record<number, Path>;
    };
    const done: Order[] = [];
    this.requests.push(done);
    const reach = this.reacher(ObjectPaths);
    const results: { ActionId: number; Value: unknown }[] = [];
    for (const [i, action] of Actions.entries()) {
      try {
        results.push({ ActionId: action.Id, Value: this.act(action, reach, done) ?? null });
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        const { code: Code, message: Message } = error;
        return JSON.stringify({ Results: results, Error: { Code, Message, ActionIndex: i } });
      }
    }
    return JSON.stringify({ Results: results });
  };

  /** Finds what a path leads to, once a request. */
  private reacher(paths: Record<number, Path>) {
    const found = new Map<number, Thing | null>();
    const reach = (id: number): Thing | null => {
      if (!found.has(id)) found.set(id, this.follow(paths[id], reach));
      return found.get(id) as Thing | null;
    };
    return reach;
  }

  private follow(path: Path, reach: (id: number) => Thing | null): Thing | null {
    const { ObjectPathType: type, Name, ParentObjectPathId } = path;
    if (type === 1) return this.workbook();
    if (type === 6) return this.references.get(Name) ?? null;
    const parent = reach(ParentObjectPathId ?? 0);
    if (parent === null) return null;
    if (type === 4) return member(parent, Name) as Thing;
    const name = type === 5 ? "getItem" : Name;
    return call(parent, name, argumentsOf(path.ArgumentInfo, reach)) as Thing | null;
  }

  private act(action: Action, reach: (id: number) => Thing | null, done: Order[]): unknown {
    // A remark of the client's own.
    if (action.ActionType === TRACE) return undefined;
    const args = argumentsOf(action.ArgumentInfo, reach);
    const order: Order = {
      kind: KINDS[action.ActionType],
      name: camel(action.Name),
      args: action.QueryInfo?.Select ?? args,
    };
    done.push(order);
    const refused = this.refuses(order);
    if (refused !== undefined) throw refused instanceof Refusal ? refused : new Refusal(refused);
    if (isChange(order)) this.change();
    const thing = reach(action.ObjectPathId);
    if (order.kind === "object") return this.instance(thing);
    // What is not there may be looked at, and is told not to be there.
    if (thing === null && (order.kind === "load" || order.name.startsWith("_"))) return null;
    if (thing === null) throw new Refusal(`there is nothing to ${order.name}`, "ItemNotFound");
    if (order.kind === "load") return { ...this.instance(thing), ...loadedOf(thing, order.args) };
    if (order.kind === "call") return call(thing, action.Name, args);
    if (!setterOf(thing, order.name)) throw new Error(`${order.name} cannot be set`);
    thing[order.name] = args[0];
    return undefined;
  }

  /** Excel gives what it may be asked about again a reference of its own. */
  private instance(thing: Thing | null): object | null {
    if (thing === null) return null;
    if (!("_keepReference" in thing)) return {};
    const reference = `ref-${this.references.size}`;
    this.references.set(reference, thing);
    return { _ReferenceId: reference };
  }

  private change() {
    if (this.isOneStep && this.refusesUndo)
      throw new Refusal("this cannot be undone in one step", "UndoNotSupported");
    if (this.changes++ < this.failAfter) return;
    this.failAfter = Number.POSITIVE_INFINITY;
    throw new Refusal("the range is locked");
  }

  private workbook(): Thing {
    const workbook: Thing = {
      application: {
        suspendApiCalculationUntilNextSync: nothing,
        createWorkbook: (bytes: string) => ({ open: () => void this.opened.push(bytes) }),
      },
      createAndOpenWorkbook: (bytes: string) => void this.opened.push(bytes),
      worksheets: this.worksheets(),
      names: this.namedItems(),
      tables: this.tablesOf(this.sheets),
      getActiveCell: () =>
        this.ranges.range(this.active.sheet, { ...this.active, rows: 1, columns: 1 }),
    };
    return workbook;
  }

  private readonly ranges = rangesOf(this);

  private tablesOf(sheets: FakeSheet[]): Thing {
    return tablesOf(
      sheets,
      (table) => this.table(table),
      ({ name }, address) => this.ranges.range(name, areaNamed(address)),
    );
  }

  private worksheets(): Thing {
    return {
      items: this.sheets.map(({ name }) => this.worksheet(name)),
      _registerDataChangedEvent: nothing,
      getActiveWorksheet: () => this.worksheet(this.active.sheet),
      getItem: (name: string) => this.worksheet(this.sheet(name).name),
      getItemOrNullObject: (name: string) =>
        this.sheets.some((sheet) => sheet.name === name) ? this.worksheet(name) : null,
      add: (name: string) => {
        this.sheets.push(newSheet(name));
        return this.worksheet(name);
      },
    };
  }

  private worksheet(name: string): Thing {
    const range = (over: Area) => {
      if (over.row + over.rows > ROWS) throw new Refusal("there is no such row", "InvalidArgument");
      return this.ranges.range(name, over);
    };
    const area = (row: number, column: number, rows: number, columns: number) =>
      range({ row, column, rows, columns });
    return {
      id: name,
      name,
      names: this.namedItems(name),
      activate: () => void (this.activated = name),
      delete: () => void (this.sheets = this.sheets.filter((sheet) => sheet.name !== name)),
      charts: this.charts(name),
      tables: this.tablesOf([this.sheet(name)]),
      ...paperOf(this.sheet(name)),
      getRange: (address: string) => range(areaNamed(address)),
      getRanges: (addresses: string) =>
        this.ranges.together(name, addresses.split(",").map(areaNamed)),
      getUsedRangeOrNullObject: (valuesOnly = false) => this.ranges.used(name, valuesOnly),
      getRangeByIndexes: area,
    };
  }

  private namedItems(sheet?: string): Thing {
    const names = this.names.filter((name) => name.sheet === sheet);
    const item = (name: FakeName): Thing => ({
      ...{ name: name.name, formula: name.formula, visible: name.visible },
      delete: () => void this.names.splice(this.names.indexOf(name), 1),
    });
    return {
      items: names.map(item),
      getItem: (asked: string) => item(names.find(({ name }) => name === asked) as FakeName),
      getItemOrNullObject: (asked: string) => {
        const found = names.find(({ name }) => name === asked);
        return found ? item(found) : null;
      },
    };
  }

  /** A table, as far as its columns go. */
  table(table: string): Thing {
    return {
      columns: {
        getItem: (column: string) => ({
          getDataBodyRange: () => {
            const found = this.tables.get(`${table}.${column}`);
            if (!found) throw new Refusal(`there is no column ${column}`, "ItemNotFound");
            return this.ranges.range(found.sheet ?? "Sheet1", found);
          },
        }),
      },
    };
  }

  private charts(name: string): Thing {
    const anything = () => settable({});
    const { charts, labels } = this.sheet(name);
    const chart = (id: string): Thing => ({ id, delete: () => void charts.delete(id) });
    return {
      items: [...charts].map(chart),
      getItem: chart,
      add: () => {
        charts.add(crypto.randomUUID());
        const series = () =>
          settable({
            dataLabels: settable({}, { numberFormat: (format) => void labels.push(format) }),
            setValues: nothing,
            setXAxisValues: nothing,
            format: { fill: { setSolidColor: nothing }, line: anything() },
          });
        return settable({
          title: anything(),
          legend: anything(),
          axes: { valueAxis: { title: anything() } },
          setPosition: nothing,
          series: { getItemAt: series, add: series },
        });
      },
    };
  }
}

export const nothing = () => undefined;

/** A thing whose properties may all be set; some are looked at. */
export function settable(thing: Thing, seen: Record<string, (value: unknown) => void> = {}): Thing {
  return new Proxy(thing, {
    set: (target, name, value: unknown) => {
      const see = seen[String(name)];
      if (see) see(value);
      else target[String(name)] = value;
      return true;
    },
    has: (target, name) => name === "anySet" || name in target,
  });
}

function setterOf(thing: Thing, name: string): boolean {
  if ("anySet" in thing) return true;
  return Object.getOwnPropertyDescriptor(thing, name)?.set !== undefined;
}

export function isChange({ kind, name }: Order): boolean {
  return kind === "set" || (kind === "call" && !LOOKS.test(name));
}

function camel(name: string): string {
  return name.startsWith("_")
    ? `_${name[1].toLowerCase()}${name.slice(2)}`
    : name.charAt(0).toLowerCase() + name.slice(1);
}

function member(thing: Thing, name: string): unknown {
  const value = thing[camel(name)];
  if (value === undefined) throw new Error(`the small Excel has no ${name}`);
  return value;
}

function call(thing: Thing, name: string, args: unknown[]): unknown {
  if (/^_(Keep|Release)Reference/.test(name)) return null;
  return (member(thing, name) as (...all: unknown[]) => unknown).apply(thing, args);
}

/** Arguments, with the things that stand among them and in them. */
function argumentsOf(info: Path["ArgumentInfo"], reach: (id: number) => Thing | null): unknown[] {
  const ids = info?.ReferencedObjectPathIds ?? [];
  const within = (value: unknown): unknown => {
    if (Array.isArray(value) || typeof value !== "object" || value === null) return value;
    const { _ObjectPathId: id, ...rest } = value as { _ObjectPathId?: number };
    if (id !== undefined) return reach(id);
    return Object.fromEntries(Object.entries(rest).map(([name, part]) => [name, within(part)]));
  };
  return (info?.Arguments ?? []).map((value, i) =>
    typeof ids[i] === "number" && ids[i] ? reach(ids[i]) : within(value),
  );
}

/** The properties that were asked for; of a list, those of its items. */
function loadedOf(thing: Thing, asked: unknown[]): object {
  if (Array.isArray(thing.items)) {
    const items = thing.items as Thing[];
    return {
      _Items: items.map((item) => ({ Id: item.id ?? item.name, ...loadedOf(item, asked) })),
    };
  }
  return Object.fromEntries(
    asked.map(String).map((name) => {
      return [name.charAt(0).toUpperCase() + name.slice(1), member(thing, name)];
    }),
  );
}

export function newSheet(name: string): FakeSheet {
  return {
    ...{
      name,
      cells: new Map(),
      rules: [],
      widths: new Map(),
      charts: new Set(),
      labels: [],
      marks: [],
    },
    ...{ tables: [], page: {} },
  };
}

function areaNamed(address: string): Area {
  const found = rangeIn(address);
  if (!found) throw new Refusal(`${address} is no range`, "InvalidArgument");
  const { top, left, bottom, right } = edgesOf(found);
  return { row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}

export { addressOf, typeOf };
