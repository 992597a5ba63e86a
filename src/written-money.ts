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

/** What a sign may stand for; alone, the first. */
const SIGNS: Readonly<Record<string, string>> = {
  $: "USD CAD AUD NZD MXN",
  US$: "USD",
  "€": "EUR",
  "£": "GBP",
  "¥": "JPY CNY",
};

const CODES = `${Object.values(SIGNS).join(" ")} CHF SEK NOK DKK PLN CZK INR`;

/** Minus, mark, figures, mark; in brackets, below zero. */
const FORM =
  /^ ?'? ?(\()? ?([-−])? ?([$€£¥]|US\$|[A-Z]{3})? ?([\d.,]*\d) ?([$€£¥]|US\$|[A-Z]{3})? ?(\))? ?$/;

/** A text as money; null for one that is none. Its figures may still mean two things. */
export function moneyIn(text: string): WrittenMoney | null {
  // Of many spaces the form would try every way to part them.
  const tidy = text.toUpperCase().replace(/\s+/g, " ");
  const [, open, minus, before, figures, after, close] = FORM.exec(tidy) ?? [];
  if (!figures || open?.length !== close?.length || (open && minus)) return null;
  // "$6.00 CAD" names one currency, "$6.00 EUR" two, "EUR 6.00 EUR" is no price.
  if (before && after && !SIGNS[before]?.includes(after)) return null;
  const mark = after ?? before;
  const currency = mark && (SIGNS[mark] ?? mark).slice(0, 3);
  if (currency && !CODES.includes(currency)) return null;
  return { isNegative: Boolean(open ?? minus), figures, mark, currency };
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
  const texts = new Map<string, string>();
  for (const grid of grids) {
    for (const row of grid) {
      for (const text of row) {
        const currency = typeof text === "string" && moneyIn(text)?.currency;
        if (currency) texts.set(currency, text);
      }
    }
  }
  const [one, other] = texts.values();
  if (other) throw new CalcError(`prices must be in one currency, got "${one}" and "${other}"`);
}
