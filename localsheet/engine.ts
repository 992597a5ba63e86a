/**
 * The spreadsheet engine: @odoo/o-spreadsheet, LGPL-3, loaded by the page as its own unmodified file.
 * It is never bundled with Mistwright's code.
 */
export type Engine = typeof import("@odoo/o-spreadsheet");
export type Model = InstanceType<Engine["Model"]>;

declare global {
  var o_spreadsheet: Engine;
}

export const engine: Engine = globalThis.o_spreadsheet;
