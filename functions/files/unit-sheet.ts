/**
 * The hidden sheet of a copy in which its formulas look units up: every word for every unit, and its size. The
 * words would be too long to stand in each formula.
 */
import { UNIT_LINES, UNIT_TABLES } from "../native/units.ts";
import { type Element, type Package, childNamed, elementLike, elements } from "./package.ts";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

const NAMES = new RegExp(`\\b(?:${Object.values(UNIT_TABLES).join("|")})\\b`);

/** True for a formula that looks a unit up. */
export function looksUpUnits(formula: string): boolean {
  return NAMES.test(formula);
}

/** Adds the sheet's file; gives its path. */
export function addUnitSheet(file: Package): string {
  const rows = UNIT_LINES.map(({ word, size }, i) => {
    const row = i + 1;
    const text = `<c r="A${row}" t="inlineStr"><is><t>${word}</t></is></c>`;
    return `<row r="${row}">${text}<c r="B${row}"><v>${size}</v></c></row>`;
  });
  const path = file.freePath("xl/worksheets/units", "xml");
  file.add(
    path,
    TYPE,
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}">` +
      `<sheetData>${rows.join("")}</sheetData></worksheet>`,
  );
  return path;
}

/** Gives the tables on that sheet the names by which formulas know them. */
export function nameUnitTables(workbook: Element, sheet: string): void {
  const weights = UNIT_LINES.filter(({ measures }) => measures === "weight").length;
  const rows = {
    all: [1, UNIT_LINES.length],
    weight: [1, weights],
    volume: [weights + 1, UNIT_LINES.length],
  } as const;
  const names = namesOf(workbook);
  for (const sort of ["all", "weight", "volume"] as const) {
    const [first, last] = rows[sort];
    const range = `'${sheet}'!$A$${first}:$B$${last}`;
    const attributes = { name: UNIT_TABLES[sort], hidden: "1" };
    names.appendChild(elementLike(names, "definedName", attributes, range));
  }
}

/** The workbook's list of names, made where it has none: it stands behind the sheets and what they lead to. */
export function namesOf(workbook: Element): Element {
  const found = childNamed(workbook, "definedNames");
  if (found) return found;
  const before = new Set(["sheets", "functionGroups", "externalReferences"]);
  const all = elements(workbook);
  const last = all.findLastIndex(({ localName }) => before.has(localName ?? ""));
  const made = elementLike(workbook, "definedNames");
  workbook.insertBefore(made, all[last + 1] ?? null);
  return made;
}
