/**
 * The spreadsheet engine: @odoo/o-spreadsheet, LGPL-3, loaded by the page as its own unmodified file.
 * It is never bundled with Mistwright's code.
 */
export type Engine = typeof import("@odoo/o-spreadsheet");
export type { Command, CoreCommand } from "@odoo/o-spreadsheet";
export type Model = InstanceType<Engine["Model"]>;
export type WorkbookData = ReturnType<Model["exportData"]>;

/** A change of the workbook, as the engine tells it to those who share a sheet. */
export type Message = NonNullable<ConstructorParameters<Engine["Model"]>[2]>[number];

declare global {
  var o_spreadsheet: Engine;
}

export const engine: Engine = globalThis.o_spreadsheet;
