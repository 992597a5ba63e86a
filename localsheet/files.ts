/**
 * Workbook files, .xlsx in and out. The engine writes and reads the parts, fflate the zip around them
 * (jszip was looked at: ten times the size for the same job).
 *
 * Excel stores a call of an add-in's function as _xldudf_MIST_OILFOR(...). So do we, that Excel with
 * the add-in may know the calls again; on opening they are turned back.
 */
import { strToU8, zipSync } from "fflate";
import { readCellName } from "../functions/formula/addresses";
import { storedFormula } from "../functions/formula/reader";
import { absoluteAll } from "../functions/formula/references";
import { toExcelError } from "./custom-functions";
import type { Model } from "./engine";
import { mapFormulas } from "./open";

export { fromXlsx, namesIn } from "./open";

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

/** Files know no error of a spill that has no room. */
function errorInFile(code: string): string {
  return code === "#SPILL!" ? "#VALUE!" : toExcelError(code);
}

function escapeXml(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
