/** The worksheet functions that small expressions may call. */
import type { CellValue } from "../../functions/bind/cell.ts";
import { fault } from "./cells.ts";

/** A number that counts, or null for a cell that does not. */
export type Counted = number | null;

/** Rounded by the decimals as they are written: in binary, 2.675 is a little less. */
function rounded(value: number, digits = 0, way: (scaled: number) => number = Math.round): number {
  const places = Math.trunc(digits);
  const scaled = Number(`${Number(Math.abs(value).toPrecision(15))}e${places}`);
  // What is written with a power of ten of its own cannot be given another one.
  const exact = Number.isNaN(scaled) ? Math.abs(value) * 10 ** places : scaled;
  return (Math.sign(value) * way(Number(exact.toPrecision(15)))) / 10 ** places;
}

/** Functions of single numbers; over ranges they go line by line. */
export const ONE_BY_ONE: Record<string, ((...values: number[]) => CellValue) | undefined> = {
  ABS: Math.abs,
  INT: Math.floor,
  SIGN: Math.sign,
  SQRT: (value) => (value < 0 ? fault("#NUM!") : Math.sqrt(value)),
  EXP: Math.exp,
  LN: (value) => (value <= 0 ? fault("#NUM!") : Math.log(value)),
  ROUND: (value, digits) => rounded(value, digits),
  ROUNDUP: (value, digits) => rounded(value, digits, Math.ceil),
  ROUNDDOWN: (value, digits) => rounded(value, digits, Math.floor),
  MOD: (value, by) => (by === 0 ? fault("#DIV/0!") : value - by * Math.floor(value / by)),
};

const numbers = (values: Counted[]) => values.filter((value) => value !== null);
const sum = (values: Counted[]) => numbers(values).reduce((total, value) => total + value, 0);

/** Functions of all numbers in their arguments. */
export const COUNTED: Record<string, ((...values: Counted[]) => CellValue) | undefined> = {
  SUM: (...values) => sum(values),
  PRODUCT: (...values) =>
    numbers(values).length === 0 ? 0 : numbers(values).reduce((product, each) => product * each, 1),
  COUNT: (...values) => numbers(values).length,
  AVERAGE: (...values) => {
    const { length } = numbers(values);
    return length === 0 ? fault("#DIV/0!") : sum(values) / length;
  },
  MIN: (...values) => (numbers(values).length === 0 ? 0 : Math.min(...numbers(values))),
  MAX: (...values) => (numbers(values).length === 0 ? 0 : Math.max(...numbers(values))),
};
