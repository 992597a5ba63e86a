/** Dates as people type them, in the order of their language; given as the engine reads them: 2026-11-25. */
const MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec".split(" ");

/** A date of three parts, or with a month's name; undefined for anything else, and for 31 February. */
export function isoDate(
  typed: string,
  order: "dmy" | "mdy" | "ymd",
  isDateCell: boolean,
): string | undefined {
  const figures = /^(\d{1,4})([-/.\s])\s*(\d{1,2})\2\s*(\d{1,4})$/.exec(typed);
  // 1.2.2026 and 1 2 2026 may be something else where no date is asked for.
  const [, first = "", mark = "", second = "", third = ""] = figures ?? [];
  if (figures && (isDateCell || /[-/]/.test(mark))) return byFigures(first, second, third, order);
  return isDateCell ? byName(typed) : undefined;
}

function byFigures(first: string, second: string, third: string, order: "dmy" | "mdy" | "ymd") {
  if (first.length === 4) return written(first, second, third);
  if (first.length > 2 || third.length === 3) return undefined;
  if (order === "ymd" && third.length < 4) return written(first, second, third);
  return order === "mdy" ? written(third, first, second) : written(third, second, first);
}

function byName(typed: string): string | undefined {
  const dayFirst = /^(\d{1,2})\.?[\s-]+([a-z]{3,9})\.?,?[\s-]+(\d{4})$/i.exec(typed);
  if (dayFirst) {
    const [, day = "", month = "", year = ""] = dayFirst;
    return written(year, monthOf(month), day);
  }
  const monthFirst = /^([a-z]{3,9})\.?\s+(\d{1,2}),?\s+(\d{4})$/i.exec(typed);
  const [, month = "", day = "", year = ""] = monthFirst ?? [];
  return monthFirst ? written(year, monthOf(month), day) : undefined;
}

function monthOf(name: string): string {
  return String(MONTHS.indexOf(name.slice(0, 3).toLowerCase()) + 1);
}

function written(year: string, month: string, day: string): string | undefined {
  const full = year.length === 4 ? Number(year) : 2000 + Number(year);
  const date = new Date(Date.UTC(full, Number(month) - 1, Number(day)));
  const isReal = date.getUTCMonth() === Number(month) - 1 && date.getUTCDate() === Number(day);
  return isReal ? date.toISOString().slice(0, 10) : undefined;
}
