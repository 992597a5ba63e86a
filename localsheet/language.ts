/** How the browser's language writes numbers and dates. */
export interface Language {
  /** 5,5 or 5.5 */
  decimal: "." | ",";
  /** 25/11/2026 or 11/25/2026 */
  order: "dmy" | "mdy" | "ymd";
  /** What each month is called, in small letters; in English, too. */
  months: readonly (readonly string[])[];
}

export function languageOf(told: string): Language {
  const tag = knownTag(told);
  const decimal = new Intl.NumberFormat(tag).format(1.5).includes(",") ? "," : ".";
  const parts = new Intl.DateTimeFormat(tag).formatToParts(new Date(2026, 10, 25));
  const letters: Partial<Record<string, string>> = { day: "d", month: "m", year: "y" };
  const order = parts.map(({ type }) => letters[type] ?? "").join("");
  const months = Array.from({ length: 12 }, (_, month) => monthIn([tag, "en"], month));
  return { decimal, order: order === "dmy" || order === "ymd" ? order : "mdy", months };
}

function monthIn(tags: readonly string[], month: number): string[] {
  const date = new Date(2026, month, 15);
  return tags.flatMap((tag) =>
    (["long", "short"] as const).map((width) =>
      new Intl.DateTimeFormat(tag, { month: width }).format(date).toLowerCase(),
    ),
  );
}

/** Some browsers tell a language as their system writes it, en-US@posix, which Intl refuses. */
function knownTag(told: string): string {
  try {
    const [tag = "en-US"] = Intl.getCanonicalLocales(
      told.replace(/[@.].*$/, "").replaceAll("_", "-"),
    );
    return tag;
  } catch {
    return "en-US";
  }
}
