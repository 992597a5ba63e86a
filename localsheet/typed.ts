/**
 * What a person types, read for the cell that it is typed into: a percentage, an amount, a date. Gives
 * the content that the cell takes, in the engine's own spelling, and what is worth saying back.
 *
 * Percentages are read as Excel reads them in a cell that is formatted as one: "Numbers equal to and
 * larger than 1 are converted to percentages by default; and numbers smaller than 1 are multiplied by
 * 100 to convert them to percentages. For example, typing 10 or 0.1 both result in 10.00%" (Microsoft,
 * "Format numbers as percentages"). An older article (KB 215203) reads 0.1 as 0.10% and only .1 as 10%;
 * since the two differ, how such a number was read is said back.
 */
import type { Language } from "./language.ts";
import { readableFormula } from "./readable-formula.ts";
import { isoDate } from "./typed-dates.ts";
import { hoursIn } from "./typed-hours.ts";

export interface TypedText {
  content: string;
  /** A doubt to say back, in a sentence; the content is taken all the same. */
  doubt?: string | undefined;
}

/** What the engine makes a number of by itself. */
const KNOWN = /^[-\d.,\s$\u20ac\u00a3%e+]*$/i;

/** A share that is smaller is rare in a workshop, and often a slip. */
const RARE_SHARE = 0.002;

/** Reads a text typed into a cell of the format; a formula stays as it is. */
export function readTyped(text: string, format: string, language: Language): TypedText {
  // A plus before a number says nothing; before a cell or a bracket it is as good as =.
  const typed = text
    .trim()
    .replace(/^\+\s*(?=[\d.,$])/, "")
    .replace(/^\+(?=[A-Z(])/i, "=");
  if (typed.startsWith("=")) return { content: readableFormula(plainSigns(typed)) };
  // A cell that looks empty is empty, and a name has no spaces around it: it would be another name.
  if (typed === "") return { content: "" };
  if (typed.startsWith("'")) return { content: text };
  const date = dateContent(typed, format, language);
  if (date !== undefined) return { content: date };
  const hours = hoursIn(typed, format, (figures) => plainNumber(figures, language)?.value);
  if (hours !== undefined) return { content: tidy(hours) };
  const number = plainNumber(typed, language);
  if (isPercentage(format)) return percentage(typed, number, language);
  // Where no format was chosen the engine takes one from a currency sign that it knows, so that it stays.
  const isKept =
    number && (format !== "" || number.comma || text.trim() !== typed || !KNOWN.test(typed));
  const kept = isKept ? number.text : plainSpaces(text.trim());
  return { content: kept, doubt: doubtOf(typed, format, number, language) };
}

/** Web pages have spaces that look like plain ones, and marks that are not seen: a name with them is another name. */
function plainSpaces(words: string): string {
  return words.replace(/[\u200b\u200c\u2060\ufeff\u00ad]/g, "").replace(/[^\S\n]/g, " ");
}

const SIGNS: Record<string, string> = { "\u2212": "-", "\u00d7": "*", "\u00f7": "/" };

/** A formula with the signs that phones and other programs write, outside its words, as the engine's. */
function plainSigns(formula: string): string {
  const straight = formula.includes('"') ? formula : formula.replace(/[\u201c-\u201f]/g, '"');
  return straight
    .split('"')
    .map((part, i) =>
      i % 2 ? part : part.replace(/[\u2212\u00d7\u00f7]/g, (sign) => SIGNS[sign] ?? sign),
    )
    .join('"');
}

export function isPercentage(format: string): boolean {
  return withoutQuotes(format).includes("%");
}

export function isDate(format: string): boolean {
  return /[ymdh]/i.test(withoutQuotes(format).replace(/\[[^\]]*\]/g, ""));
}

function withoutQuotes(format: string): string {
  return format.replace(/"[^"]*"|\\./g, "");
}

interface Plain {
  /** The number with a point, and what stood around it: a minus, a currency, a percent sign. */
  text: string;
  value: number;
  sign: boolean;
  /** Whether a comma was taken for its decimal mark. */
  comma: boolean;
}

/** Group marks as they may stand between figures: spaces, apostrophes, and the other mark. */
const SPACES = /(?<=\d)[\s\u00a0\u202f'\u2019](?=\d{3}(?!\d))/g;

function plainNumber(typed: string, language: Language): Plain | undefined {
  const found =
    /^([-\u2212]?)\s*(\p{Sc}?)\s*([-\u2212]?)\s*([\d.,\s\u00a0\u202f'\u2019]*\d[.,]?|[.,]\d+)(e[+-]?\d+)?\s*(\p{Sc}?)\s*(%?)$/iu.exec(
      // Figures and signs of full width are the usual ones.
      typed.normalize("NFKC"),
    );
  if (!found) return undefined;
  const [, minus, , minusToo, body = "", power = "", , sign = ""] = found;
  const figures = pointed(body.trim().replace(SPACES, ""), language);
  if (figures === undefined || (minus && minusToo)) return undefined;
  const text = `${minus || minusToo ? "-" : ""}${figures}${power}`;
  const comma =
    body.includes(",") && figures.includes(".") && body.indexOf(",") >= body.lastIndexOf(".");
  return { text: text + sign, value: Number(text), sign: sign === "%", comma };
}

/** The figures with a point and without group marks; undefined when they are no number. */
function pointed(figures: string, { decimal }: Language): string | undefined {
  if (/^\d*\.?\d*$/.test(figures)) return figures;
  // A comma before anything but three figures groups nothing: it is a decimal comma in any language.
  if (/^\d*,\d*$/.test(figures) && (decimal === "," || !/^[1-9]\d{0,2},\d{3}$/.test(figures)))
    return figures.replace(",", ".");
  if (/^\d{1,3}(,\d{3})+(\.\d*)?$/.test(figures)) return figures.replaceAll(",", "");
  if (/^\d{1,3}(\.\d{3})+(,\d*)?$/.test(figures))
    return figures.replaceAll(".", "").replace(",", ".");
  return undefined;
}

function percentage(typed: string, number: Plain | undefined, language: Language): TypedText {
  if (!number) {
    return { content: typed, doubt: `"${typed}" is kept as words. A percentage is typed as 5 %.` };
  }
  const { value, sign } = number;
  const isPart = !sign && value !== 0 && Math.abs(value) < 1;
  const share = isPart ? value : value / 100;
  const shown = `${tidy(share * 100)} %`;
  // Written with its sign, so that the engine's check of limits and its format see a percentage.
  const content = `${tidy(share * 100)}%`;
  if (share !== 0 && Math.abs(share) < RARE_SHARE)
    return { content, doubt: `${shown} was typed: is it ${meant(share)} %?` };
  const doubt = isPart
    ? `${typed} was read as ${shown}, as Excel does. For ${tidy(value)} % type it with its sign.`
    : grouped(typed, language);
  return { content, doubt };
}

/** What a hand that typed a fraction and a sign was after: 0.05 % for 5 %. */
function meant(share: number): string {
  return tidy(share * 10000);
}

/** A number without the dust of binary arithmetic. */
function tidy(value: number): string {
  const text = String(Number(value.toPrecision(12)));
  return text.includes("e") ? value.toFixed(12).replace(/\.?0+$/, "") : text;
}

function doubtOf(typed: string, format: string, number: Plain | undefined, language: Language) {
  if (number && isDate(format) && Number.isInteger(number.value))
    return `${typed} was read as a day's number. A date is typed as 2026-11-25.`;
  if (number) return grouped(typed, language);
  if (isDate(format)) return `"${typed}" is kept as words. A date is typed as 2026-11-25.`;
  const wantsNumber = /[0#]/.test(withoutQuotes(format));
  return wantsNumber ? `"${typed}" is kept as words. A number is typed as 46.00.` : undefined;
}

/** Where commas are decimal marks, 1.500 may have been meant as fifteen hundred. */
function grouped(typed: string, { decimal }: Language): string | undefined {
  if (
    decimal === "." ||
    !/(^|[^\d.])[1-9]\d{0,2}\.\d{3}([^\d.]|$)/.test(typed) ||
    typed.includes(",")
  )
    return undefined;
  return `${typed} was read with a decimal point. For thousands type no mark.`;
}

function dateContent(typed: string, format: string, language: Language): string | undefined {
  const isNumberCell = format !== "" && !isDate(format);
  if (isNumberCell) return undefined;
  return isoDate(typed, language, isDate(format));
}
