/** Dates as people type them, in the order of their language; given as the engine reads them: 2026-11-25. */
import type { Language } from "./language.ts";

/** A date of three parts, or with a month's name; undefined for anything else, and for 31 February. */
export function isoDate(
  typed: string,
  { order, months }: Language,
  isDateCell: boolean,
): string | undefined {
  const figures = /^(\d{1,4})([-/.\s])\s*(\d{1,2})\2\s*(\d{1,4})$/.exec(typed);
  // 1.2.2026 and 1 2 2026 may be something else where no date is asked for.
  const [, first = "", mark = "", second = "", third = ""] = figures ?? [];
  if (figures && (isDateCell || /[-/]/.test(mark)))
    return byFigures([first, second, third], mark, order);
  return isDateCell ? byName(typed, months) : undefined;
}

function byFigures(
  [first, second, third]: [string, string, string],
  mark: string,
  order: Language["order"],
) {
  if (first.length === 4) return written(first, second, third);
  if (first.length > 2 || third.length === 3) return undefined;
  if (order === "ymd" && third.length < 4) return written(first, second, third);
  if (order !== "mdy") return written(third, second, first);
  // With points the day stands first in most of the world, and the month nowhere.
  return mark === "." ? undefined : written(third, first, second);
}

function byName(typed: string, months: Language["months"]) {
  const dayFirst =
    /^(\d{1,2})(?:\.|er)?[\s-]+(?:de\s+)?(\p{L}{3,})\.?,?[\s-]+(?:de\s+)?(\d{4})$/iu.exec(typed);
  if (dayFirst) {
    const [, day = "", month = "", year = ""] = dayFirst;
    return written(year, monthOf(month, months), day);
  }
  const monthFirst = /^(\p{L}{3,})\.?\s+(\d{1,2}),?\s+(\d{4})$/iu.exec(typed);
  const [, month = "", day = "", year = ""] = monthFirst ?? [];
  return monthFirst ? written(year, monthOf(month, months), day) : undefined;
}

/** The month that begins like this; none where two do, as with French jui. */
function monthOf(name: string, months: Language["months"]): string {
  const begun = name.toLowerCase();
  const found = months.flatMap((names, i) =>
    names.some((each) => each.startsWith(begun)) ? [i + 1] : [],
  );
  return found.length === 1 ? String(found[0]) : "";
}

function written(year: string, month: string, day: string): string | undefined {
  const full = year.length === 4 ? Number(year) : 2000 + Number(year);
  const date = new Date(Date.UTC(full, Number(month) - 1, Number(day)));
  const isReal = date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
  return isReal ? date.toISOString().slice(0, 10) : undefined;
}
