/**
 * The spreadsheet engine: @odoo/o-spreadsheet, LGPL-3, loaded by the page as its own unmodified file.
 * It is never bundled with Mistwright's code.
 */
export type Engine = typeof import("@odoo/o-spreadsheet");
export type Model = InstanceType<Engine["Model"]>;

/** A change of the workbook, as the engine tells it to those who share a sheet. */
export interface Message {
  type: string;
  serverRevisionId: string;
  nextRevisionId: string;
  /** The change that is taken back, or made again. */
  undoneRevisionId?: string;
  redoneRevisionId?: string;
}

/** A command that puts rows or columns in, or takes them out (`elements`). */
export interface Change {
  type: string;
  sheetId: string;
  dimension: "ROW" | "COL";
  base: number;
  quantity: number;
  position: "before" | "after";
  elements: number[];
}

declare global {
  var o_spreadsheet: Engine;
}

export const engine: Engine = globalThis.o_spreadsheet;
