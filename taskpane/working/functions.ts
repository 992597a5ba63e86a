/** The worksheet functions that small expressions may call. */
import { type CellValue, isFault } from "../../functions/bind/cell.ts";
import { Untold, fault, isTrue, number, text } from "./cells.ts";

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

const ofNumbers =
  (work: (...values: number[]) => CellValue) =>
  (...values: CellValue[]) =>
    work(...values.map(number));

/** Functions of single values; over ranges they go line by line. */
export const ONE_BY_ONE: Record<string, ((...values: CellValue[]) => CellValue) | undefined> = {
  ABS: ofNumbers(Math.abs),
  INT: ofNumbers(Math.floor),
  SIGN: ofNumbers(Math.sign),
  SQRT: ofNumbers((value) => (value < 0 ? fault("#NUM!") : Math.sqrt(value))),
  EXP: ofNumbers(Math.exp),
  LN: ofNumbers((value) => (value <= 0 ? fault("#NUM!") : Math.log(value))),
  ROUND: ofNumbers((value, digits) => rounded(value, digits)),
  ROUNDUP: ofNumbers((value, digits) => rounded(value, digits, Math.ceil)),
  ROUNDDOWN: ofNumbers((value, digits) => rounded(value, digits, Math.floor)),
  MOD: ofNumbers((value, by) =>
    by === 0 ? fault("#DIV/0!") : value - by * Math.floor(value / by),
  ),
  NOT: (value) => !isTrue(value),
  LEFT: (value, count = 1) => text(value).slice(0, number(count)),
  LOWER: (value) => text(value).toLowerCase(),
  TRIM: (value) => text(value).replace(/ +/g, " ").replace(/^ | $/g, ""),
  SUBSTITUTE: (...values) => {
    const [value = null, old = null, by = null] = values;
    if (values.length !== 3) throw new Untold();
    return text(old) === "" ? text(value) : text(value).replaceAll(text(old), () => text(by));
  },
  NA: () => fault("#N/A"),
};

/** Functions that look at what a single value is, an error too. */
export const LOOKS: Record<string, ((value: CellValue) => boolean) | undefined> = {
  ISNUMBER: (value) => typeof value === "number",
  ISTEXT: (value) => typeof value === "string",
  ISERROR: isFault,
  ISBLANK: (value) => value === null,
};

const numbers = (values: Counted[]) => values.filter((value) => value !== null);
const sum = (values: Counted[]) => numbers(values).reduce((total, value) => total + value, 0);

/** Functions of all numbers in their arguments. */
export const COUNTED: Record<string, ((...values: Counted[]) => CellValue) | undefined> = {
  SUM: (...values) => sum(values),
  PRODUCT: (...values) =>
    numbers(values).length === 0 ? 0 : numbers(values).reduce((product, each) => product * each, 1),
  AVERAGE: (...values) => {
    const { length } = numbers(values);
    return length === 0 ? fault("#DIV/0!") : sum(values) / length;
  },
  MIN: (...values) => (numbers(values).length === 0 ? 0 : Math.min(...numbers(values))),
  MAX: (...values) => (numbers(values).length === 0 ? 0 : Math.max(...numbers(values))),
};
