/** All that a workbook holds, in a form that can be compared with what it held before. */
import type { CellStyle } from "../functions/files/style-book.ts";
import type { View } from "../functions/files/sheet-view.ts";
import { cellsIn } from "../functions/files/cells.ts";
import { withinSheet } from "../functions/files/shift.ts";
import { cellName } from "../functions/formula/addresses.ts";
import type { Model, WorkbookData } from "./engine.ts";

export interface CellState {
  content: string;
  look: CellStyle;
  lookKey: string;
  /** The value of a formula, or of a cell that one fills. */
  value?: string;
  isError: boolean;
  /** The range that a formula fills, where that is more than its own cell. */
  spread?: string;
}

export type Size = { size?: number; isHidden?: boolean };

export interface SheetState {
  id: string;
  name: string;
  isVisible: boolean;
  cells: Map<string, CellState>;
  rows: Record<string, Size>;
  cols: Record<string, Size>;
  merges: string[];
  dataValidationRules: { ranges: string[] }[];
  conditionalFormats: { ranges: string[] }[];
  tables: { range: string }[];
  figures: { id: string; tag: string; data?: unknown }[];
  view: View;
}

/** A text that was typed with an apostrophe before it, so that it stays a text. */
export function isQuoted(cell?: CellState): boolean {
  return cell?.content.startsWith("'") ?? false;
}

export const PLAIN: CellStyle = { style: {}, border: {} };

export function stateOf(model: Model): SheetState[] {
  const data = model.exportData();
  return data.sheets.map((sheet) => ({
    id: sheet.id,
    name: sheet.name,
    isVisible: sheet.isVisible,
    cells: cellsOf(model, sheet, data),
    rows: sheet.rows,
    cols: sheet.cols,
    merges: sheet.merges,
    dataValidationRules: sheet.dataValidationRules.map(endedRule),
    conditionalFormats: sheet.conditionalFormats.map(endedRule),
    tables: sheet.tables,
    figures: sheet.figures,
    view: {
      rows: sheet.panes?.ySplit ?? 0,
      columns: sheet.panes?.xSplit ?? 0,
      gridLines: sheet.areGridLinesVisible ?? true,
      color: sheet.color ?? "",
      isLocked: sheet.isLocked ?? false,
    },
  }));
}

function endedRule<T extends { ranges: string[] }>(rule: T): T {
  return { ...rule, ranges: rule.ranges.map(withinSheet) };
}

function cellsOf(
  model: Model,
  sheet: WorkbookData["sheets"][number],
  data: WorkbookData,
): Map<string, CellState> {
  const cells = new Map<string, CellState>();
  const at = (name: string) => {
    const known = cells.get(name);
    if (known) return known;
    const made: CellState = { content: "", look: PLAIN, lookKey: "", isError: false };
    cells.set(name, made);
    return made;
  };
  const put = (zones: Record<string, number>, look: (id: number) => Partial<CellStyle>) => {
    for (const [zone, id] of Object.entries(zones))
      for (const name of cellsIn(zone)) {
        const cell = at(name);
        cell.look = { ...cell.look, ...look(id) };
      }
  };
  put(sheet.styles, (id) => ({ style: meant({ ...data.styles[id] }) }));
  put(sheet.formats, (id) => inLook("format", data.formats[id]));
  put(sheet.borders, (id) => inLook("border", data.borders[id] && { ...data.borders[id] }));
  for (const cell of cells.values()) cell.lookKey = keyOf(cell.look);
  contents(model, sheet.id, at);
  return cells;
}

/** One of the aspects of a look, where there is one. */
function inLook<K extends keyof CellStyle>(
  aspect: K,
  value: CellStyle[K] | undefined,
): Partial<CellStyle> {
  return value === undefined ? {} : { [aspect]: value };
}

/** A style without what says the same as nothing, so that it is no change. */
function meant(style: CellStyle["style"]): CellStyle["style"] {
  return Object.fromEntries(
    Object.entries(style)
      .filter(
        ([key, value]) =>
          value !== undefined && value !== false && !(key === "wrapping" && value === "overflow"),
      )
      .sort(([a], [b]) => a.localeCompare(b)),
  );
}

function keyOf({ style, format, border }: CellStyle): string {
  const key = JSON.stringify([style, format ?? null, border]);
  return key === PLAIN_KEY ? "" : key;
}

const PLAIN_KEY = JSON.stringify([{}, null, {}]);

function contents({ getters }: Model, sheetId: string, at: (name: string) => CellState) {
  for (const cell of getters.getCells(sheetId)) {
    const { row, col } = getters.getCellPosition(cell.id);
    const position = { sheetId, row, col };
    const text = cell.isFormula
      ? withinSheet(getters.getCellText(position, { showFormula: true }))
      : cell.content;
    if (!text) continue;
    const state = at(cellName(row, col));
    state.content = text;
    if (cell.isFormula) spread(getters, position, at);
  }
}

/** The values of a formula's own cell and of those that it fills. */
function spread(
  getters: Model["getters"],
  position: { sheetId: string; row: number; col: number },
  at: (name: string) => CellState,
) {
  const { sheetId } = position;
  const zone = getters.getSpreadZone(position) ?? {
    top: position.row,
    bottom: position.row,
    left: position.col,
    right: position.col,
  };
  for (let row = zone.top; row <= zone.bottom; row++)
    for (let col = zone.left; col <= zone.right; col++) {
      const { type, value } = getters.getEvaluatedCell({ sheetId, row, col });
      const state = at(cellName(row, col));
      state.value = JSON.stringify([type, value]);
      state.isError = type === "error";
    }
  if (zone.bottom > zone.top || zone.right > zone.left)
    at(cellName(position.row, position.col)).spread =
      `${cellName(zone.top, zone.left)}:${cellName(zone.bottom, zone.right)}`;
}
