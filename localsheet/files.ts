/**
 * Workbook files, .xlsx in and out. The engine writes and reads the parts, fflate the zip around them
 * (jszip was looked at: ten times the size for the same job).
 *
 * Excel stores a call of an add-in's function as _xldudf_MIST_OILFOR(...). So do we, that Excel with
 * the add-in may know the calls again; on opening they are turned back.
 */
import { orderChart } from "../functions/files/chart-order.ts";
import { finishTables } from "../functions/files/list-tables.ts";
import { Package, allNamed, appendStyle, escaped, styleLike } from "../functions/files/package.ts";
import { withinSheet } from "../functions/files/shift.ts";
import { unescaped } from "../functions/files/source.ts";
import { readCellName } from "../functions/formula/addresses.ts";
import { inQuotes } from "../functions/formula/sheet-names.ts";
import { needsArray, unknownToExcel } from "../functions/files/written-formula.ts";
import { storedFormula } from "../functions/formula/writer.ts";
import { absoluteAll } from "../functions/formula/references.ts";
import { labelKnown } from "./chart-labels.ts";
import { toExcelError } from "./custom-functions.ts";
import type { Model } from "./engine.ts";
import { mapFormulas } from "./open.ts";
import { nameOf } from "./growing.ts";
import { pagesOf, withPage } from "./pages.ts";
import type { DrawnPage } from "../taskpane/sheets/drawing.ts";
import { printedOf, titlesOf } from "../taskpane/sheets/page.ts";

export { fromXlsx, namesIn } from "./open.ts";

/** The workbook as the bytes of an .xlsx file. */
export async function toXlsx(model: Model): Promise<Uint8Array> {
  return (await written(model)).bytes;
}

export interface SavedFile {
  bytes: Uint8Array;
  /** What the file could not take as it stands, in words. */
  lost: string[];
}

/** The workbook as a file of its own, and what it could not take. */
export async function written(model: Model): Promise<SavedFile> {
  const { files } = await model.exportXLSX();
  const lost: string[] = [];
  const parts = files.map((file): [string, string] => {
    if (!("content" in file))
      throw new Error(`cannot save ${file.path}: pictures are not supported`);
    return [file.path, valid(partOf(file.path, file.content, model, lost))];
  });
  const book = Package.of(Object.fromEntries(parts));
  for (const [path] of parts) {
    if (!path.startsWith("xl/charts/")) continue;
    labelKnown(book.root(path), model);
    orderChart(book.root(path));
  }
  quoteTexts(book, parts);
  nameTables(book, model);
  return { bytes: book.save(), lost };
}

/** Texts that were typed with an apostrophe, the only ones that stand in their cells, have a look that says so. */
function quoteTexts(book: Package, parts: readonly [string, string][]) {
  const styles = book.root("xl/styles.xml");
  const made = new Map<string, string>();
  const quoted = (style: string) => {
    const xf = styleLike(styles, "cellXfs", style);
    xf.setAttribute("quotePrefix", "1");
    return appendStyle(styles, "cellXfs", xf);
  };
  for (const [path, xml] of parts) {
    if (!path.startsWith("xl/worksheets/sheet") || !xml.includes('t="inlineStr"')) continue;
    for (const cell of allNamed(book.root(path), "c")) {
      if (cell.getAttribute("t") !== "inlineStr") continue;
      const style = cell.getAttribute("s") ?? "0";
      if (!made.has(style)) made.set(style, quoted(style));
      cell.setAttribute("s", made.get(style) ?? style);
    }
  }
}

/** The engine numbers its tables; those of lists have names. */
function nameTables(book: Package, { getters }: Model) {
  const taken = new Set(getters.getNamedRanges().map(({ name }) => name.toLowerCase()));
  getters.getSheetIds().forEach((sheetId, i) => {
    const names = new Map(
      getters
        .getCoreTables(sheetId)
        .map(({ range, config }) => [getters.zoneToXC(sheetId, range.zone), nameOf(config)]),
    );
    finishTables(book, `xl/worksheets/sheet${i}.xml`, (range) => names.get(range), taken);
  });
}

function partOf(path: string, content: string, model: Model, lost: string[]): string {
  if (path === "xl/workbook.xml") return withNames(content, model);
  const stored = mapFormulas(content, asStored).replace(/(?<=\ssqref=")[^"]*/g, withinSheet);
  const sheet = /^xl\/worksheets\/sheet(\d+)\.xml$/.exec(path);
  if (!sheet) return stored;
  const sheetId = model.getters.getSheetIds()[Number(sheet[1])];
  if (sheetId === undefined) return stored;
  const cells = withHeights(new SheetCells(model, sheetId, lost).written(stored), model, sheetId);
  return withPage(cells, pagesOf(model)[sheetId]);
}

/** A formula as Excel's files have it; the engine forgets the second prefix of two functions. */
function asStored(formula: string): string {
  return withinSheet(storedFormula(formula)).replace(
    /(?<![\w.])(?:_xlfn\.)?(SORT|FILTER)\(/g,
    "_xlfn._xlws.$1(",
  );
}

/** What the engine writes and the format does not allow. */
function valid(xml: string): string {
  return xml
    .replaceAll(' errorStyle=""', "")
    .replace(/\sTarget="https:\/\/(?=(?:mailto|tel|ftp|file):)/g, ' Target="')
    .replace(/(\slocation=")([^"!]+)(?=!A1")/g, (_, open: string, sheet: string) => {
      return `${open}'${escaped(unescaped(sheet).replaceAll("'", "''"))}'`;
    })
    .replace(/\brgb="([0-9A-Fa-f]{6})"/g, 'rgb="FF$1"')
    .replace(/<cellXfs\b/, `${NORMAL_LOOK}$&`)
    .replace("</cellXfs>", `</cellXfs>${NORMAL}`)
    .replace(/(<si><t)>(?=[^<]*[\n\t]|[^<]* {2})/g, '$1 xml:space="preserve">');
}

/** The name of the plain look, which the engine leaves out. */
const NORMAL_LOOK =
  '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>';
const NORMAL =
  '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>';

/** The cells of a sheet, as the model has them: the engine writes some of it for programs like itself. */
class SheetCells {
  constructor(
    private readonly model: Model,
    private readonly sheetId: string,
    private readonly lost: string[],
  ) {}

  written(xml: string): string {
    const cell =
      /<c r="([A-Z]+\d+)"([^>]*?)(?:\/>|>\s*(?:<f\b[^>]*>([^<]*)<\/f>)?(<v>[^<]*<\/v>|<v\/>)?\s*<\/c>)/g;
    return xml.replace(
      cell,
      (_, name: string, attributes: string, formula: string = "", value = "") => {
        const style = / s="\d+"/.exec(attributes)?.[0] ?? "";
        const made = this.content(name, unescaped(formula));
        if (made !== null) return `<c r="${name}"${style}${made}`;
        return `<c r="${name}"${attributes}>${value}</c>`;
      },
    );
  }

  /** What stands in a cell, from the end of its opening; null where the engine has it right. */
  private content(name: string, exported: string): string | null {
    const { row, column } = readCellName(name);
    const position = { sheetId: this.sheetId, row, col: column };
    const { getters } = this.model;
    if (getters.getCell(position)?.isFormula) return this.formula(name, position, exported);
    if (getters.getArrayFormulaSpreadingOn(position)) return this.value(position);
    const text = literalOf(getters.getCell(position));
    if (!text.startsWith("'")) return null;
    return ` t="inlineStr"><is><t xml:space="preserve">${escaped(text.slice(1))}</t></is></c>`;
  }

  private formula(name: string, position: Position, exported: string): string {
    const { getters } = this.model;
    const typed = getters.getCellText(position, { showFormula: true });
    const text = exported && !LOSES.test(typed) ? exported : ownText(typed, exported);
    const foreign = unknownToExcel(text);
    if (foreign) {
      this.lost.push(
        `${name} of "${getters.getSheetName(this.sheetId)}" is written as its value: ${foreign} is known to the local sheet only (${typed}).`,
      );
      return this.value(position);
    }
    const spread = getters.getSpreadZone(position);
    const isWide = spread && (spread.bottom > spread.top || spread.right > spread.left);
    const range = isWide ? getters.zoneToXC(this.sheetId, spread) : name;
    const array = isWide || needsArray(text);
    const open = array ? `<f t="array" ref="${range}">` : "<f>";
    const value = this.value(position).replace(">", `>${open}${escaped(text)}</f>`);
    return array ? ` cm="1"${value}` : value;
  }

  private value(position: Position): string {
    const { type, value } = this.model.getters.getEvaluatedCell(position);
    if (type === "empty") return "></c>";
    const kind = { number: "", text: ' t="str"', boolean: ' t="b"', error: ' t="e"' }[type];
    const shown = type === "error" ? errorInFile(value) : value;
    return `${kind}><v>${escaped(String(type === "boolean" ? Number(shown) : shown))}</v></c>`;
  }
}

/** The engine writes 2^(-A1/B1) without its brackets, which is another number. */
const LOSES = /\(\s*[-+]/;

/** A formula in our own words, with the prefixes that the engine found needful. */
function ownText(typed: string, exported: string): string {
  const newer = new Set([...exported.matchAll(/_xlfn\.([A-Z][\w.]*)\(/g)].map(([, name]) => name));
  const parts = typed.replace(/^=/, "").split('"');
  // Every second part stands inside quotes.
  const prefixed = parts.map((part, i) => {
    if (i % 2) return part;
    return part.replace(/(?<![\w.])([A-Za-z][\w.]*)\(/g, (call: string, name: string) =>
      newer.has(name.toUpperCase()) ? `_xlfn.${call}` : call,
    );
  });
  return asStored(prefixed.join('"'));
}

/** What was typed into a cell that holds no formula. */
function literalOf(cell?: { isFormula: boolean; content?: string }): string {
  return (cell?.isFormula ? "" : cell?.content) ?? "";
}

interface Position {
  sheetId: string;
  row: number;
  col: number;
}

/** Height of a row of plain text, and points in a pixel. */
const PLAIN_ROW = 23;
const POINTS = 0.75;

/** Rows that have grown with their text: other programs do not all make them grow again. */
function withHeights(xml: string, { getters }: Model, sheetId: string): string {
  return xml.replace(/<row r="(\d+)"([^>]*)>/g, (whole, number: string, rest: string) => {
    const height = getters.getRowSize(sheetId, Number(number) - 1);
    if (height === PLAIN_ROW || /\bht="/.test(rest)) return whole;
    return `<row r="${number}"${rest} ht="${height * POINTS}">`;
  });
}

/** The engine writes no names of ranges; formulas that use them need them. */
function withNames(xml: string, model: Model): string {
  const names = [
    ...namesOf(model).map(
      ([name, reference]) =>
        `<definedName name="${escaped(name)}">${escaped(reference)}</definedName>`,
    ),
    ...pageNamesOf(model),
  ];
  if (names.length === 0) return xml;
  return xml.replace("</sheets>", `</sheets><definedNames>${names.join("")}</definedNames>`);
}

/** What each page repeats, and what is printed: files tell it by names that Excel knows. */
function pageNamesOf(model: Model): string[] {
  const pages = pagesOf(model);
  return model.getters.getSheetIds().flatMap((id, i) => {
    const page = withOwnColumns(model, id, pages[id]);
    const { columns, rows } = titlesOf(page);
    const sheet = inQuotes(model.getters.getSheetName(id));
    const name = (is: string, ...ranges: (string | undefined)[]) => {
      const there = ranges.flatMap((each) => (each ? [`${sheet}!${each}`] : [])).join(",");
      if (there === "") return [];
      return [
        `<definedName name="_xlnm.${is}" localSheetId="${i}">${escaped(there)}</definedName>`,
      ];
    };
    return [...name("Print_Area", ...printedOf(page)), ...name("Print_Titles", columns, rows)];
  });
}

/** What a maker has written to the right of what was drawn goes to paper, too. */
function withOwnColumns({ getters }: Model, sheetId: string, page: DrawnPage = {}): DrawnPage {
  let { last } = page;
  if (last === undefined) return page;
  for (const cell of getters.getCells(sheetId))
    if (cell.isFormula || cell.content) last = Math.max(last, getters.getCellPosition(cell.id).col);
  return { ...page, last };
}

/** The names of ranges, and what they stand for as files have it. */
export function namesOf({ getters }: Model): [string, string][] {
  return getters.getNamedRanges().map(({ name, range }) => {
    const options = { useBoundedReference: true };
    const reference = getters.getRangeString(range, "forceSheetReference", options);
    return [name, absoluteAll(withinSheet(reference), "")];
  });
}

/** Files know no error of a spill that has no room. */
function errorInFile(code: string): string {
  return code === "#SPILL!" ? "#VALUE!" : toExcelError(code);
}
