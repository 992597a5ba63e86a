/** Money that stands in a cell as a text: `$6.00`, `6,50 €`, `USD 1,234.50`, `(6.00)`. */
import { CalcError } from "./errors.ts";
import { decimalOf } from "./written-number.ts";

/** The parts of such a text. */
export interface WrittenMoney {
  isNegative: boolean;
  figures: string;
  /** The sign or code that the text names its currency by. */
  mark?: string | undefined;
  /** The currency's code. */
  currency?: string | undefined;
}

/** What each sign may stand for; alone, the first. */
const SIGNS: Readonly<Record<string, readonly string[]>> = {
  $: ["USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN"],
  ...{ US$: ["USD"], CA$: ["CAD"], C$: ["CAD"], AU$: ["AUD"], A$: ["AUD"], NZ$: ["NZD"] },
  ...{ "€": ["EUR"], "£": ["GBP"], "¥": ["JPY", "CNY"] },
};

const CODES =
  "USD EUR GBP CAD AUD NZD CHF SEK NOK DKK PLN CZK HUF JPY CNY INR SGD HKD MXN BRL ZAR".split(" ");

const MARKS = [...Object.keys(SIGNS), ...CODES].map((mark) => mark.replace("$", "\\$")).join("|");

const FORM = new RegExp(
  `^'?\\s*(?<open>\\()?\\s*(?<minus>[-−])?\\s*(?<before>${MARKS})?\\s*(?<late>[-−])?\\s*` +
    `(?<figures>[\\d.,]*\\d)\\s*(?<after>${MARKS})?\\s*(?<close>\\))?\\s*$`,
  "i",
);

/** A text as money; null for one that is none. Its figures may still mean two things. */
export function moneyIn(text: string): WrittenMoney | null {
  const { open, minus, before, late, figures, after, close } = FORM.exec(text)?.groups ?? {};
  const isEven = (open === undefined) === (close === undefined);
  const minuses = [open, minus, late].filter((sign) => sign !== undefined);
  if (figures === undefined || !isEven || minuses.length > 1) return null;
  const isNegative = minuses.length > 0;
  const [mark, code] = [before ?? after, before && after].map((each) => each?.toUpperCase());
  if (mark === undefined) return { isNegative, figures };
  const meant = SIGNS[mark] ?? [mark];
  // "$6.00 CAD" names one currency, "$6.00 EUR" two, "EUR 6.00 EUR" is no price.
  if (code !== undefined && !(mark in SIGNS && meant.includes(code))) return null;
  return { isNegative, figures, mark: code ?? mark, currency: code ?? meant[0] };
}

/** The number that it says; refused where a comma or a point may mean two things. */
export function amountOf(
  { isNegative, figures }: WrittenMoney,
  refuse: (why: string) => never,
): number {
  const amount = decimalOf(figures, refuse);
  return isNegative ? -amount : amount;
}

/** Two currencies are never added up or compared: refuses cells of which texts name more than one. */
export function refuseTwoCurrencies(grids: readonly (readonly (readonly unknown[])[])[]): void {
  let first: { text: string; currency: string } | undefined;
  for (const grid of grids) {
    for (const row of grid) {
      for (const text of row) {
        const currency = typeof text === "string" ? moneyIn(text)?.currency : undefined;
        if (typeof text !== "string" || currency === undefined) continue;
        first ??= { text, currency };
        if (currency !== first.currency)
          throw new CalcError(`prices must be in one currency, got "${first.text}" and "${text}"`);
      }
    }
  }
}
