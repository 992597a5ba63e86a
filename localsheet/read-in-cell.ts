/** What a text comes to in a cell, typed or pasted: read for the cell's units, or for its format. */
import { areUnits, listedUnit } from "../taskpane/sheets/pack-units.ts";
import type { Model } from "./engine.ts";
import type { Language } from "./language.ts";
import { type TypedText, readTyped } from "./typed.ts";

type Getters = Pick<Model["getters"], "getCell" | "getValidationRuleForCell">;
type Position = Parameters<Getters["getCell"]>[0];

/** The units that the cell takes, in any spelling; none where it takes other things. */
export function unitsAt(getters: Getters, position: Position): string[] {
  const { type, values = [] } = getters.getValidationRuleForCell(position)?.criterion ?? {};
  return type === "isValueInList" && areUnits(values) ? values : [];
}

export function readInCell(
  getters: Getters,
  position: Position,
  text: string,
  language: Language,
): TypedText {
  const unit = listedUnit(text, unitsAt(getters, position));
  if (unit !== undefined) return { content: unit };
  return readTyped(text, getters.getCell(position)?.format ?? "", language);
}
