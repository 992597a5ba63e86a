/** The engine in Node, as the page would load it, and a workbook on it. */
import { createRequire } from "node:module";
import { XMLSerializer } from "@xmldom/xmldom";
import type { Engine, Model } from "../../localsheet/engine";
import { PageParser } from "./page-dom";

// The engine wants Node 22 for this one function.
const groups = Object as unknown as { groupBy?: unknown };
groups.groupBy ??= <T>(items: Iterable<T>, keyOf: (item: T) => string) => {
  const found: Record<string, T[]> = {};
  for (const item of items) (found[keyOf(item)] ??= []).push(item);
  return found;
};
// It tells the time of every step on the console.
console.debug = () => undefined;
globalThis.o_spreadsheet = createRequire(import.meta.url)("@odoo/o-spreadsheet") as Engine;

// What a page has and Node lacks, for saving; set after the engine is loaded, which looks for a page.
Object.assign(globalThis, { DOMParser: PageParser, XMLSerializer });

const { register } = await import("../../functions/bind/register");
const { functionsHost } = await import("../../localsheet/custom-functions");
register(functionsHost);

export const { LocalWorkbook } = await import("../../localsheet/local-workbook");
export const { fromXlsx, namesIn, toXlsx } = await import("../../localsheet/files");
export const { bound, openModel } = await import("../../localsheet/open");
export const { saveBook } = await import("../../localsheet/save");

export function newModel(data?: object): Model {
  return new globalThis.o_spreadsheet.Model(data);
}

/** Writes into a cell of a sheet, by its name. */
export function write(model: Model, name: string, content: string, sheet?: string) {
  model.dispatch("UPDATE_CELL", { ...place(model, name, sheet), content });
}

/** A cell's value; an error is its code and its text. */
export function read(model: Model, name: string, sheet?: string) {
  const cell = model.getters.getEvaluatedCell(place(model, name, sheet));
  return cell.type === "error" ? `${cell.value} ${cell.message ?? ""}`.trim() : cell.value;
}

function place(model: Model, name: string, sheet?: string) {
  const { getters } = model;
  const sheetId = sheet ? (getters.getSheetIdByName(sheet) as string) : getters.getActiveSheetId();
  return { sheetId, ...globalThis.o_spreadsheet.helpers.toCartesian(name) };
}
