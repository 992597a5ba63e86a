/**
 * The engine's cell editor, with what is typed read as a person means it. The grid and the formula bar
 * share it. The engine's own puts a % behind the first figure typed into a percent cell, so that a sign
 * typed after it makes two, and no number any more; ours leaves the text alone and reads it at the end.
 */
import { cellName } from "../functions/formula/addresses.ts";
import { element } from "../taskpane/pane/elements.ts";
import { listedUnit } from "../taskpane/sheets/pack-units.ts";
import { composing } from "./composing.ts";
import { engine } from "./engine.ts";
import { readInCell, unitsAt } from "./read-in-cell.ts";
import { isPercentage } from "./typed.ts";

/** What the engine's editor asks of itself, and keeps to itself in its types. */
interface Inner {
  canStopEdition(): boolean;
}

export class TypedComposer extends engine.stores.CellComposerStore {
  override startEdition(text?: string, selection?: { start: number; end: number }) {
    const wasEditing = this.editionMode !== "inactive";
    const answer = super.startEdition(text, selection);
    if (text && this._currentContent === `${text}%`)
      this.setCurrentContent(text, { start: text.length, end: text.length });
    if (text && !wasEditing) showFirst(text);
    return answer;
  }

  /** What the text comes to in its cell; the engine checks it, then writes it. */
  protected override getCurrentCanonicalContent(): string {
    return this.reading().content;
  }

  override stopEdition(direction?: "up" | "down" | "left" | "right") {
    const wasEdited =
      this.editionMode !== "inactive" && this._currentContent !== this.initialContent;
    const { doubt } = this.reading();
    const position = this.currentEditedCell;
    // The engine's types keep it private.
    if ((this as unknown as Inner).canStopEdition() && !this.isNoUnit()) {
      super.stopEdition(direction);
      if (wasEdited) composing.doubt(doubt && `${cellName(position.row, position.col)}: ${doubt}`);
      return;
    }
    const refusal = this.refusal(position);
    if (!refusal) {
      super.stopEdition(direction);
      return;
    }
    // First, since the dialog takes the focus away, which ends the editing too.
    this.cancelEdition();
    this.notificationStore.raiseError(refusal);
  }

  private reading() {
    return readInCell(
      this.getters,
      this.currentEditedCell,
      this._currentContent,
      composing.language,
    );
  }

  /** The units that the cell takes, in any spelling; none where it takes other things. */
  private units(): string[] {
    return unitsAt(this.getters, this.currentEditedCell);
  }

  private isNoUnit(): boolean {
    const units = this.units();
    const typed = this._currentContent.trim();
    const isTyped = this.editionMode !== "inactive" && typed !== "" && !typed.startsWith("=");
    return units.length > 0 && isTyped && listedUnit(typed, units) === undefined;
  }

  /** Why the text is not taken, and what is. */
  private refusal(position: { sheetId: string; col: number; row: number }): string | undefined {
    const rule = this.getters.getValidationRuleForCell(position);
    const typed = this._currentContent.trim();
    const { type, values = [] } = rule?.criterion ?? {};
    if (this.units().length > 0)
      return `${cellName(position.row, position.col)} takes one of these units, in any spelling: ${values.join(", ")}. "${typed}" is none of them.`;
    if (type === "isValueInList")
      return `${cellName(position.row, position.col)} takes one of these words: ${values.join(", ")}. "${typed}" is none of them.`;
    if (type === "isValueInRange")
      return `${cellName(position.row, position.col)} takes a name from ${placeOf(values[0])}. "${typed}" is not there: type it there first, or pick another from the drop-down.`;
    if (type !== "isBetween") return undefined;
    const format = this.getters.getCell(position)?.format ?? "";
    if (!isPercentage(format))
      return `${cellName(position.row, position.col)} takes a number from ${values[0]} to ${values[1]}. "${typed}" is not one.`;
    const [low, high] = values.map((value) => `${Number(value) * 100} %`);
    return `${cellName(position.row, position.col)} takes a percentage from ${low} to ${high}. "${typed}" ${rangeIn(typed) ?? "is not one: type 5 %"}.`;
  }
}

/**
 * The engine empties its editor a frame after the first key, and reads what stands in it at the second:
 * a quick hand, or a slow machine, would join the old content to the new. So it is emptied at once.
 */
function showFirst(text: string) {
  // Tests without a page have no document.
  const editor = (globalThis.document as Document | undefined)?.activeElement;
  if (!editor?.matches(".o-grid .o-composer")) return;
  const line = element("p", {}, element("span", {}, text));
  editor.replaceChildren(line);
  document.getSelection()?.collapse(line.firstChild?.firstChild ?? line, text.length);
}

/** What a data sheet's range is, typed into the cell of one number; undefined where it is none. */
function rangeIn(typed: string): string | undefined {
  if (/\d\s*%?\s*(-|\u2013|\u2014|to)\s*\d/i.test(typed))
    return "is a range: type its low and its high, each into its own cell";
  if (/^[<>\u2264\u2265]/.test(typed))
    return "is one end of a range: type the number alone, as its low or as its high";
  return undefined;
}

/** The sheet of a list that is drawn on: its cells are in hidden columns, and tell a person nothing. */
function placeOf(range = ""): string {
  const sheet = engine.helpers.splitReference(range).sheetName;
  return sheet ? `the list on ${sheet}` : "this sheet's list";
}
