/**
 * Writes into the text of a sheet: cells, sizes, lists. What is not written to stays as it stands.
 */
import { cellName, readCellName } from "../formula/addresses.ts";
import { withoutShared } from "./move.ts";
import { attributesOf } from "./source.ts";
import type { CellStyle, StyleBook } from "./style-book.ts";
import { elementsOf, withAttributes } from "./texts.ts";

export interface CellEdit {
  /**
   * From the end of the cell's opening, without prefixes: ` t="str"><f>A1</f><v>x</v>`; empty for
   * no content.
   */
  content?: string;
  /** Its value alone is another: the formula stays as it stands. */
  isValue?: boolean;
  /** The range that its formula fills now. */
  spread?: string;
  /** It is a text that was typed with an apostrophe before it. */
  isQuoted?: boolean;
  /** The look that it had and the one that it has. */
  look?: [CellStyle, CellStyle];
}

/** Attributes of rows or columns, by their place from zero. */
export type SizeEdits = ReadonlyMap<number, Record<string, string | undefined>>;

export interface SheetEdits {
  cells: ReadonlyMap<string, CellEdit>;
  rows: SizeEdits;
  columns: SizeEdits;
}

interface Row {
  number: number;
  open: string;
  text: string;
}

const DATA = /<((?:\w+:)?)sheetData\b[^>]*?(?:\/>|>([\s\S]*?)<\/\1sheetData>)/;

export function patchSheet(xml: string, edits: SheetEdits, styles: StyleBook): string {
  const found = DATA.exec(xml);
  if (!found) throw new Error("the sheet lacks its cells");
  const [whole, prefix = "", inside = ""] = found;
  const before = patchColumns(xml.slice(0, found.index), edits.columns, prefix);
  const isShared = [...edits.cells.keys()].length > 0 && /\bt="shared"/.test(inside);
  const cells = isShared ? withoutSharedAt(inside, edits.cells) : inside;
  const rows = new Rows(cells, prefix, columnStyles(before), styles).patched(edits);
  return (
    withDimension(before, edits.cells) +
    `<${prefix}sheetData>${rows}</${prefix}sheetData>` +
    xml.slice(found.index + whole.length)
  );
}

/** Only where a formula that stands for others is written to; else each stays as it is. */
function withoutSharedAt(inside: string, cells: ReadonlyMap<string, CellEdit>): string {
  const isFirst = [
    ...inside.matchAll(/<(?:\w+:)?c\s([^>]*)>\s*<(?:\w+:)?f\b[^>]*\bt="shared"[^>]*\bref="/g),
  ].some(([, attributes = ""]) => {
    const edit = cells.get(attributesOf(attributes).r ?? "");
    return edit?.content !== undefined && !edit.isValue;
  });
  return isFirst ? withoutShared(inside) : inside;
}

function columnStyles(xml: string): (column: number) => string | undefined {
  const columns = [...xml.matchAll(elementsOf("col"))].map(([, , attributes = ""]) =>
    attributesOf(attributes),
  );
  return (column) =>
    columns.find(({ min, max }) => Number(min) <= column + 1 && column + 1 <= Number(max))?.style;
}

class Rows {
  constructor(
    private readonly inside: string,
    private readonly prefix: string,
    private readonly styleOf: (column: number) => string | undefined,
    private readonly styles: StyleBook,
  ) {}

  patched({ cells, rows }: SheetEdits): string {
    const byRow = new Map<number, Map<number, CellEdit>>();
    for (const [name, edit] of cells) {
      const { row, column } = readCellName(name);
      const known = byRow.get(row) ?? new Map<number, CellEdit>();
      byRow.set(row, known.set(column, edit));
    }
    const touched = new Set([...byRow.keys(), ...rows.keys()]);
    const all = this.rows();
    const known = new Set(all.map(({ number }) => number));
    for (const number of touched)
      if (!known.has(number)) all.push({ number, open: ` r="${number + 1}"`, text: "" });
    all.sort((a, b) => a.number - b.number);
    return all
      .map((row) =>
        touched.has(row.number)
          ? this.row(row, byRow.get(row.number), rows.get(row.number))
          : row.text,
      )
      .join("");
  }

  private rows(): Row[] {
    let last = -1;
    return [...this.inside.matchAll(elementsOf("row"))].map(([text, , open = ""]) => {
      const { r } = attributesOf(open);
      last = r ? Number(r) - 1 : last + 1;
      return { number: last, open, text };
    });
  }

  private row(
    { number, open, text }: Row,
    edits = new Map<number, CellEdit>(),
    sizes = {},
  ): string {
    const own = attributesOf(open);
    const cells = new Map<number, string>();
    let last = -1;
    for (const [cell, , attributes = ""] of text
      .replace(/^<[^>]*>/, "")
      .matchAll(elementsOf("c"))) {
      const { r } = attributesOf(attributes);
      last = r ? readCellName(r).column : last + 1;
      cells.set(last, cell);
    }
    for (const [column, edit] of edits) {
      const base = /^(1|true)$/.test(own.customFormat ?? "") ? own.s : this.styleOf(column);
      const made = this.cell(cellName(number, column), cells.get(column), edit, base ?? "0");
      if (made === "") cells.delete(column);
      else cells.set(column, made);
    }
    const inOrder = [...cells].sort(([a], [b]) => a - b).map(([, cell]) => cell);
    const attributes = withAttributes(open, { r: String(number + 1), spans: undefined, ...sizes });
    if (inOrder.length === 0 && Object.keys(attributesOf(attributes)).length === 1) return "";
    return `<${this.prefix}row${attributes}>${inOrder.join("")}</${this.prefix}row>`;
  }

  private cell(name: string, text: string | undefined, edit: CellEdit, base: string): string {
    const [, mark = `${this.prefix}c`, attributes = ` r="${name}"`, inside = ""] =
      (text && elementsOf("c").exec(text)) || [];
    const own = attributesOf(attributes);
    const style = own.s ?? (text === undefined ? base : "0");
    const looked = edit.look ? this.styles.changed(style, ...edit.look) : style;
    const isTyped = edit.content !== undefined && !edit.isValue;
    const look = isTyped ? this.styles.quoted(looked, edit.isQuoted ?? false) : looked;
    const s = look === "0" && own.s === undefined ? undefined : look;
    if (edit.content === undefined)
      return `<${mark}${withAttributes(attributes, { r: name, s })}>${inside}</${mark}>`;
    const kept = withAttributes(attributes, {
      r: name,
      s,
      t: undefined,
      cm: undefined,
      vm: undefined,
    });
    if (edit.content === "") return s === undefined && !edit.look ? "" : `<${mark}${kept}/>`;
    const cut = edit.content.indexOf(">");
    const made = this.prefixed(edit.content.slice(cut + 1));
    if (!edit.isValue) return `<${mark}${kept}${edit.content.slice(0, cut)}>${made}</${mark}>`;
    const { cm } = own;
    const formula = spreading(elementsOf("f").exec(inside)?.[0] ?? "", edit.spread);
    const valued = withAttributes(kept, { cm, t: attributesOf(edit.content.slice(0, cut)).t });
    return `<${mark}${valued}>${formula}${made.replace(elementsOf("f"), "")}</${mark}>`;
  }

  private prefixed(xml: string): string {
    return this.prefix ? xml.replace(/<(\/?)(?=\w)/g, `<$1${this.prefix}`) : xml;
  }
}

/** An array formula with the range that it fills now. */
function spreading(formula: string, spread: string | undefined): string {
  if (spread === undefined) return formula;
  return formula.replace(
    /^(<[^>]*\st="array"[^>]*\sref=")[^"]*/,
    (_, open: string) => open + spread,
  );
}

/** Columns by stretches; those that are written to are cut out of theirs. */
function patchColumns(xml: string, edits: SizeEdits, prefix: string): string {
  if (edits.size === 0) return xml;
  const stretches = [...xml.matchAll(elementsOf("col"))].map(([, , attributes = ""]) => ({
    attributes,
    min: Number(attributesOf(attributes).min),
    max: Number(attributesOf(attributes).max),
  }));
  for (const [index, changes] of edits) {
    const number = index + 1;
    const at = stretches.findIndex(({ min, max }) => min <= number && number <= max);
    const one = stretches[at];
    const parts = one
      ? [
          { ...one, max: number - 1 },
          { ...one, min: number, max: number, attributes: withAttributes(one.attributes, changes) },
          { ...one, min: number + 1 },
        ]
      : [{ min: number, max: number, attributes: withAttributes("", changes) }];
    stretches.splice(
      at < 0 ? stretches.length : at,
      at < 0 ? 0 : 1,
      ...parts.filter(({ min, max }) => min <= max),
    );
  }
  const lines = stretches
    .sort((a, b) => a.min - b.min)
    .map(
      ({ min, max, attributes }) =>
        `<${prefix}col${withAttributes(attributes, { min: String(min), max: String(max) })}/>`,
    );
  const made = `<${prefix}cols>${lines.join("")}</${prefix}cols>`;
  const known = elementsOf("cols");
  return known.test(xml) ? xml.replace(elementsOf("cols"), () => made) : xml + made;
}

/** The range that a sheet says that it uses. */
function withDimension(xml: string, cells: ReadonlyMap<string, CellEdit>): string {
  return xml.replace(
    /(<(?:\w+:)?dimension\b[^>]*\bref=")([A-Z]+\d+)(?::([A-Z]+\d+))?"/,
    (whole, open: string, first: string, last = first) => {
      const places = [first, last, ...cells.keys()].map(readCellName);
      const rows = places.map(({ row }) => row);
      const columns = places.map(({ column }) => column);
      const low = (all: number[]) => all.reduce((a, b) => Math.min(a, b));
      const high = (all: number[]) => all.reduce((a, b) => Math.max(a, b));
      const corner = cellName(low(rows), low(columns));
      const opposite = cellName(high(rows), high(columns));
      const isSame = corner === first && opposite === last;
      return isSame ? whole : `${open}${corner}:${opposite}"`;
    },
  );
}

/** What follows the cells of a sheet, in the order that programs insist on. */
const ORDER =
  "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls webPublishItems tableParts extLst".split(
    " ",
  );

/**
 * Puts an element into a sheet where it belongs; it takes the place of all of its name, or stands
 * after them.
 */
export function putElement(xml: string, name: string, element: string, replaces: boolean): string {
  const close = /<\/(?:\w+:)?sheetData>/.exec(xml);
  const cut = close ? close.index + close[0].length : 0;
  const around = xml.slice(cut);
  const left = replaces ? around.replace(elementsOf(name), "") : around;
  const at = placeFor(left, name);
  return xml.slice(0, cut) + left.slice(0, at) + element + left.slice(at);
}

/** Before the first element right on the sheet that comes later. */
function placeFor(xml: string, name: string): number {
  const later = new Set(ORDER.slice(ORDER.indexOf(name) + 1));
  let depth = 0;
  for (const mark of xml.matchAll(/<(\/?)(?:[\w.-]+:)?([\w.-]+)[^>]*?(\/?)>/g)) {
    const [, close, local = "", empty] = mark;
    if (depth === 0 && (close || later.has(local))) return mark.index;
    if (close) depth--;
    else if (!empty) depth++;
  }
  return xml.length;
}
