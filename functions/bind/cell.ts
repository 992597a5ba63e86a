/**
 * What a cell holds: a host's value freed of its wrappings, read as a function asks for it, and a
 * function's answer made safe for a cell.
 */
import { BLANK, CalcError } from "../../src/errors.ts";
import { amountOf, moneyIn } from "../../src/written-money.ts";
import type { Bound } from "../catalog/entry.ts";
import { isLeftOutAtZero, isRefusedAtZero } from "../catalog/kinds.ts";

/** An error in a cell. Only #VALUE! and #N/A carry a text in Excel. */
export interface Fault {
  fault: string;
  text?: string | undefined;
}

/** The value of a cell, without a host's wrappings. A blank is null. */
export type CellValue = number | string | boolean | null | Fault;

/** Rows of cells. */
export type Grid = CellValue[][];

export type BoundParam = Bound["params"][number];

/** True for an error that stands in a cell. */
export function isFault(value: unknown): value is Fault {
  return typeof value === "object" && value !== null && "fault" in value;
}

/** The error that a cell shows for a refusal; any other error is a fault of ours, and thrown on. */
export function faultOf(error: unknown): Fault {
  if (error instanceof CalcError) return { fault: "#VALUE!", text: error.message };
  throw error;
}

/** A cell with nothing in it, where the host says so. */
export function isBlank(cell: CellValue): boolean {
  return cell === null || cell === "";
}

/** A cell that may have nothing in it: some hosts pass a blank as 0. */
export function isEmpty(cell: CellValue): boolean {
  return isBlank(cell) || cell === 0;
}

/** Whatever a host passes for an argument, as a grid of at least one cell. */
export function gridOf(argument: unknown): Grid {
  if (!Array.isArray(argument)) return [[unwrap(argument)]];
  const grid = argument.map((row: unknown) => {
    const cells: unknown[] = Array.isArray(row) ? row : [row];
    // Rows that need nothing are not made anew: columns are long.
    return isBare(cells) ? cells : cells.map(unwrap);
  });
  return grid[0] && grid[0].length > 0 ? grid : [[null]];
}

function isBare(cells: unknown[]): cells is CellValue[] {
  return cells.every(isBareCell);
}

function isBareCell(cell: unknown): boolean {
  return Number.isFinite(cell) || typeof cell === "string" || cell === null;
}

/** A row as a host passes it, with nothing in it. */
export function isEmptyRow(row: unknown): boolean {
  return Array.isArray(row) ? row.every((cell) => isEmpty(unwrap(cell))) : isEmpty(unwrap(row));
}

/** Takes off the object that a host may put around a cell's value. */
export function unwrap(cell: unknown): CellValue {
  if (cell === null || cell === undefined) return null;
  if (typeof cell === "number") {
    if (Number.isFinite(cell)) return cell;
    return { fault: "#VALUE!", text: "a number came without a value" };
  }
  if (typeof cell === "string" || typeof cell === "boolean") return cell;
  // An error that another of our functions gave.
  if (isFault(cell)) return cell;
  // Excel's cell value types and CustomFunctions.Error, of which nothing is sure.
  const wrapped = cell as { type?: string; basicValue?: unknown; code?: unknown; message?: string };
  if (wrapped.type === "Error") return { fault: String(wrapped.basicValue), text: wrapped.message };
  if ("basicValue" in wrapped) return unwrap(wrapped.basicValue);
  if (typeof wrapped.code === "string") return { fault: wrapped.code, text: wrapped.message };
  return { fault: "#VALUE!", text: "a cell came that holds neither a number nor a word" };
}

/** A range that is read whole; one blank cell in place of what may be left out is nothing. */
export function readRange(param: BoundParam, grid: Grid): unknown {
  if (param.mixed) {
    if (param.optional && grid.every((row) => row.every(isEmpty))) return undefined;
    return grid.map((row) => row.map((cell) => writtenMoney(param, cell) ?? plain(cell)));
  }
  const cell = onlyCell(grid);
  if (param.optional && cell !== undefined && isBlank(cell)) return undefined;
  return grid.map((row) => row.map((each) => readNumber(param, each)));
}

/** The cell of a grid that has one alone. */
export function onlyCell(grid: Grid): CellValue | undefined {
  return grid.length === 1 && grid[0]?.length === 1 ? grid[0][0] : undefined;
}

/** A single cell read as a word; what may be left out is undefined where it is blank. */
export function readWord({ optional }: BoundParam, cell: CellValue): string | undefined {
  if (!isEmpty(cell)) return textOf(cell);
  return optional ? undefined : "";
}

/** A single cell read as a number, or as a pack's text. */
export function readSingle(param: BoundParam, cell: CellValue): number | string | undefined {
  if (typeof cell === "number" && cell !== 0) return cell;
  if (param.kind === "pack" && typeof cell === "string" && !isBlank(cell)) return cell;
  if (param.optional && (isBlank(cell) || (cell === 0 && isLeftOutAtZero(param)))) return undefined;
  if (cell === 0 && isRefusedAtZero(param)) throw new CalcError(zeroDegrees(param));
  return readNumber(param, cell);
}

/** What to type, since a host may pass a blank cell as 0. */
function zeroDegrees({ name, optional, default: fallback }: BoundParam): string {
  const leaveOut = optional ? `, and for ${fallback} leave it out of the formula` : "";
  return `${name} is blank or zero: for zero degrees type 0.001${leaveOut}`;
}

/** A cell of a range that may hold words: a blank is an empty word. */
function plain(cell: CellValue): number | string {
  if (typeof cell === "number") return cell;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  return cell === null ? "" : textOf(cell);
}

function textOf(cell: CellValue): string {
  return isFault(cell) ? cell.fault : String(cell);
}

/** "60", "12 %": a number that was typed as a text. */
export function looksLikeNumber(text: string): boolean {
  return /^[$€£]?[\d.,\s]+%?$/.test(text);
}

function readNumber(param: BoundParam, cell: CellValue): number {
  if (typeof cell === "number") return cell;
  if (isBlank(cell)) return BLANK;
  const money = writtenMoney(param, cell);
  if (money !== undefined) return money;
  const { name } = param;
  if (typeof cell === "boolean") {
    throw new CalcError(`${name} must be a number, got ${cell ? "TRUE" : "FALSE"}`);
  }
  const text = textOf(cell);
  const mend = looksLikeNumber(text)
    ? ", which is text: retype it in a cell that is not formatted as text"
    : "";
  throw new CalcError(`${name} must be a number, got "${text}"${mend}`);
}

/** The number in a text, where money is asked for and the text says no more than that. */
function writtenMoney({ name, kind }: BoundParam, cell: CellValue): number | undefined {
  if (kind !== "money" || typeof cell !== "string") return undefined;
  const refuse = (why: string): never => {
    throw new CalcError(`${name} must be a number, got "${cell}": ${why}`);
  };
  const money = moneyIn(cell);
  return money ? amountOf(money, refuse) : undefined;
}

/** Part of an answer as a cell may show it: never NaN, null or infinity. */
export function settle(value: unknown): CellValue {
  if (typeof value === "string") return value;
  // Minus zero is zero.
  if (typeof value === "number" && Number.isFinite(value)) return value === 0 ? 0 : value;
  return faultOf(
    new CalcError("the result is too large for a cell: check the sizes of the inputs"),
  );
}
