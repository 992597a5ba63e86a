/**
 * Of an error for words where a number is needed: the cell that holds the words. The engine's message has the words
 * alone, and its formula may read many cells.
 */
import { type Model, engine } from "./engine.ts";
import { cautionIn } from "./loud-errors.ts";

type Position = Parameters<Model["getters"]["getEvaluatedCell"]>[0];

/** Cells of one formula that are looked at: beyond them it is quicker to look oneself. */
const MOST = 5000;

/** The message of an error in a cell, and where the words stand that it speaks of. */
export function reasonOf({ getters }: Pick<Model, "getters">, position: Position) {
  // Only an error has them, in types that the engine keeps to itself.
  const cell = getters.getEvaluatedCell(position) as { message?: string; origin?: Position };
  const { message, origin = position } = cell;
  if (!message) return undefined;
  const formula = getters.getCell(origin);
  const ranges = formula?.isFormula ? formula.compiledFormula.rangeDependencies : [];
  let looked = 0;
  for (const { sheetId, zone } of ranges) {
    for (let row = zone.top; row <= zone.bottom; row++)
      for (let col = zone.left; col <= zone.right && looked < MOST; col++, looked++) {
        const { type, value } = getters.getEvaluatedCell({ sheetId, row, col });
        const isIt = type === "text" && value !== "" && quotes(message, value);
        if (isIt)
          return `${message.replace(/\.?$/, ".")} The words stand in ${nameOf(getters, { sheetId, row, col })}.`;
      }
  }
  return message;
}

const quotes = (message: string, words: string) =>
  message.includes(`'${words}'`) || message.includes(`"${words}"`);

function nameOf(getters: Model["getters"], { sheetId, row, col }: Position): string {
  const name = engine.helpers.toXC(col, row);
  return sheetId === getters.getActiveSheetId()
    ? name
    : `${name} of ${getters.getSheetName(sheetId)}`;
}

/** What of the engine's tip is used here. */
interface Tip {
  env: { model: Model };
  props: { cellPosition: Position };
  evaluationError: { message?: string } | undefined;
}

const tips = engine.registries.cellPopoverRegistry;
const builder = tips.get("ErrorToolTip");
// The engine shows its tip to those who ask of a cell with an error, and lends it no other way.
const ofError = {
  getEvaluatedCell: () => ({ type: "error", message: "asked" }),
  getInvalidDataValidationMessage: () => undefined,
};
// It asks these getters for no more.
const asked = builder.onHover?.({ sheetId: "", row: 0, col: 0 }, ofError as never);
// The tip is not exported, so it is taken from what the engine shows.
const Plain = (asked as unknown as { Component: new (...all: unknown[]) => Tip }).Component;

/** The engine's tip with that message, and with what a cell cautions of, which may be cut off in it. */
class ReasonTip extends Plain {
  override get evaluationError() {
    const { getters } = this.env.model;
    const { cellPosition } = this.props;
    const error = super.evaluationError;
    const message = error ? reasonOf({ getters }, cellPosition) : cautionIn(getters, cellPosition);
    return message === undefined ? undefined : { ...error, message };
  }
}

tips.replace("ErrorToolTip", {
  ...builder,
  onHover: (position, getters) => {
    const shown = builder.onHover?.(position, getters) ?? { isOpen: false };
    if (!shown.isOpen && cautionIn(getters, position) === undefined) return shown;
    const props = { cellPosition: position };
    // Owl types a component by props that the tip does not name.
    return { isOpen: true, props, Component: ReasonTip as never, cellCorner: "top-right" };
  },
});
