/**
 * The functions for the script runtime of a web spreadsheet (Google Apps Script).
 *
 * The runtime hands over a cell as its value and a range as rows of values, a blank as "", a date
 * as a Date. An answer is a value or rows of values, and an error can only be thrown, for the whole
 * call: a text in place of one cell would be passed over by a sum.
 */
import { CellError, type FunctionsHost, type HostCell } from "../bind/host.ts";
import { register } from "../bind/register.ts";

type Cell = HostCell<CellError>;

const runs = new Map<string, (...args: unknown[]) => Cell[][]>();
const host: FunctionsHost<CellError> = {
  Error: CellError,
  associate: (id, run) => runs.set(id, run),
};
register(host);

/** Answers a call of the sheet: run("OILFOR", arguments). */
export function run(id: string, args: ArrayLike<unknown>): unknown {
  const call = runs.get(id);
  if (!call) throw new Error(`there is no function ${id}`);
  const rows = call(...Array.from(args, toHost));
  const wrong = rows.flatMap((row, i) =>
    row.flatMap((cell, j) =>
      cell instanceof CellError ? [{ cell, row: i + 1, column: j + 1 }] : [],
    ),
  );
  const [first] = wrong;
  if (first) throw new Error(told(first, rows, wrong.length));
  return rows.length === 1 && rows[0]?.length === 1 ? rows[0][0] : rows;
}

interface Wrong {
  cell: CellError;
  row: number;
  column: number;
}

/** The first error, and where it is in the answer. */
function told({ cell, row, column }: Wrong, rows: Cell[][], count: number): string {
  const text = cell.message ?? cell.code;
  const isWide = (rows[0]?.length ?? 0) > 1;
  if (rows.length === 1 && !isWide) return text;
  const where = isWide ? `row ${row}, column ${column}` : `row ${row}`;
  const others = count > 1 ? ` (and ${count - 1} more)` : "";
  return `${where} of the answer: ${text}${others}`;
}

/** An argument as the other hosts hand it over. */
function toHost(argument: unknown): unknown {
  return Array.isArray(argument) ? argument.map(toHost) : valueOf(argument);
}

/** What an error in a cell reads as. */
const ERROR = /^#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|ERROR!)$/;

function valueOf(cell: unknown): unknown {
  if (isDate(cell)) return serialOf(cell);
  if (typeof cell === "string" && ERROR.test(cell)) return { type: "Error", basicValue: cell };
  return cell;
}

/** A date of the sheet may come from another realm, where instanceof does not know it. */
function isDate(cell: unknown): cell is Date {
  return Object.prototype.toString.call(cell) === "[object Date]";
}

/** Days since 30 December 1899, as sheets count them, by the clock of the place. */
function serialOf(date: Date): number {
  const here = date.getTime() - date.getTimezoneOffset() * 60_000;
  return (here - Date.UTC(1899, 11, 30)) / 86_400_000;
}
