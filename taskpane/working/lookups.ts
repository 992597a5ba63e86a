/** Functions that find a cell among others, or where cells stand. */
import {
  type CellValue,
  type Grid,
  isBlank,
  isFault,
  onlyCell,
} from "../../functions/bind/cell.ts";
import { edgesOf, rangeIn } from "../../functions/formula/references.ts";
import type { ArgumentNode } from "../../functions/formula/tree.ts";
import { Untold, fault, isSame, number } from "./cells.ts";
import { isAsLarge, wordTest } from "./criteria.ts";

/** The single value of an argument; of a list nothing is told. */
function single(grid: Grid | undefined): CellValue {
  const value = grid ? onlyCell(grid) : null;
  if (value === undefined) throw new Untold();
  return value;
}

/** INDEX: a cell of a range; of line or column 0, all of them. */
function index(range: Grid, line?: Grid, across?: Grid): Grid {
  const isRow = across === undefined && range.length === 1;
  const places = [isRow ? 1 : single(line), isRow ? single(line) : single(across ?? [[1]])];
  const bad = places.find(isFault);
  if (bad) return [[bad]];
  const [row = 1, column = 1] = places.map((place) => Math.trunc(number(place)));
  if (row < 0 || column < 0) return [[fault("#VALUE!")]];
  const lines = row === 0 ? range : range.slice(row - 1, row);
  const cells = lines.map((each) => (column === 0 ? each : each.slice(column - 1, column)));
  return (cells[0] ?? []).length === 0 ? [[fault("#REF!")]] : cells;
}

/** MATCH for the very thing; the nearest below or above is not told. */
function match(wanted: Grid, among: Grid = [], type?: Grid): CellValue {
  const key = single(wanted);
  if (type === undefined || single(type) !== 0) throw new Untold();
  if (isFault(key)) return key;
  const cells = among.length === 1 ? (among[0] ?? []) : among.map((row) => single([row]));
  const found = cells.findIndex(typeof key === "string" ? wordTest(key) : valueTest(key));
  return found < 0 ? fault("#N/A") : found + 1;
}

/** A blank is found nowhere; whether it finds a nought is not sure. */
function valueTest(key: number | boolean | null): (cell: CellValue) => boolean {
  return (cell) => {
    if (key === null && cell === 0) throw new Untold();
    return key !== null && typeof cell === typeof key && isSame(cell, key);
  };
}

/** The products of lines, added up; what is no number is nought. */
function sumProduct(...grids: [Grid, ...Grid[]]): CellValue {
  if (!grids.every((grid) => isAsLarge(grid, grids[0]))) throw new Untold();
  const columns = grids.map((grid) => grid.flat());
  const bad = columns.flat().find(isFault);
  if (bad) return bad;
  const [first = []] = columns;
  return first.reduce<number>((sum, _, i) => {
    const factors = columns.map((cells) => cells[i]);
    return (
      sum + factors.reduce<number>((all, each) => all * (typeof each === "number" ? each : 0), 1)
    );
  }, 0);
}

function small(cells: Grid, place?: Grid): CellValue {
  const bad = cells.flat().find(isFault);
  if (bad) return bad;
  const numbers = cells.flat().filter((cell) => typeof cell === "number");
  const at = Math.ceil(number(single(place)));
  return numbers.sort((a, b) => a - b)[at - 1] ?? fault("#NUM!");
}

type OfGrids = (first: Grid, ...more: Grid[]) => Grid;

/** Functions of ranges that are read whole. */
export const LOOKUPS: Record<string, OfGrids | undefined> = {
  INDEX: index,
  MATCH: (wanted, among, type) => [[match(wanted, among, type)]],
  SUMPRODUCT: (...grids) => [[sumProduct(...grids)]],
  SMALL: (cells, place) => [[small(cells, place)]],
  COUNTA: (...grids) => [[grids.flat(2).filter((cell) => cell !== null).length]],
  COUNTBLANK: (cells) => [[cells.flat().filter(isBlank).length]],
};

/** ROW, ROWS and the like: where a reference stands, or the cell that asks; null for other functions. */
export function placeOf(
  name: string,
  [node]: readonly ArgumentNode[],
  here: { row: number; column: number },
): number | null {
  if (!/^(ROW|COLUMN)S?$/.test(name)) return null;
  if (!node && name === "ROW") return here.row + 1;
  if (!node && name === "COLUMN") return here.column + 1;
  const found = node?.type === "ReferenceIdentifier" ? rangeIn(node.value) : null;
  if (!found) throw new Untold();
  const { top, left, bottom, right } = edgesOf(found);
  const [rows, columns] = [bottom - top + 1, right - left + 1];
  if (name === "ROWS") return rows;
  if (name === "COLUMNS") return columns;
  if (name === "ROW" ? rows > 1 : columns > 1) throw new Untold();
  return (name === "ROW" ? top : left) + 1;
}
