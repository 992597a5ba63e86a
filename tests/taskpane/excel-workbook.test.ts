import { OfficeMockObject } from "office-addin-mock";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/excel-workbook";
import { insertFormula, insertTemplate } from "../../taskpane/insert";
import { type Drawing, drawingOf } from "../../taskpane/template";
import { templates } from "../../taskpane/templates/index";

/**
 * A small Excel: sheets of cells behind office-addin-mock, which fails a property that is read before it
 * was loaded and synced. What is set on a range lands in the sheet when the batch is synced.
 */
type Mock = OfficeMockObject & Record<string, never>;

interface Sheet {
  name: string;
  cells: Map<string, { formula?: unknown; fill?: string; format?: unknown }>;
  rules: string[];
  widths: Map<number, number>;
}

class FakeExcel {
  sheets: Sheet[] = [{ name: "Sheet1", cells: new Map(), rules: [], widths: new Map() }];
  active = { sheet: "Sheet1", row: 1, column: 1 };
  activated = "";
  /** Fails the sync that would send the n-th written cell. */
  failAfterCells = Number.POSITIVE_INFINITY;
  private queue: (() => void)[] = [];

  install() {
    vi.stubGlobal("Excel", { run: (_: unknown, batch?: unknown) => this.run((batch ?? _) as never) });
    vi.stubGlobal("Office", { context: { requirements: { isSetSupported: () => true } } });
  }

  sheet(name: string): Sheet {
    return this.sheets.find((sheet) => sheet.name === name) as Sheet;
  }

  private async run<T>(batch: (context: unknown) => Promise<T>): Promise<T> {
    const mocks: Mock[] = [];
    const made = (mock: Mock) => (mocks.push(mock), mock);
    const context = {
      sync: async () => {
        const queued = this.queue.splice(0);
        for (const mock of mocks) await mock.sync();
        let written = 0;
        for (const change of queued) {
          if (written++ === this.failAfterCells) {
            this.failAfterCells = Number.POSITIVE_INFINITY;
            throw new Error("the range is locked");
          }
          change();
        }
      },
      workbook: {
        getActiveCell: () => {
          const { sheet, row, column } = this.active;
          return made(mocked({ rowIndex: row, columnIndex: column, worksheet: { name: sheet } }));
        },
        worksheets: this.worksheets(made),
      },
    };
    return batch(context);
  }

  private worksheets(made: (mock: Mock) => Mock) {
    const excel = this;
    return {
      items: [] as { name: string }[],
      load() {
        this.items = excel.sheets.map(({ name }) => ({ name }));
      },
      getItem: (name: string) => this.worksheet(name, made),
      getItemOrNullObject: (name: string) => {
        const isNullObject = !excel.sheet(name);
        return Object.assign(isNullObject ? {} : this.worksheet(name, made), { isNullObject });
      },
      add: (name: string) => {
        this.queue.push(() => this.sheets.push({ name, cells: new Map(), rules: [], widths: new Map() }));
        return this.worksheet(name, made);
      },
    };
  }

  private worksheet(name: string, made: (mock: Mock) => Mock) {
    return {
      activate: () => this.queue.push(() => (this.activated = name)),
      delete: () => this.queue.push(() => (this.sheets = this.sheets.filter((sheet) => sheet.name !== name))),
      getRangeByIndexes: (...place: [number, number, number, number]) => this.range(name, place, made),
    };
  }

  private range(name: string, [row, column, rows, columns]: [number, number, number, number], made: (m: Mock) => Mock) {
    const sheet = this.sheet(name) ?? { cells: new Map(), widths: new Map() };
    const cellAt = (i: number, j: number) => sheet.cells.get(`${row + i},${column + j}`);
    const grid = <T>(of: (i: number, j: number) => T) =>
      Array.from({ length: rows }, (_, i) => Array.from({ length: columns }, (_, j) => of(i, j)));
    const letters = String.fromCharCode(65 + column);
    const range = mocked({
      formulas: grid((i, j) => cellAt(i, j)?.formula ?? ""),
      values: grid((i, j) => cellAt(i, j)?.formula ?? ""),
      numberFormat: grid((i, j) => cellAt(i, j)?.format ?? "General"),
      address: `'${name}'!${letters}${row + 1}`,
      dataValidation: { type: this.sheet(name)?.rules.length ? "Custom" : "None" },
      format: { columnWidth: sheet.widths.get(column) ?? 48, fill: {}, font: {} },
    });
    const change = (what: (cell: Record<string, unknown>, i: number, j: number) => void) =>
      this.queue.push(() =>
        grid((i, j) => {
          const key = `${row + i},${column + j}`;
          const cells = this.sheet(name).cells;
          if (!cells.has(key)) cells.set(key, {});
          what(cells.get(key) as Record<string, unknown>, i, j);
        }),
      );
    const onSet = (target: object, property: string, set: (value: never) => void) => {
      const initial = target[property as never];
      let loaded: unknown = initial;
      Object.defineProperty(target, property, {
        configurable: true,
        get: () => loaded,
        set: (value) => (this.isMockError(value) || this.isLoad(value, initial, target) ? (loaded = value) : set(value as never)),
      });
    };
    onSet(range, "formulas", (v: unknown[][]) => change((cell, i, j) => (cell.formula = v[i][j])));
    onSet(range, "numberFormat", (v: unknown[][]) => change((cell, i, j) => (cell.format = v[i][j])));
    const parts = range as unknown as Record<"dataValidation" | "format", Record<string, object>>;
    onSet(parts.dataValidation, "rule", (v) => this.queue.push(() => this.sheet(name).rules.push(JSON.stringify(v))));
    onSet(parts.format.fill, "color", (v) => change((cell) => (cell.fill = v)));
    onSet(parts.format, "columnWidth", (v) => this.queue.push(() => this.sheet(name).widths.set(column, v)));
    Object.assign(parts.format.fill, { clear: () => change((cell) => delete cell.fill) });
    Object.assign(parts.dataValidation, { clear: () => this.queue.push(() => (this.sheet(name).rules = [])) });
    Object.assign(range, {
      clear: (what: string) => {
        expect(what).toBe("Contents");
        change((cell) => delete cell.formula);
      },
      getCellProperties: () => ({
        value: grid((i, j) => ({ format: { fill: { color: cellAt(i, j)?.fill ?? "#FFFFFF" } } })),
      }),
      setCellProperties: (v: { format: { fill?: { color: string } } }[][]) =>
        change((cell, i, j) => {
          const color = v[i][j].format.fill?.color;
          if (color) cell.fill = color;
        }),
    });
    return made(range);
  }

  /** The mock itself writes its errors and, after load and sync, the value into the property. */
  private isMockError(value: unknown) {
    return typeof value === "string" && value.startsWith("Error, ");
  }

  private isLoad(value: unknown, initial: unknown, target: object) {
    return initial !== undefined && (target as { _properties?: Map<string, { _value: unknown }> })._properties
      ? [...((target as { _properties: Map<string, { _value: unknown }> })._properties.values())].some((p) => p._value === value)
      : false;
  }
}

function mocked(data: object): Mock {
  return new OfficeMockObject(data as never, "excel" as never) as Mock;
}

const [baseComparison] = templates;
let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
});

/** What the workbook holds, without cells that were touched and emptied again. */
function contents() {
  return excel.sheets.map(({ name, cells, rules, widths }) => ({
    name,
    rules,
    widths: [...widths],
    cells: [...cells].filter(([, { formula, fill }]) => formula !== undefined || fill !== undefined),
  }));
}

describe("on Excel", () => {
  test("the selection is read only after it was loaded and synced", async () => {
    expect(await new ExcelWorkbook().selection()).toEqual({ sheet: "Sheet1", row: 1, column: 1 });
  });

  test("a template goes on a new sheet, with its rules, widths and paint, and the sheet is shown", async () => {
    const told = await insertTemplate(new ExcelWorkbook(), baseComparison, { where: "new sheet", filled: true });
    expect(told).toBe('Base comparison is on the new sheet "Base comparison".');
    const sheet = excel.sheet("Base comparison");
    expect(sheet.cells.get("7,8")).toMatchObject({ formula: "=MIST.FLOZCOST(C8,D8,E8,F8,G8,H8)", format: "0.000" });
    expect(sheet.cells.get("7,2")).toMatchObject({ formula: 46, fill: "#FFF4D6" });
    expect(sheet.rules).toHaveLength(drawingOf(baseComparison, true).rules.length);
    expect(sheet.widths.get(0)).toBeCloseTo(138 * 0.75);
    expect(excel.activated).toBe("Base comparison");
  });

  test("a list of words keeps to the 255 characters that Excel takes", () => {
    for (const { rules } of templates.map((template) => drawingOf(template, true))) {
      for (const { words } of rules) expect((words ?? []).join(",").length).toBeLessThanOrEqual(255);
    }
  });

  test("at the selection the formulas move along", async () => {
    await insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
    expect(excel.sheet("Sheet1").cells.get("8,9")?.formula).toBe("=MIST.FLOZCOST(D9,E9,F9,G9,H9,I9)");
  });

  test("a filled cell is named, and nothing is sent", async () => {
    excel.sheet("Sheet1").cells.set("4,3", { formula: "mine" });
    const before = contents();
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
    await expect(insert).rejects.toThrow("Nothing was inserted: Base comparison needs B2:O17 empty, and D5 is filled.");
    expect(contents()).toEqual(before);
  });

  test("a rule on what may be typed is in the way too", async () => {
    excel.sheet("Sheet1").rules.push("theirs");
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
    await expect(insert).rejects.toThrow("already have a rule");
    expect(excel.sheet("Sheet1").rules).toEqual(["theirs"]);
  });

  test.each([0, 1, 40, 150])("refused after %i steps, a new sheet is removed again", async (steps) => {
    const before = contents();
    excel.failAfterCells = steps;
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, { where: "new sheet", filled: true });
    await expect(insert).rejects.toThrow("Nothing was inserted: Excel refused it (the range is locked)");
    expect(contents()).toEqual(before);
  });

  test.each([0, 1, 40, 150, 200])("refused after %i steps at a selection, text, rules, fills and widths are put back", async (steps) => {
    const { cells, widths } = excel.sheet("Sheet1");
    cells.set("2,2", { fill: "#ABCDEF", format: "0.0" });
    cells.set("40,2", { formula: "mine" });
    for (let column = 1; column < 15; column++) widths.set(column, 50);
    const before = structuredClone(contents());
    excel.failAfterCells = steps;
    const insert = insertTemplate(new ExcelWorkbook(), baseComparison, { where: "selection", filled: true });
    await expect(insert).rejects.toThrow("Excel refused it");
    expect(contents()).toEqual(before);
  });

  test("a formula goes into the selected cell", async () => {
    await insertFormula(new ExcelWorkbook(), "=MIST.OILFOR(60, 5%)", { rows: 1, columns: 1 });
    expect(excel.sheet("Sheet1").cells.get("1,1")?.formula).toBe("=MIST.OILFOR(60, 5%)");
  });

  test("columns that are wider already stay so", async () => {
    excel.sheet("Sheet1").widths.set(1, 400);
    const drawing: Drawing = { rows: 1, columns: 1, cells: [], rules: [], widths: [100] };
    await new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 0, column: 1 }, drawing);
    expect(excel.sheet("Sheet1").widths.get(1)).toBe(400);
  });
});
