/**
 * A copy of a workbook for a partner without the add-in: bytes in, bytes out, the original
 * untouched.
 *
 * The copy is made from the file itself, so formats, widths, charts and notes survive. A formula
 * whose calls are plain arithmetic becomes a native formula and stays live. Any other becomes its
 * value, marked, with the formula in a note. A sheet lists them all.
 */
import { TooMuch } from "../native/too-much.ts";
import { mentionsUs, ourCalls } from "../formula/ours.ts";
import { readFormula } from "../formula/reader.ts";
import { type Node, calleeOf, childrenOf } from "../formula/tree.ts";
import { typedFormula, writeFormula } from "../formula/writer.ts";
import { RANK } from "../formula/precedence.ts";
import { freeName } from "../formula/sheet-names.ts";
import { type Gapped, type Pattern, filled, gapped, patternOf } from "./alike.ts";
import { Book, type Sheet } from "./book.ts";
import { type FormulaCell, cellsIn, formulaCells } from "./cells.ts";
import { type Replaced, addListSheet, namePrinted } from "./list-sheet.ts";
import { Marks } from "./marks.ts";
import { LONGEST, type NativeFormula, TOO_LONG, nativeFormula } from "./native-formula.ts";
import { Notes } from "./notes.ts";
import { dropOurPane } from "./panes.ts";
import { addUnitSheet, looksUpUnits, nameUnitTables } from "./unit-sheet.ts";
import { SheetCells } from "./sheet-cells.ts";
import { WrittenPrices } from "./written-prices.ts";
import {
  type Element,
  Package,
  allNamed,
  drop,
  elementLike,
  elements,
  link,
  theChild,
} from "./package.ts";

export type { Replaced };

export interface HandedOver {
  bytes: Uint8Array;
  replaced: Replaced[];
}

/** A formula that may read a spilled answer by its first cell. */
const READS_SPILL = /ANCHORARRAY|#/;

/** What a cell shows when the add-in has not answered in it. */
const UNANSWERED = new Set(["#NAME?", "#BUSY!", "#CONNECT!", "#GETTING_DATA"]);

export function handOver(bytes: Uint8Array): HandedOver {
  return new Copy(Package.open(bytes, { rowsApart: true })).make();
}

/** What becomes of a formula: native text, or why there is none. */
type Outcome = NativeFormula | { why: string };

/** That, and the formula as it is typed. */
type OutcomeOfCell = Outcome & { was: string };

/** What became of a formula, for others that are alike. */
interface Mould {
  outcome: Outcome;
  parts: Gapped;
  was: Gapped;
}

class Copy {
  private readonly book: Book;
  private readonly marks: Marks;
  private readonly notes = new Map<string, Notes>();
  private readonly cells = new Map<string, SheetCells>();
  private readonly replaced: Replaced[] = [];
  /** Names that stand for more than a native formula can say. */
  private readonly lostNames = new Set<string>();
  private readonly prices: WrittenPrices;
  private usesUnits = false;
  /** By the key of their pattern. */
  private readonly moulds = new Map<string, Mould>();
  /** Where answers stood that spilled and now are fixed: "sheet!A1" to the range. */
  private readonly fixed = new Map<string, string>();

  constructor(private readonly file: Package) {
    this.book = new Book(file);
    this.prices = new WrittenPrices(this.book, (sheet) => this.cellsOf(sheet));
    this.marks = new Marks(file, this.book.path);
  }

  make(): HandedOver {
    this.replaceNames();
    const mayChange = (text: string) => this.outcomeOfText(text) !== null || READS_SPILL.test(text);
    const cells = this.book.sheets.flatMap((sheet) =>
      formulaCells(sheet, this.cellsOf(sheet), mayChange),
    );
    const plans = cells.map((cell) => ({ cell, outcome: this.outcomeOf(cell) }));
    refuseUnanswered(plans.filter(({ outcome }) => outcome).map(({ cell }) => cell));
    for (const { cell, outcome } of plans) {
      if (outcome && "why" in outcome) this.fixed.set(placeOf(cell.sheet, cell.name), cell.fills);
    }
    for (const { cell, outcome } of plans) {
      if (!outcome) this.followFixed(cell);
      else if ("why" in outcome) this.fix(cell, outcome);
      else this.keepLive(cell, outcome);
    }
    for (const sheet of this.book.sheets) this.replaceElsewhere(sheet);
    for (const cells of this.cells.values()) cells.save();
    for (const notes of this.notes.values()) notes.draw();
    this.addList();
    this.addUnits();
    this.dropCalcChain();
    dropOurPane(this.file);
    return { bytes: this.file.save(), replaced: this.replaced };
  }

  /** What becomes of a cell; null where it is none of ours. */
  private outcomeOf(cell: FormulaCell): OutcomeOfCell | null {
    const outcome = this.outcomeOfAlike(cell);
    if (!outcome || "why" in outcome || cell.formula.attributes.t === "array") return outcome;
    const { shape, was } = outcome;
    if (shape && shape.rows * shape.columns > 1)
      return { why: "the file keeps only one cell of its answer", was };
    return outcome;
  }

  /** As what became of the first that is alike. */
  private outcomeOfAlike({ formula: { text }, sheet }: FormulaCell): OutcomeOfCell | null {
    // How large a spilled answer is hangs on where it stands.
    const isPlain = mentionsUs(text) && !READS_SPILL.test(text);
    const pattern = isPlain
      ? patternOf(text, (reference) => String(this.prices.isIn(reference, sheet.name)))
      : null;
    const mould = pattern && this.moulds.get(pattern.key);
    if (mould) {
      const { outcome, parts } = mould;
      const was = filled(mould.was, pattern);
      if ("why" in outcome) return { ...outcome, was };
      const made = filled(parts, pattern);
      if (made.length <= LONGEST) return { ...outcome, text: made, was };
    }
    const outcome = this.outcomeOfText(text, sheet);
    if (!outcome) return null;
    const was = typed(text);
    if (pattern) this.keepMould(pattern, outcome, was);
    return { ...outcome, was };
  }

  private keepMould(pattern: Pattern, outcome: Outcome, was: string) {
    const isFixed = "why" in outcome;
    // Another may be short enough: its cells have other names.
    if (isFixed && outcome.why === TOO_LONG) return;
    const parts = isFixed ? [] : gapped(outcome.text, pattern);
    const wasInParts = gapped(was, pattern);
    if (parts && wasInParts) this.moulds.set(pattern.key, { outcome, parts, was: wasInParts });
  }

  /** A formula of a name stands on no sheet. */
  private outcomeOfText(text: string, sheet?: Sheet): Outcome | null {
    const isOurs = mentionsUs(text);
    if (!isOurs && this.lostNames.size === 0) return null;
    const tree = readOrNull(text);
    if (!tree) return isOurs ? { why: "its formula could not be read" } : null;
    const lost = namesIn(tree).find((name) => this.lostNames.has(name));
    if (lost) return { why: `the name ${lost} has no native formula` };
    // A call that is only talked about, in a text, is none.
    if (!isOurs || ourCalls(tree).length === 0) return null;
    try {
      const native = nativeFormula(
        tree,
        (name) => this.book.sizeOf(name),
        (reference) => this.prices.isIn(reference, sheet?.name ?? ""),
      );
      this.usesUnits ||= looksUpUnits(native.text);
      return native;
    } catch (error) {
      if (error instanceof TooMuch) return { why: error.message };
      throw error;
    }
  }

  private replaceNames() {
    const ours = this.book.names.filter((name) => mentionsUs(name.textContent ?? ""));
    const outcomes = ours.map((name) => this.outcomeOfText(name.textContent ?? ""));
    ours.forEach((element, i) => {
      const outcome = outcomes[i];
      if (!outcome) return;
      const name = element.getAttribute("name") ?? "";
      const was = typed(element.textContent ?? "");
      if ("why" in outcome) {
        this.lostNames.add(name.toLowerCase());
        this.list(
          "(name)",
          name,
          was,
          "left as it was",
          `${outcome.why}; the cells that use it are fixed`,
        );
      } else {
        element.textContent = outcome.text;
        this.list("(name)", name, was, "formula", `=${outcome.text}`);
      }
    });
    this.loseThoseThatUse();
  }

  /** A name that uses a lost one is lost too. */
  private loseThoseThatUse() {
    for (let before = -1; before < this.lostNames.size;) {
      before = this.lostNames.size;
      for (const element of this.book.names) {
        const names = namesInText(element.textContent ?? "");
        const name = element.getAttribute("name")?.toLowerCase() ?? "";
        if (names.some((each) => this.lostNames.has(each))) this.lostNames.add(name);
      }
    }
  }

  private keepLive(
    { sheet, name, cell, formula, fills }: FormulaCell,
    outcome: { text: string; array: boolean; was: string },
  ) {
    // The native formula reads a spilled answer where the one that was does.
    const reads = READS_SPILL.test(formula.text);
    const followed = (reads && this.following(outcome.text, sheet)) || outcome.text;
    const isNewArray = outcome.array && formula.attributes.t !== "array";
    const attributes = isNewArray
      ? { ...formula.attributes, t: "array", ref: name }
      : formula.attributes;
    cell.setFormula({ attributes, text: followed });
    cell.set("vm", undefined);
    this.list(sheet.name, fills, outcome.was, "formula", `=${followed}`);
  }

  private fix(
    { sheet, name, cell, fills }: FormulaCell,
    { why, was }: { why: string; was: string },
  ) {
    const isEmptyText = cell.get("t") === "str" && !cell.value;
    for (const attribute of ["cm", "vm"]) cell.set(attribute, undefined);
    // An empty text, which a blank cell is not: sums that would fail on it still do.
    cell.setFormula(isEmptyText ? { attributes: {}, text: '""' } : undefined);
    this.mark(sheet, fills);
    const note = `Fixed value: ${why}. It was ${was} and does not follow its inputs any more.`;
    const isNoted = this.notesOf(sheet).add(
      name,
      fills === name ? note : `${note} It filled ${fills}.`,
    );
    this.list(
      sheet.name,
      fills,
      was,
      "value",
      isNoted ? why : `${why}; the cell has a conversation, so no note was added`,
    );
  }

  private mark(sheet: Sheet, range: string) {
    const cells = this.cellsOf(sheet);
    for (const name of cellsIn(range)) {
      const cell = cells.cell(name);
      if (!cell) continue;
      cell.set("s", this.marks.marked(cell.get("s") ?? "0"));
      if (cell.get("t") === "str" && !cell.formula) cell.makeText();
    }
  }

  private cellsOf({ path }: Sheet): SheetCells {
    const known = this.cells.get(path);
    if (known) return known;
    const made = new SheetCells(this.file, path);
    this.cells.set(path, made);
    return made;
  }

  /** A formula that reads a spilled answer by its first cell, where that answer is fixed now. */
  private followFixed({ sheet, cell, formula, name }: FormulaCell) {
    const { attributes, text } = formula;
    const followed = this.following(text, sheet);
    if (followed === null) return;
    cell.setFormula({ attributes, text: followed });
    this.list(sheet.name, name, typed(text), "formula", `=${followed}`);
  }

  /** The formula with A1# as the range that A1 filled; null where there is none of that. */
  private following(text: string, sheet: Sheet): string | null {
    if (!READS_SPILL.test(text) || this.fixed.size === 0) return null;
    const tree = readOrNull(text);
    if (!tree) return null;
    const followed: string[] = [];
    const written = writeFormula(tree, (node) => {
      const anchor = anchorOf(node);
      const cut = anchor ? anchor.lastIndexOf("!") + 1 : 0;
      const on =
        anchor && cut > 0
          ? anchor
              .slice(0, cut - 1)
              .replace(/^'|'$/g, "")
              .replaceAll("''", "'")
          : sheet.name;
      const fills = anchor && this.fixed.get(`${on}!${anchor.slice(cut).replaceAll("$", "")}`);
      if (!fills) return null;
      followed.push(anchor);
      return { text: anchor.slice(0, cut) + held(fills), rank: RANK.atom };
    });
    return followed.length > 0 ? written : null;
  }

  /** Rules, conditional formats and the formulas of table columns. */
  private replaceElsewhere(sheet: Sheet) {
    const root = this.file.root(sheet.path);
    const outside = elements(root).filter(({ localName }) => localName !== "sheetData");
    const formulas = ["formula", "formula1", "formula2", "f"].flatMap((name) =>
      outside.flatMap((each) => allNamed(each, name)),
    );
    for (const element of formulas) this.replaceRule(sheet, element);
    for (const path of this.book.tablesOf(sheet.path)) {
      for (const element of allNamed(this.file.root(path), "calculatedColumnFormula"))
        this.replaceColumn(sheet, element);
    }
  }

  private replaceRule(sheet: Sheet, element: Element) {
    const text = element.textContent ?? "";
    const outcome = this.outcomeOfText(text, sheet);
    if (!outcome) return;
    if ("why" in outcome) {
      this.list(sheet.name, "(a rule or format)", typed(text), "left as it was", outcome.why);
      return;
    }
    element.textContent = outcome.text;
    this.list(sheet.name, "(a rule or format)", typed(text), "formula", `=${outcome.text}`);
  }

  private replaceColumn(sheet: Sheet, element: Element) {
    const text = element.textContent ?? "";
    const outcome = this.outcomeOfText(text, sheet);
    if (!outcome) return;
    const column = "(new lines of a table)";
    if ("text" in outcome && !outcome.array) {
      element.textContent = outcome.text;
      this.list(sheet.name, column, typed(text), "formula", `=${outcome.text}`);
      return;
    }
    drop(element);
    const why = "why" in outcome ? outcome.why : "a table takes no array formula";
    this.list(
      sheet.name,
      column,
      typed(text),
      "value",
      `${why}: new lines of the table are left blank here`,
    );
  }

  private notesOf(sheet: Sheet): Notes {
    const known = this.notes.get(sheet.path);
    if (known) return known;
    const made = new Notes(this.file, sheet.path);
    this.notes.set(sheet.path, made);
    return made;
  }

  private list(sheet: string, cell: string, was: string, became: Replaced["became"], what: string) {
    this.replaced.push({ sheet, cell, was, became, what });
  }

  private addList() {
    const name = this.addSheet("Hand over", addListSheet(this.file, this.marks, this.replaced));
    namePrinted(this.book.root, name, this.replaced.length);
  }

  /** What formulas look units up in, where any does; a copy of a copy has it already. */
  private addUnits() {
    const isThere = this.book.names.some((name) => looksUpUnits(name.getAttribute("name") ?? ""));
    if (!this.usesUnits || isThere) return;
    const name = this.addSheet("Units", addUnitSheet(this.file), { state: "hidden" });
    nameUnitTables(this.book.root, name);
  }

  /** A sheet behind the others; gives its name. */
  private addSheet(title: string, path: string, attributes: Record<string, string> = {}): string {
    const sheets = theChild(this.book.root, "sheets");
    const ids = elements(sheets).map((each) => Number(each.getAttribute("sheetId")));
    const name = freeName(title, this.book.sheetNames);
    const sheetId = String(Math.max(...ids) + 1);
    const made = elementLike(sheets, "sheet", { name, sheetId, ...attributes });
    link(made, this.file.relate(this.book.path, "worksheet", path));
    sheets.appendChild(made);
    return name;
  }

  /**
   * The order in which Excel last worked cells out; it makes a new one, and takes a wrong one for
   * damage.
   */
  private dropCalcChain() {
    const chain = this.file.relations(this.book.path).find(({ type }) => type === "calcChain");
    if (chain) this.file.remove(chain.path, this.book.path);
  }
}

/** Values that the add-in has not worked out must not be handed over as if it had. */
function refuseUnanswered(cells: FormulaCell[]) {
  const open = cells.filter(({ cell }) => {
    return cell.get("t") === "e" && UNANSWERED.has(cell.value ?? "");
  });
  const [first] = open;
  if (!first) return;
  const { sheet, name, cell } = first;
  throw new Error(
    `Nothing was handed over: ${open.length} of our cells show no answer, such as ${name} of "${sheet.name}" ` +
      `(${cell.value}). Press Repair first.`,
  );
}

/** A formula as a tree; null for one that cannot be read, which need not be ours. */
function readOrNull(text: string): Node | null {
  try {
    return readFormula(text);
  } catch {
    return null;
  }
}

function typed(text: string): string {
  const tree = readOrNull(text);
  return tree ? typedFormula(tree) : `=${text}`;
}

function placeOf(sheet: Sheet, cell: string): string {
  return `${sheet.name}!${cell}`;
}

/** A range that stays where it is when the formula is filled: $A$1:$A$3. */
function held(range: string): string {
  return range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
}

/** The first cell of the spilled range that a node reads: A1#, stored as ANCHORARRAY(A1). */
function anchorOf(node: Node): string | null {
  const isCall = node.type === "CallExpression" && calleeOf(node) === "ANCHORARRAY";
  const isSign = node.type === "UnaryExpression" && node.operator === "#";
  if (!isCall && !isSign) return null;
  const [inner] = childrenOf(node);
  return inner?.type === "ReferenceIdentifier" ? inner.value : null;
}

function namesIn(node: Node): string[] {
  if (node.type === "ReferenceIdentifier")
    return node.kind === "name" ? [node.value.replace(/^.*!/, "").toLowerCase()] : [];
  return childrenOf(node).flatMap((child) => (child ? namesIn(child) : []));
}

function namesInText(text: string): string[] {
  const tree = readOrNull(text);
  return tree ? namesIn(tree) : [];
}
