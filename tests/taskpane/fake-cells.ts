/** The cells of the small Excel: ranges, and several ranges taken together. */
import { type Edit, shiftFormula, shiftIndex, shiftRange } from "../../functions/files/shift";
import { type Area, addressOf } from "../../taskpane/sheets/drawing";
import {
  type Cell,
  type FakeExcel,
  type FakeMark,
  Refusal,
  type Thing,
  nothing,
  settable,
} from "./fake-excel";

/** What is too large to be read is not made. */
const HUGE = 100_000;

/** Pixels and points do not matter here: a column is so wide until it is set. */
const WIDTH = 48;

export function rangesOf(excel: FakeExcel) {
  const grid = <T>(area: Area, of: (key: string, i: number, j: number) => T): T[][] => {
    const isHuge = area.rows * area.columns > HUGE;
    return Array.from({ length: isHuge ? 0 : area.rows }, (_, i) =>
      Array.from({ length: area.columns }, (__, j) =>
        of(`${area.row + i},${area.column + j}`, i, j),
      ),
    );
  };

  function change(name: string, area: Area, what: (cell: Cell, i: number, j: number) => void) {
    const { cells, isProtected } = excel.sheet(name);
    if (isProtected) throw new Refusal("the sheet is protected");
    grid(area, (key, i, j) => {
      const cell = cells.get(key) ?? {};
      what(cell, i, j);
      cells.set(key, cell);
    });
  }

  /** Puts whole rows in above a row, or takes them out; tables and formulas follow. */
  function moveRows(name: string, at: number, by: number): Thing {
    const sheet = excel.sheet(name);
    if (sheet.isProtected) throw new Refusal("the sheet is protected");
    const remove = Array.from({ length: Math.max(0, -by) }, (_, i) => at + i);
    const edit: Edit = {
      sheet: name,
      dimension: "row",
      ...(by > 0 ? { at, add: by } : { remove }),
    };
    const moved = [...sheet.cells].flatMap(([key, cell]) => {
      const [row, column] = key.split(",").map(Number);
      const now = shiftIndex(row, edit);
      return now === null ? [] : [[`${now},${column}`, cell] as const];
    });
    sheet.cells.clear();
    for (const [key, cell] of moved) sheet.cells.set(key, cell);
    for (const table of sheet.tables) table.over = shiftRange(table.over, edit) ?? table.over;
    for (const { name: own, cells } of excel.sheets)
      for (const cell of cells.values()) {
        const { formula } = cell;
        if (typeof formula === "string" && formula.startsWith("="))
          cell.formula = shiftFormula(formula, own, edit);
      }
    return {};
  }

  /** The cells that anything was done to, or those alone that hold something. */
  function used(name: string, valuesOnly = false): Thing | null {
    const { cells } = excel.sheet(name);
    const places = [...cells]
      .filter(([, { formula = "", value = "" }]) => !valuesOnly || formula !== "" || value !== "")
      .map(([key]) => key.split(",").map(Number));
    if (places.length === 0) return null;
    const ends = places.reduce(
      ([top, left, bottom, right], [row, column]) => [
        ...[Math.min(top, row), Math.min(left, column)],
        ...[Math.max(bottom, row), Math.max(right, column)],
      ],
      [Infinity, Infinity, 0, 0],
    );
    const [row, column, bottom, right] = ends;
    const size = { rows: bottom - row + 1, columns: right - column + 1 };
    return range(name, { row, column, ...size });
  }

  /** Paint over some rectangles; only the fill is kept. */
  function format(name: string, areas: Area[]): Thing {
    const each = (what: (cell: Cell) => void) => areas.forEach((area) => change(name, area, what));
    const paint = {
      fill: settable(
        { clear: () => each((cell) => delete cell.fill) },
        { color: (value) => each((cell) => (cell.fill = String(value))) },
      ),
      font: settable({}),
      autofitRows: nothing,
    };
    return settable(paint, {
      columnWidth: (value) => {
        const { widths } = excel.sheet(name);
        for (const { column, columns } of areas) {
          for (let i = 0; i < columns; i++) widths.set(column + i, Number(value));
        }
      },
    });
  }

  function dataValidation(name: string, areas: Area[]): Thing {
    const over = areas.map(addressOf).join(",");
    const sheet = excel.sheet(name);
    return settable(
      {
        type: sheet.rules.length > 0 ? "Custom" : "None",
        clear: () => void (sheet.rules = []),
      },
      {
        rule: (rule) => void sheet.rules.push({ over, rule: JSON.stringify(rule) }),
        errorAlert: nothing,
      },
    );
  }

  function marks(name: string, areas: Area[]): Thing {
    const sheet = excel.sheet(name);
    return {
      items: sheet.marks.map((mark) => ({
        id: mark.id,
        delete: () => void sheet.marks.splice(sheet.marks.indexOf(mark), 1),
      })),
      getItem: (id: string) => ({
        delete: () => {
          sheet.marks = sheet.marks.filter((mark) => mark.id !== id);
        },
      }),
      add: (type: string) => {
        if (type !== "ContainsText") throw new Error(`${type} has no text to compare`);
        const mark: FakeMark = { id: crypto.randomUUID(), over: areas.map(addressOf).join(",") };
        sheet.marks.push(mark);
        const set = (property: string) => (value: unknown) => void (mark[property] = value);
        const font = { color: set("ink"), bold: set("bold"), italic: set("italic") };
        const parts = {
          fill: settable({}, { color: set("fill") }),
          font: settable({}, font),
        };
        return { textComparison: settable({ format: parts }, { rule: set("rule") }) };
      },
    };
  }

  function range(name: string, area: Area): Thing {
    const sheet = excel.sheet(name);
    const { row, column, rows, columns } = area;
    const isHuge = rows * columns > HUGE;
    const valueAt = (key: string) =>
      sheet.cells.get(key)?.value ?? sheet.cells.get(key)?.formula ?? "";
    const parent = () => sheet.cells.get(`${row},${column}`)?.spilledFrom;
    const found: Thing = {
      _keepReference: nothing,
      _validateArraySize: nothing,
      ...{ rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns },
      cellCount: isHuge ? -1 : rows * columns,
      get values() {
        return grid(area, valueAt);
      },
      get valueTypes() {
        // A formula that shows nothing is no empty cell.
        return grid(area, (key) =>
          sheet.cells.get(key)?.formula && valueAt(key) === "" ? "String" : typeOf(valueAt(key)),
        );
      },
      get formulas() {
        return grid(area, (key) => sheet.cells.get(key)?.formula ?? "");
      },
      set formulas(lines: unknown[][]) {
        change(name, area, (cell, i, j) => {
          // null leaves a cell as it is.
          if (lines[i][j] === null) return;
          cell.formula = lines[i][j];
          delete cell.value;
        });
      },
      get numberFormat() {
        return grid(area, (key) => sheet.cells.get(key)?.format ?? "General");
      },
      set numberFormat(lines: unknown) {
        change(name, area, (cell, i, j) => {
          // One alone is that of all cells.
          const format = Array.isArray(lines) ? (lines as unknown[][])[i]?.[j] : lines;
          if (format !== null) cell.format = format;
        });
      },
      get columnHidden() {
        return sheet.widths.get(column) === 0;
      },
      // Excel hides a column as one that has no width.
      set columnHidden(isHidden: boolean) {
        if (isHidden) sheet.widths.set(column, 0);
      },
      format: format(name, [area]),
      dataValidation: dataValidation(name, [area]),
      conditionalFormats: marks(name, [area]),
      // The client sends an array of more than 1,500 cells by blocks of rows.
      getRow: (i: number) => range(name, { row: row + i, column, rows: 1, columns }),
      getBoundingRect: (other: Thing) => {
        const last = Number(other.rowIndex) + Number(other.rowCount);
        return range(name, { row, column, rows: last - row, columns });
      },
      // A rule that refers to cells is kept with their address.
      toJSON: () => addressOf(area),
      getSpillParentOrNullObject: () => {
        const from = parent();
        return from ? range(name, { ...from, rows: 1, columns: 1 }) : null;
      },
      getSpillingToRange: () => {
        const isOurs = (cell: Cell) => {
          return cell.spilledFrom?.row === row && cell.spilledFrom.column === column;
        };
        const last = [...sheet.cells]
          .filter(([, cell]) => isOurs(cell))
          .map(([key]) => key.split(",").map(Number));
        if (last.length === 0) throw new Refusal("nothing spills from there", "ItemNotFound");
        const bottom = Math.max(...last.map(([at]) => at));
        const right = Math.max(...last.map(([, at]) => at));
        return range(name, { row, column, rows: bottom - row + 1, columns: right - column + 1 });
      },
      getUsedRangeOrNullObject: () => used(name),
      getEntireRow: () => ({
        insert: () => moveRows(name, row, rows),
        delete: () => moveRows(name, row, -rows),
      }),
      getEntireColumn: () => range(name, { row: 0, column, rows: 1_048_576, columns }),
      getTables: () => ({ getFirst: () => excel.table("") }),
      clear: (what: string) => {
        if (what !== "Contents") throw new Error(`clear(${what}) takes more than the contents`);
        change(name, area, (cell) => delete cell.formula);
      },
      // Excel tells no fill as white.
      getCellProperties: () =>
        grid(area, (key) => ({
          format: { fill: { color: sheet.cells.get(key)?.fill ?? "#FFFFFF" } },
        })),
      setCellProperties: (lines: { format: { fill?: { color: string } } }[][]) => {
        change(name, area, (cell, i, j) => {
          const color = lines[i][j].format.fill?.color;
          if (color) cell.fill = color;
        });
      },
      getColumnProperties: () =>
        Array.from({ length: columns }, (_, i) => ({
          format: { columnWidth: sheet.widths.get(column + i) ?? WIDTH },
        })),
      setColumnProperties: (lines: { format?: { columnWidth: number } }[]) => {
        if (lines.length !== columns) throw new Refusal("one for each column", "InvalidArgument");
        lines.forEach(({ format: set }, i) => {
          if (set) sheet.widths.set(column + i, set.columnWidth);
        });
      },
    };
    return found;
  }

  function together(name: string, areas: Area[]): Thing {
    return {
      _keepReference: nothing,
      format: format(name, areas),
      dataValidation: dataValidation(name, areas),
      conditionalFormats: marks(name, areas),
      toJSON: () => areas.map(addressOf).join(","),
    };
  }

  return { range, together, used };
}

export function typeOf(value: unknown): string {
  if (value === "") return "Empty";
  if (typeof value === "string") return value.startsWith("#") ? "Error" : "String";
  return typeof value === "number" ? "Double" : "Boolean";
}
