/** The sheet that lists every replaced cell, for whoever receives the copy. */
import type { Marks } from "./marks.ts";
import { type Element, type Package, elementLike, elements, escaped, theChild } from "./package.ts";
import { namesOf } from "./unit-sheet.ts";

export interface Replaced {
  sheet: string;
  /** The cell, the range of a spilled answer, or a name. */
  cell: string;
  /** What it held, as it is typed. */
  was: string;
  became: "formula" | "value" | "left as it was";
  /** The native formula, or why there is none. */
  what: string;
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** Longer formulas are shown by their beginning, so that the list stays a list. */
const LONGEST = 160;

/** A longer list is for the screen: on paper it would be dozens of pages. */
const MOST_PRINTED = 100;

/** Of the columns, in letters. */
const WIDTHS = [22, 12, 52, 16, 90];

/** Of a line of text, in points. */
const LINE = 15;

const SAID = {
  formula: "live formula",
  value: "fixed value",
  "left as it was": "left as it was",
};

/** Adds the sheet's file; gives its path. */
export function addListSheet(file: Package, marks: Marks, replaced: readonly Replaced[]): string {
  const bold = marks.plain({ bold: true });
  const plain = marks.plain({ wrap: true });
  const live = replaced.filter(({ became }) => became === "formula").length;
  const fixed = replaced.filter(({ became }) => became === "value").length;
  const intro = [
    "This workbook was handed over from one that uses the Mistwright add-in. Nothing here needs the add-in.",
    `${live} of its formulas became ordinary formulas: they stay live. Where an input is wrong they show #VALUE! without saying why.`,
    `${fixed} became fixed values, in cells with a broken violet border: change an input and they do NOT follow. A note on each tells what it was.`,
    ...(replaced.length > MOST_PRINTED
      ? [
          "The list is long, so that only these lines are printed: clear the print area to print it.",
        ]
      : []),
    "Estimates stay estimates: go by the safety data sheets, the oils' certificates and your local rules.",
  ];
  const heading = ["Sheet", "Cell", "It was", "It is now", "The formula now, or why there is none"];
  const lines = replaced.map(({ sheet, cell, was, became, what }) => {
    return [sheet, cell, was, SAID[became], what];
  });
  const rows = [
    row(1, ["What was replaced"], bold),
    ...intro.map((text, i) => row(i + 2, [text], "0")),
    row(7, heading, bold),
    ...lines.map((cells, i) => row(i + 8, cells, plain)),
  ];
  const columns = WIDTHS.map(
    (width, i) => `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`,
  );
  const path = file.freePath("xl/worksheets/handover", "xml");
  file.add(
    path,
    TYPE,
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}">` +
      '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>' +
      '<sheetViews><sheetView workbookViewId="0"><pane ySplit="7" topLeftCell="A8" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>' +
      `<cols>${columns.join("")}</cols><sheetData>${rows.join("")}</sheetData>` +
      '<pageSetup orientation="landscape" fitToHeight="0"/>' +
      "<headerFooter><oddFooter>&amp;CPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>",
  );
  return path;
}

/** Says what of the last sheet is printed: of a long list its opening lines, of a short one all, its headings on each page. */
export function namePrinted(workbook: Element, sheet: string, lines: number): void {
  const localSheetId = String(elements(theChild(workbook, "sheets")).length - 1);
  const names = namesOf(workbook);
  const [name, range] =
    lines > MOST_PRINTED
      ? ["_xlnm.Print_Area", `'${sheet}'!$A$1:$E$6`]
      : ["_xlnm.Print_Titles", `'${sheet}'!$7:$7`];
  names.appendChild(elementLike(names, "definedName", { name, localSheetId }, range));
}

function row(number: number, cells: string[], style: string): string {
  const made = cells.map((text, i) => {
    const name = `${String.fromCharCode(65 + i)}${number}`;
    const isLong = text.length > LONGEST;
    const shown = escaped(
      isLong ? `${text.slice(0, LONGEST)} ... (the whole is in the cell)` : text,
    );
    return `<c r="${name}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${shown}</t></is></c>`;
  });
  // Few programs make a row as high as its text when they open a file. The opening lines run on to
  // the right.
  const lines = WIDTHS.map((width, i) =>
    Math.ceil(Math.min(cells[i]?.length ?? 0, LONGEST + 30) / (width * 0.9)),
  );
  const height = cells.length > 1 ? Math.max(...lines) * LINE : LINE;
  return `<row r="${number}" ht="${height}" customHeight="1">${made.join("")}</row>`;
}
