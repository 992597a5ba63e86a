/** Opens workbook files of any program: bytes in, what a new Model takes out, or one plain sentence. */
import { retypedFormula } from "../functions/formula/writer.ts";
import { type Far, type Fence, reads } from "../functions/files/far.ts";
import { readable } from "../functions/files/reading.ts";
import { unescaped } from "../functions/files/source.ts";
import { escaped } from "../functions/files/package.ts";
import { Refusal } from "../functions/files/refusal.ts";
import { cellName } from "../functions/formula/addresses.ts";
import { isRange } from "../functions/formula/references.ts";
import { type Model, engine } from "./engine.ts";
import { formulaCells } from "./formula-cells.ts";
import type { Origin } from "./origin.ts";
import "./origin.ts";
import "./running-sums.ts";
import "./sheet-quotes.ts";
import { bracketsFreed, bracketsHeld } from "./held-brackets.ts";
import { namesWrittenOut } from "./own-names.ts";
import { readableFormula } from "./readable-formula.ts";

/** The bytes of an .xlsx file as the data that a new Model takes. Throws a Refusal, one plain sentence. */
export function fromXlsx(bytes: Uint8Array): Record<string, string> {
  return forEngine(readable(bytes).parts);
}

function forEngine(parts: Record<string, string>): Record<string, string> {
  const written = namesWrittenOut(parts["xl/workbook.xml"] ?? "");
  for (const [path, xml] of Object.entries(parts)) {
    const number = /^xl\/worksheets\/sheet(\d+)\.xml$/.exec(path)?.[1];
    if (number !== undefined)
      parts[path] = mapFormulas(xml, (formula) =>
        bracketsHeld(readableFormula(retypedFormula(written(formula, Number(number) - 1)))),
      );
    // A table without a style has none; the engine would take its own.
    if (path.startsWith("xl/tables/"))
      parts[path] = xml.replace(/<tableStyleInfo\b(?![^>]*\sname=)/g, '$& name="None"');
  }
  return parts;
}

export interface Opened {
  model: Model;
  /** What the file holds and the local sheet does not show, in sentences; it stays in the file. */
  hidden: string[];
  /** Where what is far begins, by the names of sheets. */
  fences: Record<string, Fence>;
}

/** What the engine is spared, one after another, when it cannot read a file: cells last. */
const SPARED: { what: string; less: (parts: Record<string, string>) => void }[] = [
  { what: "Charts and pictures", less: (parts) => dropElements(parts, "drawing") },
  { what: "Tables", less: (parts) => dropElements(parts, "tablePart") },
  {
    what: "Conditional formats",
    less: (parts) => dropElements(parts, "conditionalFormatting", "extLst"),
  },
  { what: "Rules for input", less: (parts) => dropElements(parts, "dataValidations") },
  { what: "Links", less: (parts) => dropElements(parts, "hyperlinks") },
];

/**
 * Opens a workbook; what the engine stumbles over, and what is too far off, is left out of sight, and named.
 * Where that is decided already, the fences say so.
 */
export function openModel(bytes: Uint8Array, known?: Record<string, Fence>): Opened {
  const { parts: read, far, countsFrom1904 } = readable(bytes, known);
  const parts = forEngine(read);
  const fences = Object.entries(far).map(([name, { fence }]) => [name, fence] as const);
  const hidden = countsFrom1904 ? [FROM_1904] : [];
  for (const spared of [...SPARED, null]) {
    try {
      const data = { ...imported(parts), namedRanges: namesIn(parts) };
      const model = new engine.Model(data, { mode: "normal" });
      return {
        model,
        hidden: [...hidden, ...farIn(model, far)],
        fences: Object.fromEntries(fences),
      };
    } catch (error) {
      if (error instanceof Refusal) throw error;
      spared?.less(parts);
      if (spared) hidden.push(`${spared.what} are not shown here, and kept in the file.`);
    }
  }
  throw unreadable();
}

const FROM_1904 =
  "This workbook counts its days from 1904, as old Macs did: its dates show four years and a day too early here, and stay right in the file. Type no dates into it here.";

/** How many addresses are named, of many. */
const NAMED = 3;

/** What is said of cells that are out of sight. */
function farIn(model: Model, far: Record<string, Far>): string[] {
  const found = Object.entries(far);
  const formulas = found.length > 0 ? formulaCells(model) : [];
  return found.map(([sheet, { cells }]) => {
    const said = `Filled far from all else on "${sheet}", so not shown here, and kept in the file: ${someOf(cells)}.`;
    const readers = formulas.filter((each) => reads(each.formula, each.sheet, sheet, cells));
    if (readers.length === 0) return said;
    const names = readers.map(({ sheet: own, position: { row, col } }) => {
      const name = cellName(row, col);
      return own === sheet ? name : `'${own}'!${name}`;
    });
    return `${said} Formulas here take that for blank: ${someOf(names)}.`;
  });
}

function someOf(names: readonly string[]): string {
  const more = names.length - NAMED;
  return names.slice(0, NAMED).join(", ") + (more > 0 ? ` and ${more} more` : "");
}

/** The data of an opened workbook, bound to the file that it was read from. */
export function bound({ model, fences }: Opened, key: string): object {
  const data = model.exportData();
  const sheets = Object.fromEntries(data.sheets.map(({ id, name }) => [id, name]));
  const figures = data.sheets.flatMap((sheet) => sheet.figures.map(({ id }) => id));
  const mistwright: Origin = { file: key, sheets, figures, fences, edits: [] };
  return { ...data, mistwright };
}

function imported(parts: Record<string, string>): object {
  return bracketsFreed(new engine.Model({ ...parts }, { mode: "normal" }).exportData());
}

function unreadable(): Refusal {
  return new Refusal(
    "The local sheet cannot read this workbook, although it is an .xlsx: open it in the program that made it, save a copy and try that.",
  );
}

function dropElements(parts: Record<string, string>, ...names: string[]) {
  const marks = names.map((name) => `<${name}\\b[^>]*?(?:/>|>[\\s\\S]*?</${name}>)`).join("|");
  for (const [path, xml] of Object.entries(parts))
    if (/^xl\/worksheets\/sheet\d+\.xml$/.test(path))
      parts[path] = xml.replace(new RegExp(marks, "g"), "");
}

/** The names of ranges in an .xlsx file, which the engine does not read: what each stands for. */
export function namesIn(parts: Record<string, string>): Record<string, string> {
  const workbook = parts["xl/workbook.xml"] ?? "";
  const names = workbook.matchAll(/<definedName\b([^>]*)>([^<]*)<\/definedName>/g);
  const plain = [...names].flatMap(([, attributes = "", text = ""]): [string, string][] => {
    const name = /\bname="([^"]*)"/.exec(attributes)?.[1] ?? "_";
    const reference = unescaped(text);
    // Names of Excel's own, of one sheet only, and of anything but a range mean nothing here.
    const isPlain = !name.startsWith("_") && !/\blocalSheetId=/.test(attributes);
    return isPlain && isRange(reference) ? [[unescaped(name), reference.replaceAll("$", "")]] : [];
  });
  return Object.fromEntries(plain);
}

/** Changes the text of every formula of a sheet. */
export function mapFormulas(xml: string, change: (formula: string) => string): string {
  return xml.replace(
    /(<f\b[^>]*>)([^<]*)(<\/f>)/g,
    (_, open: string, formula: string, close: string) =>
      open + escaped(change(unescaped(formula))) + close,
  );
}
