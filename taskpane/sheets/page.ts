/** What a sheet has on paper, the same on both hosts and in a saved file. */
import { cellName } from "../../functions/formula/addresses.ts";
import type { DrawnPage } from "./drawing.ts";

/** The most that the top or the foot of a page holds, in Excel and in a file. */
const LONGEST = 255;

/** Characters of a line of the page's own text that fit across paper of the usual sizes. */
const LINE = { upright: 90, landscape: 130 };

/** Said at the foot of each page: the sheet's name, which a second page has nowhere else, and its number. */
export const PAGE_NUMBER = "&A, page &P of &N";

/** Free at the sides of each page, in inches: at the top and the foot with room for their texts. */
export const MARGINS = {
  left: 0.25,
  right: 0.25,
  top: 0.9,
  bottom: 0.75,
  header: 0.3,
  footer: 0.3,
};

/** What is printed, section by section, as Excel writes it: $A:$L and $M:$P without an end, or $A$1:$O$90. */
export function printedOf({ only, sections = [], last }: DrawnPage): string[] {
  if (!only) {
    if (last === undefined) return [];
    const ends = [...sections, last + 1];
    return ends.map((end, i) => columnsNamed([sections[i - 1] ?? 0, end - 1]));
  }
  if (!only.rows) return [columnsNamed(only.columns)];
  const [[top, bottom], [left, right]] = [only.rows, only.columns];
  return [`${cellName(top, left)}:${cellName(bottom, right)}`.replace(/[A-Z]+/g, "$$$&$$")];
}

/** What each page repeats, as Excel writes it: $A:$B and $12:$12. */
export function titlesOf({ titleRows, titleColumns }: DrawnPage) {
  return {
    columns: titleColumns && columnsNamed(titleColumns),
    rows: titleRows?.map((row) => `$${row + 1}`).join(":"),
  };
}

function columnsNamed(columns: readonly number[]): string {
  return columns.map((column) => `$${cellName(0, column).slice(0, -1)}`).join(":");
}

/** The caution at the top of each page, by lines; an & is doubled there, as one alone opens a code. */
export function cautionOf({ caution, landscape }: DrawnPage): string {
  const most = landscape ? LINE.landscape : LINE.upright;
  const lines: string[] = [];
  for (const word of (caution ?? "").split(" ")) {
    const line = [lines.at(-1) ?? [], word].flat().join(" ");
    if (lines.length > 0 && line.length <= most) lines.splice(-1, 1, line);
    else lines.push(word);
  }
  const text = lines.join("\n").replaceAll("&", "&&");
  if (text.length > LONGEST)
    throw new Error(`a caution on a page has at most ${LONGEST} characters`);
  return text;
}
