/** Every cell of a workbook that holds a formula. */
import type { Model } from "./engine.ts";

export interface EngineFormula {
  /** The sheet's name. */
  sheet: string;
  position: { sheetId: string; row: number; col: number };
  formula: string;
}

export function formulaCells({ getters }: Model): EngineFormula[] {
  return getters.getSheetIds().flatMap((sheetId) =>
    getters.getCells(sheetId).flatMap((cell) => {
      if (!cell.isFormula) return [];
      const { row, col } = getters.getCellPosition(cell.id);
      const position = { sheetId, row, col };
      const formula = getters.getCellText(position, { showFormula: true });
      return [{ sheet: getters.getSheetName(sheetId), position, formula }];
    }),
  );
}
