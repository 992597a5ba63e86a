/**
 * Where a workbook came from: which file, and which rows and columns were put in or taken out since. It is kept
 * with the workbook and follows undo, so that saving can write into that file.
 */
import type { Fence } from "../functions/files/far.ts";
import { type Edit, shiftIndex } from "../functions/files/shift.ts";
import { type Change, engine } from "./engine.ts";

export interface Origin {
  /** The key of the file that is kept beside the workbook. */
  file: string;
  /** The sheets of the file by the engine's ids: the names that they had. */
  sheets: Record<string, string>;
  /** The charts of the file, by the engine's ids. */
  figures: string[];
  /** Where what is out of sight began, by the names that the sheets had; older work lacks them. */
  fences?: Record<string, Fence>;
  edits: Edit[];
}

/** Where what is out of sight begins now, by the names that the sheets had. */
export function fencesNow({ fences = {}, edits }: Origin): Record<string, Fence> {
  const moved = Object.entries(fences).map(([sheet, fence]): [string, Fence] => [
    sheet,
    edits
      .filter((edit) => edit.sheet === sheet)
      .reduce(
        (at, edit) => ({
          ...at,
          [edit.dimension]: shiftIndex(at[edit.dimension], edit) ?? at[edit.dimension],
        }),
        fence,
      ),
  ]);
  return Object.fromEntries(moved);
}

/** The last line that any sheet can have: nothing moves when others are put in after it. */
const END = { ROW: 1_048_576, COL: 16_384 };

class OriginPlugin extends engine.CorePlugin {
  static override getters = ["getOrigin"] as never[];
  private readonly kept: { origin: Origin | null } = { origin: null };
  /** The command under way, where it makes the grid longer. */
  private longer: unknown;

  constructor(config: ConstructorParameters<typeof engine.CorePlugin>[0]) {
    super(config);
    // Ranges are the first to follow a command. Those beyond the grid stay when that gets longer.
    const { range } = config;
    const handle = range.handle.bind(range);
    range.handle = (command) => {
      const isLonger = this.isLonger(command as unknown as Change);
      if (isLonger) this.longer = command;
      handle(
        isLonger ? ({ ...command, base: END[(command as Change).dimension] } as never) : command,
      );
    };
  }

  override import(data: never) {
    this.kept.origin = (data as { mistwright?: Origin }).mistwright ?? null;
  }

  override export(data: never) {
    if (this.kept.origin) (data as { mistwright?: Origin }).mistwright = this.kept.origin;
  }

  override handle(command: never) {
    const { origin } = this.kept;
    const change = command as Change;
    const sheet = origin?.sheets[change.sheetId];
    if (!origin || sheet === undefined || this.longer === command) return;
    const edit = editOf(change, sheet);
    if (!edit) return;
    const update = this.history.update.bind(this.history) as (...path: unknown[]) => void;
    update("kept", "origin", { ...origin, edits: [...origin.edits, edit] });
  }

  /** Lines put in after the last: they are part of the sheet already, unless they reach what is out of sight. */
  private isLonger({ type, sheetId, dimension, base, quantity, position }: Change): boolean {
    if (type !== "ADD_COLUMNS_ROWS" || position !== "after") return false;
    const isRows = dimension === "ROW";
    const count = isRows
      ? this.getters.getNumberRows(sheetId)
      : this.getters.getNumberCols(sheetId);
    const { origin } = this.kept;
    const fence = origin && fencesNow(origin)[origin.sheets[sheetId] ?? ""];
    const end = fence?.[isRows ? "row" : "column"] ?? END[dimension];
    return base === count - 1 && count + quantity <= end;
  }

  getOrigin(): Origin | null {
    return this.kept.origin;
  }
}

function editOf(
  { type, dimension, base, quantity, position, elements }: Change,
  sheet: string,
): Edit | null {
  const where = { sheet, dimension: dimension === "ROW" ? ("row" as const) : ("column" as const) };
  if (type === "ADD_COLUMNS_ROWS")
    return { ...where, at: position === "before" ? base : base + 1, add: quantity };
  return type === "REMOVE_COLUMNS_ROWS" ? { ...where, remove: elements } : null;
}

engine.registries.corePluginRegistry.add("mistwright_origin", OriginPlugin);
