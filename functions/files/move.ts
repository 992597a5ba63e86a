/**
 * The file of a workbook after rows or columns were put in or taken out, or a sheet was renamed:
 * everything that says where something is follows, in every part that we know. What cannot follow
 * is taken out and named.
 */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx/xlsx";
import { cellName, readCellName } from "../formula/addresses.ts";
import { attributesOf, sheetsOf, unescaped } from "./source.ts";
import {
  type Edit,
  renameInFormula,
  shiftFormula,
  shiftIndex,
  shiftRange,
  shiftRanges,
  shiftStretch,
} from "./shift.ts";
import { moveTable, withFilters, withoutLostOrder } from "./move-table.ts";
import { Texts, elementsOf, mapTexts, withAttributes } from "./texts.ts";
import { escaped } from "./package.ts";

/** Formulas outside cells. */
const RULES = "formula|formula1|formula2|f|calculatedColumnFormula|totalsRowFormula";

export function moveWithin(texts: Texts, edit: Edit): string[] {
  const lost: string[] = [];
  const sheets = sheetsOf(texts.source);
  for (const { name, path } of sheets) {
    const isEdited = name.toLowerCase() === edit.sheet.toLowerCase();
    texts.change(path, (xml) => {
      const moved = isEdited ? movedSheet(xml, edit) : xml;
      if (isEdited) lost.push(...pushedOff(xml, name, edit));
      return mapTexts(isEdited ? moved : withoutSharedOf(moved, edit), RULES, (text) =>
        shiftFormula(text, name, edit),
      );
    });
    for (const table of texts.beside(path, "table"))
      texts.change(table, (xml) => mapTexts(xml, RULES, (text) => shiftFormula(text, name, edit)));
    if (isEdited) lost.push(...moveBeside(texts, path, name, edit));
  }
  changeEverywhere(texts, (text) => shiftFormula(text, "", edit));
  for (const path of texts.paths(/pivotCacheDefinition\d*\.xml$/))
    texts.change(path, (xml) => movedSource(xml, edit));
  return lost;
}

export function renameSheet(texts: Texts, from: string, to: string): void {
  const change = (text: string) => renameInFormula(text, from, to);
  for (const { path } of sheetsOf(texts.source))
    texts.change(path, (xml) => mapTexts(xml, RULES, change));
  changeEverywhere(texts, change);
  texts.change(texts.workbook, (xml) =>
    xml.replace(/<(?:\w+:)?sheet\s[^>]*>/g, (mark) =>
      attributesOf(mark).name === from
        ? withAttributes(mark.replace(/\/?>$/, ""), { name: to }) + "/>"
        : mark,
    ),
  );
  for (const path of texts.paths(/pivotCacheDefinition\d*\.xml$/))
    texts.change(path, (xml) =>
      xml.replace(
        /<((?:\w+:)?worksheetSource)\b([^>]*?)(\/?)>/g,
        (whole, mark: string, attributes: string, end: string) =>
          attributesOf(attributes).sheet === from
            ? `<${mark}${withAttributes(attributes, { sheet: to })}${end}>`
            : whole,
      ),
    );
}

/** Formulas of names and of charts, which always say their sheet. */
function changeEverywhere(texts: Texts, change: (text: string) => string) {
  texts.change(texts.workbook, (xml) => mapTexts(xml, "definedName", change));
  for (const path of texts.paths(/(^|\/)charts?(Ex)?\/?[^/]*\.xml$|\/charts\/[^/]+\.xml$/i))
    texts.change(path, (xml) => mapTexts(xml, "f", change));
}

function movedSource(xml: string, edit: Edit): string {
  return xml.replace(
    /<((?:\w+:)?worksheetSource)\b([^>]*?)(\/?)>/g,
    (whole, mark: string, attributes: string, end: string) => {
      const { sheet = "", ref } = attributesOf(attributes);
      if (sheet.toLowerCase() !== edit.sheet.toLowerCase() || !ref) return whole;
      return `<${mark}${withAttributes(attributes, { ref: shiftRange(ref, edit) ?? ref })}${end}>`;
    },
  );
}

/** Formulas that stand once for many cells, each written out. */
export function withoutShared(xml: string): string {
  const first = new Map<string, string>();
  return named(xml).replace(
    /(<(?:\w+:)?c\s[^>]*>\s*)<((?:\w+:)?f)\b([^>]*?)(?:\/>|>([^<]*)<\/\2>)/g,
    (whole, open: string, mark: string, attributes: string, text: string = "") => {
      const { t, si = "" } = attributesOf(attributes);
      const { r: cell } = attributesOf(open);
      if (t !== "shared" || cell === undefined) return whole;
      if (text !== "") first.set(si, translateFormulaToR1C1(unescaped(text), cell));
      const known = first.get(si);
      if (known === undefined) return whole;
      const own = text === "" ? escaped(translateFormulaToA1(known, cell)) : text;
      return `${open}<${mark}>${own}</${mark}>`;
    },
  );
}

/** Rows and cells may go without their names, each in the place after the one before it. */
function named(xml: string): string {
  if (!/<(?:\w+:)?(?:row|c)(?=[\s>/])(?![^>]*\sr=)/.test(xml)) return xml;
  let row = 0;
  return xml.replace(elementsOf("row"), (whole: string, mark: string, attributes: string) => {
    row = Number(attributesOf(attributes).r ?? row + 1);
    let column = -1;
    const inside = whole.slice(`<${mark}${attributes}`.length);
    const cells = inside.replace(elementsOf("c"), (cell: string, name: string, own: string) => {
      const { r = cellName(row - 1, column + 1) } = attributesOf(own);
      column = readCellName(r).column;
      return `<${name}${withAttributes(own, { r })}` + cell.slice(`<${name}${own}`.length);
    });
    return `<${mark}${withAttributes(attributes, { r: String(row) })}${cells}`;
  });
}

/** On other sheets only where they read the edited one. */
function withoutSharedOf(xml: string, edit: Edit): string {
  return xml.toLowerCase().includes(escaped(edit.sheet).toLowerCase()) ? withoutShared(xml) : xml;
}

function movedSheet(xml: string, edit: Edit): string {
  const from = xml.search(/<(?:\w+:)?sheetData\b/);
  const close = /<\/(?:\w+:)?sheetData>/.exec(xml);
  if (from < 0 || !close) return movedAround(xml, edit);
  return (
    movedAround(xml.slice(0, from), edit) +
    movedCells(withoutShared(xml.slice(from, close.index)), edit) +
    movedAround(xml.slice(close.index), edit)
  );
}

/** Filled cells near the foot or the right edge that find no place on the sheet any more. */
function pushedOff(xml: string, sheet: string, edit: Edit): string[] {
  // Only what stands in the last rows or columns can be pushed so far: most sheets have nothing
  // there.
  if (edit.remove || !/\sr="(?:[A-Z]*\d{7}|[WX][A-Z]{2}\d+)"/.test(xml)) return [];
  const names = [...named(xml).matchAll(elementsOf("c"))].flatMap(
    ([, , attributes = "", inside = ""]) => {
      const { r = "" } = attributesOf(attributes);
      return inside !== "" && shiftIndex(readCellName(r)[edit.dimension], edit) === null ? [r] : [];
    },
  );
  return names.map(
    (name) =>
      `${name} of "${sheet}" is pushed off the sheet by what was put in above or before it.`,
  );
}

function movedCells(xml: string, edit: Edit): string {
  return xml.replace(
    elementsOf("row"),
    (_, mark: string, attributes: string, inside: string = "") => {
      const { r } = attributesOf(attributes);
      const row = edit.dimension === "row" ? shiftIndex(Number(r) - 1, edit) : Number(r) - 1;
      if (row === null) return "";
      const cells = inside.replace(elementsOf("c"), (cell, name: string, own: string) => {
        const place = readCellName(attributesOf(own).r ?? "");
        const column = edit.dimension === "column" ? shiftIndex(place.column, edit) : place.column;
        if (column === null) return "";
        const named = `<${name}${withAttributes(own, { r: cellName(row, column) })}`;
        return (named + cell.slice(`<${name}${own}`.length)).replace(
          /(<(?:\w+:)?f\b[^>]*\bref=")([^"]*)"/,
          (_, open: string, range: string) => `${open}${shiftRange(range, edit) ?? range}"`,
        );
      });
      const opened = `<${mark}${withAttributes(attributes, { r: String(row + 1), spans: undefined })}`;
      return inside === "" ? `${opened}/>` : `${opened}>${cells}</${mark}>`;
    },
  );
}

const PLACES = /(\s(?:ref|sqref|activeCell|cell)=")([A-Z]+\d+[A-Z\d: ]*)"/g;
const GONE =
  "mergeCell|hyperlink|conditionalFormatting|dataValidation|protectedRange|ignoredError|selection|autoFilter";

function movedAround(xml: string, edit: Edit): string {
  const placed = withFilters(xml, edit)
    .replace(PLACES, (_, open: string, ranges: string) => `${open}${shiftRanges(ranges, edit)}"`)
    .replace(
      /(<(?:\w+:)?sqref>)([^<]+)/g,
      (_, open: string, ranges: string) => open + shiftRanges(ranges, edit),
    );
  const left = placed
    .replace(elementsOf(GONE), (whole, _, attributes: string) =>
      /\s(?:ref|sqref)=""/.test(attributes) ? "" : whole,
    )
    .replace(/\sactiveCell=""/g, "");
  const breaks = withoutLostOrder(left).replace(
    elementsOf("rowBreaks|colBreaks"),
    (whole: string, mark: string) =>
      /row/.test(mark) === (edit.dimension === "row") ? movedBreaks(whole, edit) : whole,
  );
  return counted(edit.dimension === "column" ? movedColumns(breaks, edit) : breaks);
}

function movedBreaks(xml: string, edit: Edit): string {
  return xml.replace(
    /(\sid=")(\d+)"/g,
    (_, open: string, id: string) => `${open}${shiftIndex(Number(id), edit) ?? id}"`,
  );
}

function movedColumns(xml: string, edit: Edit): string {
  return xml.replace(elementsOf("col"), (_, mark: string, attributes: string) => {
    const { min, max } = attributesOf(attributes);
    const moved = shiftStretch(Number(min) - 1, Number(max) - 1, edit);
    if (!moved) return "";
    const [first, last] = moved;
    return `<${mark}${withAttributes(attributes, { min: String(first + 1), max: String(last + 1) })}/>`;
  });
}

/** Lists that say how long they are; empty ones are left out. */
function counted(xml: string): string {
  return xml.replace(
    elementsOf("mergeCells|dataValidations|hyperlinks|cols"),
    (whole: string, mark: string, attributes: string, inside: string = "") => {
      const count =
        inside.match(/<(?:\w+:)?(?:mergeCell|dataValidation|hyperlink|col)[\s/>]/g)?.length ?? 0;
      if (count === 0) return "";
      if (!/\scount=/.test(attributes)) return whole;
      return `<${mark}${withAttributes(attributes, { count: String(count) })}>${inside}</${mark}>`;
    },
  );
}

/** What hangs on a sheet: notes, drawings, tables, pivots. */
function moveBeside(texts: Texts, sheet: string, name: string, edit: Edit): string[] {
  for (const path of texts.beside(sheet, "comments", "threadedComment"))
    texts.change(path, (xml) => movedNotes(xml, edit));
  for (const path of texts.beside(sheet, "vmlDrawing"))
    texts.change(path, (xml) => movedShapes(xml, edit));
  for (const path of texts.beside(sheet, "drawing"))
    texts.change(path, (xml) => movedAnchors(xml, edit));
  for (const path of texts.beside(sheet, "pivotTable"))
    texts.change(path, (xml) =>
      xml.replace(
        /(<(?:\w+:)?location\b[^>]*\sref=")([^"]*)"/,
        (_, open: string, range: string) => `${open}${shiftRange(range, edit) ?? range}"`,
      ),
    );
  return texts.beside(sheet, "table").flatMap((path) => moveTable(texts, sheet, name, path, edit));
}

function movedNotes(xml: string, edit: Edit): string {
  return xml.replace(
    elementsOf("comment|threadedComment"),
    (whole: string, mark: string, attributes: string) => {
      const moved = shiftRange(attributesOf(attributes).ref ?? "", edit);
      if (moved === null) return "";
      return (
        `<${mark}${withAttributes(attributes, { ref: moved })}` +
        whole.slice(`<${mark}${attributes}`.length)
      );
    },
  );
}

/**
 * Notes' shapes say their cell, and the corners where they are shown: column, offset, row, offset,
 * twice.
 */
function movedShapes(xml: string, edit: Edit): string {
  const own = edit.dimension === "row" ? "Row" : "Column";
  return xml.replace(/<v:shape\b[\s\S]*?<\/v:shape>/g, (shape) => {
    const place = new RegExp(`(<x:${own}>)(\\d+)`).exec(shape);
    const moved = place ? shiftIndex(Number(place[2]), edit) : null;
    if (!place) return shape;
    if (moved === null) return "";
    const by = moved - Number(place[2]);
    return shape
      .replace(place[0], `${place[1]}${moved}`)
      .replace(/(<x:Anchor>)([^<]*)/, (_, open: string, corners: string) => {
        const numbers = corners.split(",").map(Number);
        const spots = edit.dimension === "row" ? [2, 6] : [0, 4];
        return (
          open +
          numbers.map((each, i) => (spots.includes(i) ? Math.max(0, each + by) : each)).join(", ")
        );
      });
  });
}

function movedAnchors(xml: string, edit: Edit): string {
  const own = edit.dimension === "row" ? "row" : "col";
  return xml.replace(elementsOf("from|to"), (whole: string) =>
    whole.replace(new RegExp(`(<(?:\\w+:)?${own}>)(\\d+)`), (_, open: string, index: string) => {
      const [first] = shiftStretch(Number(index), Number(index), edit) ?? [
        Number(index) - (edit.remove?.filter((each) => each < Number(index)).length ?? 0),
      ];
      return `${open}${first}`;
    }),
  );
}
