/**
 * The charts of an opened file, where they are when nobody touches them: the engine moves them as rows and columns
 * come and go, a little differently from the file's own ranges, since its ranges begin at the heading.
 */
import type { Edit } from "../functions/files/shift.ts";
import type { Model } from "./engine.ts";
import type { Origin } from "./origin.ts";
import type { SheetState } from "./state.ts";

/** The charts of each sheet, by the name that it has in `now`; `opened` is the workbook as it was opened. */
export function followedCharts(
  opened: Model,
  { sheets, edits }: Origin,
  now: Model,
): Map<string, SheetState["figures"]> {
  const ids = new Map(Object.entries(sheets).map(([id, name]) => [name, id]));
  for (const edit of edits) follow(opened, ids.get(edit.sheet) ?? "", edit);
  const names = Object.keys(sheets).flatMap((id): [string, string][] => {
    const name = now.getters.tryGetSheetName(id);
    return name === undefined || name === sheets[id] ? [] : [[id, name]];
  });
  // By way of names that nobody has, so that two sheets may change theirs.
  names.forEach(([id], i) => rename(opened, id, `mistwright ${i}`));
  names.forEach(([id, name]) => rename(opened, id, name));
  // The engine types a chart as any of its own; here they are only compared.
  const { sheets: followed } = opened.exportData() as unknown as { sheets: SheetState[] };
  return new Map(followed.map(({ name, figures }) => [name, figures]));
}

function follow(model: Model, sheetId: string, { sheet, dimension, at = 0, add, remove }: Edit) {
  const dim = dimension === "row" ? "ROW" : "COL";
  const where = { sheetId, sheetName: sheet, dimension: dim } as const;
  if (remove) model.dispatch("REMOVE_COLUMNS_ROWS", { ...where, elements: remove });
  else {
    // At the foot of a sheet there is no row to put another before, at its head none to put one after.
    const place =
      at === 0
        ? ({ base: 0, position: "before" } as const)
        : ({ base: at - 1, position: "after" } as const);
    model.dispatch("ADD_COLUMNS_ROWS", { ...where, ...place, quantity: add ?? 0 });
  }
}

function rename(model: Model, sheetId: string, newName: string) {
  const oldName = model.getters.getSheetName(sheetId);
  model.dispatch("RENAME_SHEET", { sheetId, oldName, newName });
}
