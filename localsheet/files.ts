/**
 * Workbook files, .xlsx in and out. The engine writes and reads the parts, fflate the zip around them
 * (jszip was looked at: ten times the size for the same job).
 *
 * Excel stores a call of an add-in's function as _xldudf_MIST_OILFOR(...). So do we, that Excel with
 * the add-in may know the calls again; on opening they are turned back.
 */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { readCellName } from "../functions/formula/addresses";
import { retypedFormula, storedFormula } from "../functions/formula/reader";
import { absoluteAll, isRange } from "../functions/formula/references";
import { toExcelError } from "./custom-functions";
import type { Model } from "./engine";

/** The workbook as the bytes of an .xlsx file. */
export async function toXlsx(model: Model): Promise<Uint8Array> {
  const { files } = await model.exportXLSX();
  const parts = files.map((file) => {
    if (!("content" in file))
      throw new Error(`cannot save ${file.path}: pictures are not supported`);
    const stored = mapFormulas(file.content, storedFormula);
    const sheet = /^xl\/worksheets\/sheet(\d+)\.xml$/.exec(file.path);
    const sheetId = model.getters.getSheetIds()[Number(sheet?.[1])];
    const valued = sheet ? withHeights(withValues(stored, model, sheetId), model, sheetId) : stored;
    const named = file.path === "xl/workbook.xml" ? withNames(valued, model) : valued;
    return [file.path, strToU8(named)];
  });
  return zipSync(Object.fromEntries(parts) as Record<string, Uint8Array>);
}

/**
 * The engine writes only the first value of an answer that fills several cells, and errors as texts. Other
 * programs expect all values, and errors by the names that they know.
 */
function withValues(xml: string, { getters }: Model, sheetId: string): string {
  const cell =
    /<c r="([A-Z]+\d+)"([^>]*?)>\s*(<f\b[^>]*>[^<]*<\/f>)?(?:<v>[^<]*<\/v>|<v\/>)?\s*<\/c>/g;
  return xml.replace(cell, (whole, name: string, rest: string, formula = "") => {
    const { row, column } = readCellName(name);
    const { type, value } = getters.getEvaluatedCell({ sheetId, row, col: column });
    const isSpilled =
      formula === "" && !/\bt="/.test(rest) && !/<v/.test(whole) && type !== "empty";
    if (type !== "error" && !isSpilled) return whole;
    const kind = { number: "n", text: "str", boolean: "b", error: "e", empty: "" }[type];
    const written = type === "boolean" ? Number(value) : value;
    const shown = type === "error" ? errorInFile(String(value)) : written;
    const attributes = rest.replace(/ t="\w*"/, "");
    return `<c r="${name}"${attributes} t="${kind}">${formula}<v>${escapeXml(String(shown))}</v></c>`;
  });
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
  const { getters } = model;
  const names = getters.getNamedRanges().map(({ name, range }) => {
    const options = { useBoundedReference: true };
    const reference = getters.getRangeString(range, "forceSheetReference", options);
    const held = absoluteAll(reference, "", new Map());
    return `<definedName name="${escapeXml(name)}">${escapeXml(held)}</definedName>`;
  });
  if (names.length === 0) return xml;
  return xml.replace("</sheets>", `</sheets><definedNames>${names.join("")}</definedNames>`);
}

/** The names of ranges in an .xlsx file, which the engine does not read: what each stands for. */
export function namesIn(parts: Record<string, string>): Record<string, string> {
  const names = parts["xl/workbook.xml"].matchAll(/<definedName\b([^>]*)>([^<]*)<\/definedName>/g);
  const plain = [...names].flatMap(([, attributes, text]): [string, string][] => {
    const name = /\bname="([^"]*)"/.exec(attributes)?.[1] ?? "_";
    const reference = unescapeXml(text);
    // Names of Excel's own, of one sheet only, and of anything but a range mean nothing here.
    const isPlain = !name.startsWith("_") && !/\blocalSheetId=/.test(attributes);
    return isPlain && isRange(reference)
      ? [[unescapeXml(name), reference.replaceAll("$", "")]]
      : [];
  });
  return Object.fromEntries(plain);
}

/** Files know no error of a spill that has no room. */
function errorInFile(code: string): string {
  return code === "#SPILL!" ? "#VALUE!" : toExcelError(code);
}

function escapeXml(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/** The bytes of an .xlsx file as the data that a new Model takes. */
export function fromXlsx(bytes: Uint8Array): Record<string, string> {
  let parts: Record<string, Uint8Array>;
  try {
    parts = unzipSync(bytes);
  } catch {
    throw new Error("this is not an .xlsx workbook: it could not be unzipped");
  }
  if (!parts["xl/workbook.xml"]) throw new Error("this is not an .xlsx workbook: it has no sheets");
  const texts = Object.entries(parts)
    .filter(([path]) => /\.(xml|rels)$/.test(path))
    .map(([path, part]) => [path, mapFormulas(strFromU8(part), typedAgain)]);
  return Object.fromEntries(texts) as Record<string, string>;
}

/** A formula as it was typed: the engine takes off the first of the prefixes that newer functions have. */
function typedAgain(formula: string): string {
  const parts = retypedFormula(formula).split('"');
  // Every second part stands inside quotes, and is left as it is.
  return parts.map((part, i) => (i % 2 ? part : part.replaceAll("_xlfn.", ""))).join('"');
}

/** Changes the text of every formula of a sheet. */
function mapFormulas(xml: string, change: (formula: string) => string): string {
  return xml.replace(
    /(<f\b[^>]*>)([^<]*)(<\/f>)/g,
    (_, open: string, formula: string, close: string) =>
      open + escapeXml(change(unescapeXml(formula))) + close,
  );
}

function unescapeXml(text: string): string {
  const plain = text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"');
  return plain.replaceAll("&apos;", "'").replaceAll("&amp;", "&");
}
