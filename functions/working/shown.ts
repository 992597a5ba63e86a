/** Values as a person reads them, with their units: "about" where digits were left away. */
import { CalcError } from "../../src/errors.ts";
import { amountOf, moneyIn } from "../../src/written-money.ts";
import type { CellValue } from "../bind/cell.ts";
import { isFault } from "../bind/cell.ts";
import type { Kind } from "../catalog/kinds.ts";
import type { Measure } from "./measures.ts";

/** How many digits are shown: those that tell, or all that a cell can hold. */
export type Digits = "six" | "all";

const MOST: Record<Digits, number> = { six: 6, all: 15 };

/** From here on a sum of money is told without its hundredths, in six digits. */
const MUCH_MONEY = 9999.995;

/** Money below one is told to so many digits, as prices for a gram are. */
const DIGITS_OF_A_PRICE = 4;

/** What is nearer to zero is only called so. */
const NEARLY_NOTHING = 1e-9;

/** What rounding in binary leaves is no digit that was left away. */
const SAME = 1e-9;

/** The unit behind a number of a kind. */
const UNITS: Partial<Record<Kind, string>> = {
  density: "g/mL",
  celsius: "°C",
  drops: "drops",
  rate: "drops per mL",
  hours: "h",
  dose: "g/m3",
};

const PERCENTS: ReadonlySet<Kind> = new Set(["share", "limit", "worded"]);

/** A number in plain decimals, without powers of ten. */
export function plain(value: number, digits: Digits = "six"): string {
  return decimals({ maximumSignificantDigits: MOST[digits] }, value);
}

function decimals(options: Intl.NumberFormatOptions, value: number): string {
  // As it is written, not as it is in binary: 2.595 is 2.60. Minus zero is zero.
  const text = (value || 0).toPrecision(MOST.all) as `${number}`;
  return new Intl.NumberFormat("en-US", { useGrouping: false, ...options }).format(text);
}

/** Hundredths, as money is counted; more of them below one. */
function money(value: number): string {
  const size = Math.abs(value);
  if (size >= MUCH_MONEY) return decimals({ maximumFractionDigits: 0 }, value);
  const fine = decimals({ maximumSignificantDigits: DIGITS_OF_A_PRICE }, value);
  const isFine = size < 1 && (fine.split(".")[1]?.length ?? 0) > 2;
  return isFine ? fine : decimals({ minimumFractionDigits: 2, maximumFractionDigits: 2 }, value);
}

/** A number with its unit. */
export function measured(value: number, measure: Measure, digits: Digits = "six"): string {
  const { kind, per } = measure;
  const isMoney = kind === "money";
  const number = PERCENTS.has(kind) ? Number((value * 100).toPrecision(15)) : value;
  const text = isMoney && digits === "six" ? money(number) : plain(number, digits);
  const about = Math.abs(Number(text) - number) > SAME * Math.abs(number) ? "about " : "";
  // $6.00, and USD 6.00.
  const before = isMoney ? (measure.unit ?? "").replace(/\w$/, "$& ") : "";
  const isNearly = digits === "six" && number !== 0 && Math.abs(number) < NEARLY_NOTHING;
  const told = isNearly ? "nearly 0" : about + text.replace(/^-?/, (sign) => sign + before);
  return `${told}${behind(measure)}${per ? ` per ${per}` : ""}`;
}

function behind({ kind, unit }: Measure): string {
  if (kind === "money") return "";
  const told = PERCENTS.has(kind) ? "%" : (unit ?? UNITS[kind]);
  return told ? ` ${told}` : "";
}

/** What a cell holds. */
export function shown(value: CellValue, measure: Measure, digits: Digits = "six"): string {
  if (isFault(value)) return value.fault;
  if (value === null || value === "" || Number.isNaN(value)) return "blank";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return measured(value, measure, digits);
  return measure.kind === "money" ? moneyShown(value, measure, digits) : value;
}

/** A text as the money that it is read as; one that is refused, as it stands. */
function moneyShown(text: string, measure: Measure, digits: Digits): string {
  const money = moneyIn(text);
  try {
    const amount = money && amountOf(money, refused);
    if (amount === null) return text;
    return measured(amount, { ...measure, unit: money?.mark ?? measure.unit }, digits);
  } catch {
    return text;
  }
}

function refused(why: string): never {
  throw new CalcError(why);
}
