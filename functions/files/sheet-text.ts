/** The text of a sheet as the local sheet's engine reads it right, whatever program wrote it. */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx/xlsx";
import { cellName, readCellName } from "../formula/addresses.ts";
import { type Far, type Fence, farOf } from "./far.ts";
import { intersected } from "./intersection.ts";
import { escaped } from "./package.ts";
import { type Looks, solid } from "./plain-styles.ts";
import { Refusal } from "./refusal.ts";
import { type ReadCell, type ReadRow, rowsXml } from "./rows.ts";
import { type SharedTexts, textOf } from "./shared-texts.ts";
import { attributesOf, unescaped } from "./source.ts";

const LAST_ROW = 1_048_576;
const LAST_COLUMN = 16_384;
const ROW = /<row\b([^>]*?)(?:\/>|>([\s\S]*?)<\/row>)/g;
const CELL = /<c\b([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g;

/** The text of a sheet: its cells named, texts shared, formulas each written out. */
export class SheetText {
  private readonly first = new Map<string, string>();
  /** The names of cells that hold a text. */
  private readonly worded = new Set<string>();
  private row = 0;

  constructor(
    private readonly name: string,
    private readonly texts: SharedTexts,
    private readonly looks: Looks,
    private readonly fence?: Fence,
  ) {}

  read(xml: string): { xml: string; far: Far } {
    const from = xml.search(/<sheetData\b/);
    if (from < 0)
      throw new Refusal(
        `This file is damaged: its sheet "${this.name}" has no place for cells. Open it in the program that made it and save a copy.`,
      );
    const end = xml.indexOf("</sheetData>", from);
    if (end < 0) return { xml: plainFormulas(xml), far: farOf([]) };
    const rows = Array.from(
      xml.slice(from, end).matchAll(ROW),
      ([, attributes = "", inside = ""]) => this.readRow(attributes, inside),
    );
    const head = xml.slice(0, from);
    const usual = attributesOf(/<sheetFormatPr\b([^>]*)/.exec(head)?.[1] ?? "").defaultRowHeight;
    const far = farOf(rows, this.fence);
    const read =
      plainFormulas(solid(this.columnLooks(head))) +
      `<sheetData>${withArraysWithin(rowsXml(rows, far.shown, usual), far.shown)}</sheetData>` +
      this.linksOfTexts(withMergesWithin(plainFormulas(solid(xml.slice(end + 12))), far.shown));
    return { xml: read, far };
  }

  private readRow(attributes: string, inside: string): ReadRow {
    const { r, ...others } = attributesOf(attributes);
    this.row = r ? Number(r) : this.row + 1;
    if (!(this.row >= 1 && this.row <= LAST_ROW)) this.refuse(`row ${r}`);
    let column = -1;
    const cells = Array.from(inside.matchAll(CELL), ([, text = "", within = ""]): ReadCell => {
      const own = attributesOf(text);
      const name = own.r ?? cellName(this.row - 1, column + 1);
      column = this.columnOf(name);
      const content = this.content(name, own, within);
      if (content.startsWith(' t="s"')) this.worded.add(name);
      const look = this.hasLook(own.s) ? ` s="${own.s}"` : "";
      return { column, xml: `<c r="${name}"${look}${content}`, isUsed: content !== "/>" };
    });
    if (!this.hasLook(others.s)) delete others.s;
    return { number: this.row, attributes: others, cells };
  }

  /**
   * The engine makes a text of what has a link, which a number must not become, and shows the
   * link's name for it.
   */
  private linksOfTexts(xml: string): string {
    return xml.replace(
      /<hyperlink\s([^>]*?)(?:\/>|>\s*<\/hyperlink>)/g,
      (whole, attributes: string) => {
        if (!this.worded.has(attributesOf(attributes).ref ?? "")) return "";
        // Nor does it know a quote in the name of a sheet by its being doubled.
        return whole.replace(/\sdisplay="[^"]*"/, "").replace(/(?<=\slocation="[^"]*)''/g, "'");
      },
    );
  }

  /** A look that the file does not hold would stop the engine. */
  private hasLook(style: string | undefined): boolean {
    return style !== undefined && Number(style) < this.looks.count;
  }

  private columnLooks(xml: string): string {
    return xml.replace(/(<col\b[^>]*?)\sstyle="(\d+)"/g, (whole, open: string, style: string) =>
      this.hasLook(style) ? whole : open,
    );
  }

  private columnOf(name: string): number {
    const match = /^([A-Z]{1,3})(\d{1,7})$/.exec(name);
    if (!match) this.refuse(`cell ${name}`);
    const { row, column } = readCellName(name);
    if (row + 1 !== this.row || column >= LAST_COLUMN) this.refuse(`cell ${name}`);
    return column;
  }

  private refuse(what: string): never {
    throw new Refusal(
      `This file is damaged: it names a ${what} on the sheet "${this.name}" that no sheet has there. Open it in the program that made it and save a copy.`,
    );
  }

  /** What stands in a cell, from the end of its opening. */
  private content(
    cell: string,
    { t: type = "n", s }: Record<string, string>,
    inside: string,
  ): string {
    const formula = this.formula(cell, inside);
    const value = /<v\b[^>]*>([\s\S]*?)<\/v>/.exec(inside)?.[1];
    if (formula && type === "inlineStr") return ` t="str">${formula}<v>${textOf(inside)}</v></c>`;
    if (type === "inlineStr") return this.text(textOf(inside), s);
    if (type === "str" && !formula) return this.text(value ?? "", s);
    if (value === undefined && !formula) return "/>";
    if (type === "s" && !formula) return this.shared(Number(value), s);
    if (type === "d") return ` t="n">${formula}<v>${serial(value ?? "")}</v></c>`;
    const shown = value === undefined ? "" : `<v>${value}</v>`;
    return `${type === "n" ? "" : ` t="${escaped(type)}"`}>${formula}${shown}</c>`;
  }

  private text(text: string, style: string | undefined): string {
    return text === "" ? "/>" : this.shared(this.texts.add(text), style);
  }

  /** A text by its number; its look may say that it was typed with an apostrophe. */
  private shared(number: number, style: string | undefined): string {
    const isQuoted = style !== undefined && this.looks.quoted.has(Number(style));
    return ` t="s"><v>${isQuoted ? this.texts.quoted(number) : number}</v></c>`;
  }

  private formula(cell: string, within: string): string {
    const match = /<f\b([^>]*?)(?:\/>|>([\s\S]*?)<\/f>)/.exec(within);
    if (!match) return "";
    const [, attributes = "", inside = ""] = match;
    const { t, si = "", ref } = attributesOf(attributes);
    let text = unprefixed(inside);
    if (t === "shared") text = this.sharedFormula(cell, si, text);
    if (text.trim() === "") return "";
    if (t !== "array") text = escaped(intersected(unescaped(text), cell));
    return `<f${t === "array" && ref ? ` t="array" ref="${escaped(ref)}"` : ""}>${text}</f>`;
  }

  /** A formula that stands once for many cells, as it is in this one. */
  private sharedFormula(cell: string, group: string, text: string): string {
    try {
      if (text !== "") this.first.set(group, translateFormulaToR1C1(unescaped(text), cell));
      const first = this.first.get(group);
      if (text !== "" || first === undefined) return text;
      return escaped(translateFormulaToA1(first, cell));
    } catch {
      return text;
    }
  }
}

/**
 * The engine goes through each cell of what is merged, which a file may say of a whole sheet, and would
 * lay what is out of sight over the cells at its foot.
 */
function withMergesWithin(xml: string, shown: Fence): string {
  return xml.replace(/<mergeCell\s([^>]*?)\/>/g, (_, attributes: string) => {
    const [, first = "", last = first] = CORNERS.exec(attributesOf(attributes).ref ?? "") ?? [];
    if (first === "") return "";
    const { row, column } = readCellName(first);
    if (row >= shown.row || column >= shown.column) return "";
    return `<mergeCell ref="${first}:${lastWithin(last, shown)}"/>`;
  });
}

const CORNERS = /^([A-Z]{1,3}\d{1,7})(?::([A-Z]{1,3}\d{1,7}))?$/;

/** The last cell of a range that begins in sight, or the last that is. */
function lastWithin(name: string, shown: Fence): string {
  const { row, column } = readCellName(name);
  return cellName(Math.min(row, shown.row - 1), Math.min(column, shown.column - 1));
}

/** The engine goes through each cell that an array formula fills: a file may name a whole sheet. */
function withArraysWithin(xml: string, shown: Fence): string {
  return xml.replace(
    /(<f t="array" ref=")([A-Z]+\d+):([A-Z]+\d+)"/g,
    (_, open: string, first: string, last: string) => {
      const [from, to] = [readCellName(first), readCellName(last)];
      const row = Math.max(from.row, Math.min(to.row, shown.row - 1));
      const column = Math.max(from.column, Math.min(to.column, shown.column - 1));
      return `${open}${first}:${cellName(row, column)}"`;
    },
  );
}

/** Formulas of rules and formats. */
function plainFormulas(xml: string): string {
  return xml.replace(
    /(<(formula|formula1|formula2|xm:f)\b[^>]*>)([^<]*)(<\/\2>)/g,
    (_, open: string, __, text: string, close: string) => open + unprefixed(text) + close,
  );
}

const PREFIXES = /_xlfn\.(?:_xlws\.)?|_xlws\.|_xlpm\./gi;

/** Without the prefixes that files put before newer functions. */
function unprefixed(formula: string): string {
  if (!formula.includes("_xl")) return formula;
  const parts = formula.split(/("|&quot;)/);
  // Every second part between quotes stands inside them, and is left as it is.
  return parts.map((part, i) => (i % 4 === 2 ? part : part.replace(PREFIXES, ""))).join("");
}

/** A date of a strict file, 2026-11-25T12:00:00, as Excel's number. */
function serial(text: string): string {
  const time = /^\d{2}:/.test(text)
    ? Date.parse(`1899-12-30T${text}Z`)
    : Date.parse(/T/.test(text) ? `${text.replace(/Z$/, "")}Z` : text);
  return Number.isNaN(time) ? escaped(text) : String((time - Date.UTC(1899, 11, 30)) / 86_400_000);
}
