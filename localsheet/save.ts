/**
 * Saves a workbook into the file that it was opened from: what was not touched stays the same byte for byte. What
 * the file held is found by opening it again, after the rows, columns and names that have changed since.
 */
import type { Fence } from "../functions/files/far.ts";
import { cellsIn } from "../functions/files/cells.ts";
import { attributesOf, sheetsOf } from "../functions/files/source.ts";
import { moveWithin, renameSheet } from "../functions/files/move.ts";
import { type CellEdit, type SizeEdits, patchSheet } from "../functions/files/patch-sheet.ts";
import { StyleBook } from "../functions/files/style-book.ts";
import { Texts } from "../functions/files/texts.ts";
import { Beside, type FreshCells } from "./beside.ts";
import { type Model, engine } from "./engine.ts";
import { type SavedFile, namesOf, written } from "./files.ts";
import { followHeadings } from "./headings.ts";
import { openModel } from "./open.ts";
import { followedCharts } from "./followed-charts.ts";
import { type Origin, fencesNow } from "./origin.ts";
import { PLAIN, type SheetState, type Size, isQuoted, stateOf } from "./state.ts";
import { writeWorkbook } from "./workbook-part.ts";

/** A file as it was opened. */
export interface Original {
  key: string;
  name: string;
  bytes: Uint8Array;
  /** What the local sheet read in it, so that a large file need not be read again to be compared with. */
  data?: object;
}

const NOT_KEPT =
  "This browser has not kept the file that the workbook was opened from: notes, fonts, page set-up and pictures of it are not in the new file. Keep the old one.";

/** What is asked before a file is written that cannot hold everything. */
export function warningOf(lost: readonly string[]): string {
  const shown = lost.slice(0, MOST_LINES).join(" ");
  const more = lost.length - MOST_LINES;
  return `${shown}${more > 0 ? ` And ${more} more of the kind.` : ""} Save it so?`;
}

const MOST_LINES = 8;

export function originOf(model: Model): Origin | null {
  // The engine's types name its own getters alone.
  return (model.getters as unknown as { getOrigin(): Origin | null }).getOrigin();
}

/** The workbook as bytes: into its own file where it has one, as a new one where it has none. */
export async function saveBook(model: Model, original?: Original | null): Promise<SavedFile> {
  const origin = originOf(model);
  if (!origin) return written(model);
  if (origin.file !== original?.key) {
    const fresh = await written(model);
    return { bytes: fresh.bytes, lost: [NOT_KEPT, ...fresh.lost] };
  }
  return new Saving(model, original, origin).made();
}

class Saving {
  private readonly texts: Texts;
  private readonly lost: string[] = [];

  constructor(
    private readonly model: Model,
    private readonly original: Original,
    private readonly origin: Origin,
  ) {
    this.texts = new Texts(original.bytes);
  }

  async made(): Promise<SavedFile> {
    const now = stateOf(this.model);
    this.follow(now);
    const before = this.before();
    const then = this.then(before);
    const isSame = this.isSame(now, then, before);
    if (isSame) return { bytes: this.texts.save(), lost: this.lost };
    const fresh = await written(this.model);
    const parts = new Texts(fresh.bytes);
    const styles = new StyleBook(this.texts);
    const beside = new Beside(this.texts, parts, styles, this.origin, this.lost);
    const paths = new Map(sheetsOf(this.texts.source).map(({ name, path }) => [name, path]));
    const freshPaths = sheetsOf(parts.source).map(({ path }) => path);
    let isWritten = false;
    for (const [i, sheet] of now.entries()) {
      const known = then.get(sheet.name);
      const freshPath = freshPaths[i] ?? "";
      const path = paths.get(sheet.name);
      if (known && path && this.origin.sheets[sheet.id] !== undefined)
        isWritten = this.patch(path, freshPath, known, sheet, beside, styles) || isWritten;
      else {
        paths.set(sheet.name, beside.addSheet(freshPath, sheet));
        isWritten = true;
      }
    }
    writeWorkbook(this.texts, {
      sheets: now.map((sheet) => ({
        name: sheet.name,
        path: paths.get(sheet.name) ?? "",
        isVisible: sheet.isVisible,
      })),
      names: [namesOf(before), namesOf(this.model)],
      // Values that we cannot work out, or that read what is out of sight, may hang on what has changed.
      recalculates:
        isWritten &&
        (this.origin.edits.length > 0 ||
          Object.keys(this.origin.fences ?? {}).length > 0 ||
          now.some((sheet) => isStale(sheet, then.get(sheet.name)))),
    });
    styles.save();
    this.lost.push(...fresh.lost.filter((line) => isNew(line, now, then)));
    return { bytes: this.texts.save(), lost: this.lost };
  }

  /** The workbook as it was opened, its rows, columns and names as they are now. */
  private before(): Model {
    const bytes = this.texts.save();
    const { data } = this.original;
    if (data && bytes === this.original.bytes)
      return new engine.Model(structuredClone(data), { mode: "normal" });
    return openModel(bytes, this.fences()).model;
  }

  private then(before: Model): Map<string, SheetState> {
    const then = new Map(stateOf(before).map((sheet) => [sheet.name, sheet]));
    const { edits, figures } = this.origin;
    if (edits.length === 0 || figures.length === 0) return then;
    const { data, bytes } = this.original;
    const opened = data
      ? new engine.Model(structuredClone(data), { mode: "normal" })
      : openModel(bytes, this.origin.fences).model;
    for (const [name, charts] of followedCharts(opened, this.origin, this.model)) {
      const sheet = then.get(name);
      if (sheet) then.set(name, { ...sheet, figures: charts });
    }
    return then;
  }

  /** What was out of sight stays so, under the names that the sheets have now. */
  private fences(): Record<string, Fence> {
    const fences = Object.entries(fencesNow(this.origin));
    const names = new Map(
      Object.entries(this.origin.sheets).map(([id, name]) => [
        name,
        this.model.getters.tryGetSheetName(id) ?? name,
      ]),
    );
    return Object.fromEntries(fences.map(([name, fence]) => [names.get(name) ?? name, fence]));
  }

  /** Rows, columns and names of sheets that have changed since the file was opened. */
  private follow(now: SheetState[]) {
    for (const edit of this.origin.edits) {
      const isThere = sheetsOf(this.texts.source).some(({ name }) => name === edit.sheet);
      if (isThere) this.lost.push(...moveWithin(this.texts, edit));
    }
    const names = now.flatMap(({ id, name }): [string, string][] => {
      const known = this.origin.sheets[id];
      return known !== undefined && known !== name ? [[known, name]] : [];
    });
    // By way of names that nobody has, so that two sheets may change theirs.
    names.forEach(([from], i) => renameSheet(this.texts, from, `mistwright ${i}`));
    names.forEach(([, to], i) => renameSheet(this.texts, `mistwright ${i}`, to));
    const left = new Set(now.map(({ name }) => name));
    for (const { name, path } of sheetsOf(this.texts.source)) {
      if (left.has(name)) continue;
      const parts = this.texts.relations(path).filter(({ isOutside }) => !isOutside);
      if (parts.length > 0)
        this.lost.push(`The sheet "${name}" is taken out, with its notes, charts and tables.`);
    }
  }

  private isSame(now: SheetState[], then: Map<string, SheetState>, before: Model): boolean {
    const file = sheetsOf(this.texts.source);
    return (
      JSON.stringify(namesOf(before)) === JSON.stringify(namesOf(this.model)) &&
      file.length === now.length &&
      now.every((sheet, i) => {
        const known = then.get(sheet.name);
        if (!known || file[i]?.name !== sheet.name) return false;
        return bare(known) === bare(sheet) && cellEdits(known, sheet, null).size === 0;
      })
    );
  }

  private patch(
    path: string,
    freshPath: string,
    known: SheetState,
    sheet: SheetState,
    beside: Beside,
    styles: StyleBook,
  ): boolean {
    const { texts } = this;
    const isMoved = this.origin.edits.length > 0;
    const cells = cellEdits(known, sheet, beside.cellsOf(freshPath), isMoved);
    this.lost.push(...followHeadings(texts, path, sheet, cells));
    const rows = sizeEdits(known.rows, sheet.rows, "row");
    const columns = sizeEdits(known.cols, sheet.cols, "column");
    const before = formulaCount(texts.text(path));
    if (cells.size + rows.size + columns.size > 0)
      texts.change(path, (xml) => patchSheet(xml, { cells, rows, columns }, styles));
    if (formulaCount(texts.text(path)) !== before) dropCalcChain(texts);
    beside.follow(path, freshPath, known, sheet);
    return cells.size > 0;
  }
}

/** A sheet without its cells, to be compared. */
function bare(sheet: SheetState): string {
  return JSON.stringify({ ...sheet, id: null, cells: null });
}

/**
 * The cells that are other than they were. Values alone are written only where something else is, too: a clock in
 * a formula is no change.
 */
function cellEdits(
  then: SheetState,
  now: SheetState,
  fresh: FreshCells | null,
  isMoved = false,
): Map<string, CellEdit> {
  const edits = new Map<string, CellEdit>();
  for (const name of new Set([...then.cells.keys(), ...now.cells.keys()])) {
    const [was, is] = [then.cells.get(name), now.cells.get(name)];
    const isOther = (was?.content ?? "") !== (is?.content ?? "");
    // Where rows were taken out, the file's values are older than what was read of it since.
    const isWorked = is?.value !== undefined && !(was?.isError && is.isError);
    const isNewValue = was?.value !== is?.value || (isMoved && isWorked);
    const isValue = !isOther && fresh !== null && isNewValue;
    const isLook = (was?.lookKey ?? "") !== (is?.lookKey ?? "");
    if (!isOther && !isValue && !isLook) continue;
    const edit: CellEdit = isLook ? { look: [was?.look ?? PLAIN, is?.look ?? PLAIN] } : {};
    if (isOther || isValue) {
      edit.isValue = isValue && (is?.content ?? "") !== "" && is?.value !== undefined;
      edit.content = fresh?.(name, edit.isValue) ?? "";
      edit.isQuoted = isQuoted(is);
    }
    edits.set(name, edit);
  }
  if (fresh) followSpreads(now, edits, fresh);
  return edits;
}

/** A formula that fills other cells than before says so in the file; else its values would bar its own way there. */
function followSpreads(now: SheetState, edits: Map<string, CellEdit>, fresh: FreshCells) {
  for (const [name, { spread }] of now.cells) {
    const edit = edits.get(name) ?? {};
    const isWritten = edit.content !== undefined && !edit.isValue;
    if (!spread || isWritten || ![...cellsIn(spread)].some((each) => edits.has(each))) continue;
    edits.set(name, { ...edit, content: fresh(name, true), isValue: true, spread });
  }
}

/** Pixels to the units of a file: points down, characters across. */
const POINTS = 0.75;
const CHARACTERS = 0.143;

function sizeEdits(
  then: Record<string, Size>,
  now: Record<string, Size>,
  dimension: "row" | "column",
): SizeEdits {
  const edits = new Map<number, Record<string, string | undefined>>();
  // Lines that the file does not speak of are as high as its last.
  const usual = Object.values(then).at(-1) ?? {};
  for (const key of new Set([...Object.keys(then), ...Object.keys(now)])) {
    const [was, is] = [then[key] ?? usual, now[key] ?? usual];
    const edit: Record<string, string | undefined> = {};
    if (was.size !== is.size && is.size !== undefined)
      Object.assign(
        edit,
        dimension === "row"
          ? { ht: String(is.size * POINTS), customHeight: "1" }
          : { width: String(is.size * CHARACTERS), customWidth: "1" },
      );
    if (Boolean(was.isHidden) !== Boolean(is.isHidden)) edit.hidden = is.isHidden ? "1" : undefined;
    if (Object.keys(edit).length > 0)
      edits.set(
        Number(key),
        dimension === "column" && !edit.width
          ? { width: String((is.size ?? 96) * CHARACTERS), ...edit }
          : edit,
      );
  }
  return edits;
}

function formulaCount(xml: string): string {
  const cells = xml.matchAll(/<(?:\w+:)?c\s([^>]*)>\s*<(?:\w+:)?f[\s>/]/g);
  return [...cells].map(([, attributes = ""]) => attributesOf(attributes).r).join(" ");
}

/** The order in which Excel last worked cells out; it makes a new one, and takes a wrong one for damage. */
function dropCalcChain(texts: Texts) {
  for (const path of texts.beside(texts.workbook, "calcChain")) texts.remove(path, texts.workbook);
}

/** Errors that a formula comes to by itself, in any program. */
const ITS_OWN = ["#DIV/0!", "#N/A"].map((code) => JSON.stringify(["error", code]));

/** Formulas that the local sheet may be unable to work out, and that are as they were. */
function isStale(now: SheetState, then?: SheetState): boolean {
  return [...now.cells].some(
    ([name, { isError, content, value = "" }]) =>
      isError &&
      content !== "" &&
      !ITS_OWN.includes(value) &&
      then?.cells.get(name)?.content === content,
  );
}

/** A formula that cannot be written is told of once: when it is typed, not when it was in the file. */
function isNew(line: string, now: SheetState[], then: Map<string, SheetState>): boolean {
  const match = /^([A-Z]+\d+) of "(.*)" is written as its value/.exec(line);
  if (!match) return true;
  const [, cell = "", sheet = ""] = match;
  const is = now.find(({ name }) => name === sheet)?.cells.get(cell);
  return then.get(sheet)?.cells.get(cell)?.content !== is?.content;
}
