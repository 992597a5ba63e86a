/**
 * The engine's answer to Excel's CustomFunctions object, so that functions/bind serves both.
 *
 * The engine hands ranges over by columns, Office.js by rows: this is where they are turned.
 */
import { withoutSpareEnds } from "../functions/bind/arguments.ts";
import { CellError, type FunctionsHost, type HostCell } from "../functions/bind/host.ts";
import { catalog } from "../functions/catalog/catalog.ts";
import { NAMESPACE } from "../functions/catalog/entry.ts";
import { KINDS } from "../functions/catalog/kinds.ts";
import { engine } from "./engine.ts";

interface EngineCell {
  value: unknown;
  message?: string;
}

const ERRORS = engine.registries.errorTypes;
// Excel's name for a wrong value; the engine has one of its own and would show ours as a text.
ERRORS.add("#VALUE!");

export const functionsHost: FunctionsHost<CellError> = {
  Error: CellError,
  associate(id, run) {
    const entry = catalog.find((candidate) => candidate.id === id);
    if (!entry) throw new Error(`${id} is not in the catalog`);
    const isByLine = !entry.returns.range && !entry.params.some(({ range }) => range);
    engine.addFunction(`${NAMESPACE}.${id}`, {
      description: entry.summary,
      category: "Mistwright",
      isExported: true,
      args: entry.params.map((param) => ({
        name: param.name,
        description: `${param.text} (${KINDS[param.kind]})`,
        // A range of one cell costs the engine more than the cell.
        type: param.range ? ["ANY", "RANGE<ANY>"] : ["ANY"],
        acceptMatrix: true,
        acceptErrors: true,
        optional: param.optional,
      })),
      compute: (...args) =>
        isByLine && areColumns(args) ? inColumn(run, args) : toEngine(run(...args.map(toRows))),
    });
  },
};

/** The engine's own errors, and what Excel calls them. */
const IN_EXCEL: Record<string, string> = {
  "#ERROR": "#VALUE!",
  "#BAD_EXPR": "#NAME?",
  "#CYCLE": "#REF!",
  "#REF": "#REF!",
};

export function toExcelError(code: string): string {
  return IN_EXCEL[code] ?? code;
}

type Argument = EngineCell | EngineCell[][] | undefined;

/** Whether single columns are among the arguments, and nothing wider. */
function areColumns(args: readonly Argument[]): boolean {
  const ranges = args.filter(Array.isArray);
  return ranges.length > 0 && ranges.every(({ length }) => length === 1);
}

type Run = Parameters<typeof functionsHost.associate>[1];

/**
 * What gives a cell for each line gives the same cells where the lines lie side by side: so nothing is made for a line
 * of ten thousand but its answer.
 */
function inColumn(run: Run, args: readonly Argument[]) {
  const columns = withoutSpareEnds(args.map(toColumn));
  const answers = run(...columns.map((column) => (Array.isArray(column) ? [column] : column)));
  const [cells = []] = answers;
  return cells.length === 1 ? toEngineCell(cells[0]) : [cells.map(toEngineCell)];
}

function toColumn(argument: Argument): unknown {
  return Array.isArray(argument) ? argument[0]?.map(toExcelValue) : toExcelValue(argument);
}

function toRows(argument: Argument): unknown {
  if (!Array.isArray(argument)) return toExcelValue(argument);
  const rows: unknown[][] = [];
  // One for all rows: columns are long.
  const cellOf = (column: EngineCell[]) => toExcelValue(column[rows.length]);
  const height = argument[0]?.length ?? 0;
  while (rows.length < height) rows.push(argument.map(cellOf));
  return rows;
}

/** As Excel hands a cell over: a bare value, or an object for an error. */
function toExcelValue(cell: EngineCell | undefined): unknown {
  const value = cell?.value ?? null;
  if (typeof value !== "string" || !ERRORS.has(value)) return value;
  return { type: "Error", basicValue: value, message: cell?.message };
}

/** One cell is handed over bare: the engine takes a grid for what may spill. */
function toEngine(rows: HostCell<CellError>[][]) {
  if (rows.length === 1 && rows[0]?.length === 1) return toEngineCell(rows[0][0]);
  return (rows[0] ?? []).map((_, column) => rows.map((row) => toEngineCell(row[column])));
}

function toEngineCell(value: HostCell<CellError> | undefined) {
  if (value instanceof CellError) return { value: value.code, message: value.message ?? "" };
  return { value: value ?? null };
}
