/**
 * Lists that grow. The engine makes a table longer when something is typed or pasted right below it, or a row is
 * inserted within; this gives the new lines what the lines around them have: formulas, looks, formats, rules and
 * marks. It belongs to the same step of undo. Nothing that was typed or pasted is written over.
 */
import { type Command, type Model, engine } from "./engine.ts";

interface Zone {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

type Getters = Model["getters"];
type EngineTable = ReturnType<Getters["getCoreTables"]>[number];
type Added = Extract<Command, { type: "ADD_COLUMNS_ROWS" }>;
type Cell = NonNullable<ReturnType<Getters["getCell"]>>;

/** So many lines around a new one say which columns have formulas; one typed over is no reason to stop. */
const LOOKED_AT = 20;

/** Rows that stay free below a list, so that there is always somewhere to go on. */
const SPARE_ROWS = 50;

class GrowingPlugin extends engine.UIPlugin {
  /** Commands that are under way, one within the other. */
  private depth = 0;
  /** The last rows of tables before the step, by sheet and table. */
  private readonly ends = new Map<string, number>();
  /** Rows that the step inserted, where they are now. */
  private inserted: { sheetId: string; rows: Zone }[] = [];

  override beforeHandle(command: Command) {
    if (this.depth++ > 0) return;
    this.inserted = [];
    this.ends.clear();
    if (isHistory(command)) return;
    for (const [sheetId, table] of this.tables())
      this.ends.set(keyOf(sheetId, table), table.range.zone.bottom);
  }

  override handle(command: Command) {
    if (command.type === "ADD_COLUMNS_ROWS" && command.dimension === "ROW") this.move(command);
    // What is given to new lines is part of the step, and makes no more of them.
    if (this.depth === 1 && !isHistory(command))
      for (const [sheetId, table] of [...this.tables()]) this.grow(sheetId, table);
    this.depth--;
  }

  override finalize() {
    // A step that failed half-way leaves none behind it.
    this.depth = 0;
  }

  private *tables(): Generator<[string, EngineTable]> {
    for (const sheetId of this.getters.getSheetIds())
      for (const table of this.getters.getCoreTables(sheetId))
        if (table.type !== "dynamic" && !table.config.totalRow) yield [sheetId, table];
  }

  /** Remembers rows that are put in, and that the ends of tables below them move. */
  private move({ sheetId, base, quantity, position }: Added) {
    const top = position === "before" ? base : base + 1;
    const rows = { top, bottom: top + quantity - 1, left: 0, right: 0 };
    this.inserted.push({ sheetId, rows });
    for (const table of this.getters.getCoreTables(sheetId)) {
      const end = this.ends.get(keyOf(sheetId, table));
      if (end !== undefined && end >= top) this.ends.set(keyOf(sheetId, table), end + quantity);
      // Right after the last line is still in the list, where a person inserts them.
      else if (end === base && position === "after" && this.depth === 1)
        this.resize(sheetId, table, end + quantity);
    }
  }

  private resize(sheetId: string, { range: { zone } }: EngineTable, bottom: number) {
    const newTableRange = this.getters.getRangeDataFromZone(sheetId, { ...zone, bottom });
    this.dispatch("UPDATE_TABLE", { sheetId, zone, newTableRange });
  }

  private grow(sheetId: string, table: EngineTable) {
    const { zone } = table.range;
    const first = zone.top + table.config.numberOfHeaders;
    const end = this.ends.get(keyOf(sheetId, table));
    if (end === undefined) {
      this.makeReady(sheetId, zone);
      return;
    }
    // Most steps make no list longer: a long one must not be gone through for each.
    if (zone.bottom <= end && !this.inserted.some((put) => put.sheetId === sheetId)) return;
    const isNew = (row: number) =>
      row > end || this.inserted.some((put) => put.sheetId === sheetId && isWithin(row, put.rows));
    const rows = numbers(first, zone.bottom);
    const known = rows.filter((row) => !isNew(row));
    const added = rows.filter(isNew);
    if (added.length === 0 || known.length === 0) return;
    for (const run of runsOf(added)) {
      this.fill(sheetId, { ...zone, ...run }, known);
      this.extendRules(sheetId, { ...zone, ...run }, closest(known, run.top));
    }
    this.makeReady(sheetId, zone);
  }

  /** Gives new lines what their neighbours have. */
  private fill(sheetId: string, { top, bottom, left, right }: Zone, known: readonly number[]) {
    for (const row of numbers(top, bottom)) {
      const near = nearest(known, row);
      for (const col of numbers(left, right)) {
        const to = { sheetId, col, row };
        const model = this.getters.getCell({ sheetId, col, row: closest(known, row) });
        const cell = this.getters.getCell(to);
        const content = isFilled(cell) ? undefined : this.formulaFor(to, near);
        this.dispatch("UPDATE_CELL", {
          ...to,
          ...(content !== undefined && { content }),
          ...(model?.style && !cell?.style && { style: model.style }),
          ...(model?.format && { format: model.format }),
        });
      }
    }
  }

  /** The formula of a column, where most of the lines nearby have one. */
  private formulaFor(
    { sheetId, col, row }: EngineCell,
    near: readonly number[],
  ): string | undefined {
    const cells = near.map((at) => ({ at, cell: this.getters.getCell({ sheetId, col, row: at }) }));
    const filled = cells.filter(({ cell }) => isFilled(cell));
    const formulas = cells.flatMap(({ at, cell }) =>
      cell?.isFormula ? [{ at, formula: cell.compiledFormula }] : [],
    );
    const [first] = formulas;
    if (!first || formulas.length * 2 < filled.length) return undefined;
    return this.getters.getTranslatedCellFormula(sheetId, 0, row - first.at, first.formula);
  }

  /** Rules on what may be typed, and marks, over new lines as over the line beside them. */
  private extendRules(sheetId: string, { left, right, ...rows }: Zone, beside: number) {
    for (const col of numbers(left, right)) {
      const range = this.getters.getRangeFromZone(sheetId, { ...rows, left: col, right: col });
      const rule = this.getters.getValidationRuleForCell({ sheetId, col, row: beside });
      if (rule) {
        const ranges = this.getters
          .recomputeRanges([...rule.ranges, range], [])
          .map((each) => this.getters.getRangeData(each));
        this.dispatch("ADD_DATA_VALIDATION_RULE", { sheetId, rule, ranges });
      }
      for (const cf of this.getters.getRulesByCell(sheetId, col, beside)) {
        const ranges = this.getters.getAdaptedCfRanges(sheetId, cf, [range.zone], []);
        if (ranges) this.dispatch("ADD_CONDITIONAL_FORMAT", { sheetId, cf, ranges });
      }
    }
  }

  /** The row below a list has its formats and rules, so that what is typed there is read as in the list. */
  private makeReady(sheetId: string, zone: Zone) {
    const rows = this.getters.getNumberRows(sheetId);
    const wanted = zone.bottom + 1 + SPARE_ROWS;
    if (wanted > rows)
      this.dispatch("ADD_COLUMNS_ROWS", {
        sheetId,
        sheetName: this.getters.getSheetName(sheetId),
        dimension: "ROW",
        base: rows - 1,
        quantity: wanted - rows,
        position: "after",
      });
    const next = zone.bottom + 1;
    for (const col of numbers(zone.left, zone.right)) {
      const format = this.getters.getCell({ sheetId, col, row: zone.bottom })?.format;
      const isFree = !this.getters.getCell({ sheetId, col, row: next });
      if (format && isFree) this.dispatch("UPDATE_CELL", { sheetId, col, row: next, format });
    }
    this.extendRules(sheetId, { ...zone, top: next, bottom: next }, zone.bottom);
  }
}

interface EngineCell {
  sheetId: string;
  col: number;
  row: number;
}

/** The name of a list, which its table has among its looks, as the engine's tables have no names. */
export function nameOf(config: object): string | undefined {
  return "name" in config && typeof config.name === "string" ? config.name : undefined;
}

/** Undo and redo bring back what they had; there is nothing new in it. */
function isHistory({ type }: { type: string }): boolean {
  return /^(REQUEST_)?(UNDO|REDO)$/.test(type);
}

function isFilled(cell: Cell | undefined): boolean {
  return cell !== undefined && (cell.isFormula || cell.content !== "");
}

function keyOf(sheetId: string, { id }: { id: string }): string {
  return `${sheetId} ${id}`;
}

function numbers(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);
}

function isWithin(row: number, { top, bottom }: Zone): boolean {
  return row >= top && row <= bottom;
}

/** The line before a row, or the first one after it. */
function closest(rows: readonly number[], to: number): number {
  return rows.findLast((row) => row < to) ?? rows[0] ?? to;
}

/** The lines around a row, the nearest first, and of two the one above. */
function nearest(rows: readonly number[], to: number): number[] {
  const after = rows.findIndex((row) => row > to);
  const middle = after < 0 ? rows.length : after;
  return rows
    .slice(Math.max(0, middle - LOOKED_AT), middle + LOOKED_AT)
    .sort((a, b) => Math.abs(a - to) - Math.abs(b - to) || a - b)
    .slice(0, LOOKED_AT);
}

/** Rows that follow each other, as runs. */
function runsOf(rows: readonly number[]): { top: number; bottom: number }[] {
  const runs: { top: number; bottom: number }[] = [];
  for (const row of rows) {
    const last = runs.at(-1);
    if (last?.bottom === row - 1) last.bottom = row;
    else runs.push({ top: row, bottom: row });
  }
  return runs;
}

engine.registries.featurePluginRegistry.add("mistwright_growing", GrowingPlugin);
