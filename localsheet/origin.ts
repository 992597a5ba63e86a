/**
 * Where a workbook came from: which file, and which rows and columns were put in or taken out since. It is kept
 * with the workbook and follows undo, so that saving can write into that file.
 */
import type { Fence } from "../functions/files/far.ts";
import { type Edit, shiftIndex } from "../functions/files/shift.ts";
import { type CoreCommand, type WorkbookData, engine } from "./engine.ts";

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

type Longer = Extract<CoreCommand, { type: "ADD_COLUMNS_ROWS" }>;

/** A workbook's data with what we keep in it. */
type Data = WorkbookData & { mistwright?: Origin };

class OriginPlugin extends engine.CorePlugin<{ kept: { origin: Origin | null } }> {
  static override getters = ["getOrigin"];
  private readonly kept: { origin: Origin | null } = { origin: null };
  /** The command under way, where it makes the grid longer. */
  private longer: unknown;

  constructor(config: ConstructorParameters<typeof engine.CorePlugin>[0]) {
    super(config);
    // Ranges are the first to follow a command. Those beyond the grid stay when that gets longer.
    const { range } = config;
    const handle = range.handle.bind(range);
    range.handle = (command) => {
      if (!this.isLonger(command)) {
        handle(command);
        return;
      }
      this.longer = command;
      handle({ ...command, base: END[command.dimension] });
    };
  }

  override import(data: Data) {
    this.kept.origin = data.mistwright ?? null;
  }

  override export(data: Data) {
    if (this.kept.origin) data.mistwright = this.kept.origin;
  }

  override handle(command: CoreCommand) {
    const { origin } = this.kept;
    const sheet = "sheetId" in command ? origin?.sheets[command.sheetId] : undefined;
    if (!origin || sheet === undefined || this.longer === command) return;
    const edit = editOf(command, sheet);
    if (!edit) return;
    this.history.update("kept", "origin", { ...origin, edits: [...origin.edits, edit] });
  }

  /** Lines put in after the last: they are part of the sheet already, unless they reach what is out of sight. */
  private isLonger(command: CoreCommand): command is Longer {
    if (command.type !== "ADD_COLUMNS_ROWS" || command.position !== "after") return false;
    const { sheetId, dimension, base, quantity } = command;
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

function editOf(command: CoreCommand, sheet: string): Edit | null {
  if (command.type !== "ADD_COLUMNS_ROWS" && command.type !== "REMOVE_COLUMNS_ROWS") return null;
  const dimension = command.dimension === "ROW" ? "row" : "column";
  if (command.type === "REMOVE_COLUMNS_ROWS") return { sheet, dimension, remove: command.elements };
  const { base, quantity, position } = command;
  return { sheet, dimension, at: position === "before" ? base : base + 1, add: quantity };
}

engine.registries.corePluginRegistry.add("mistwright_origin", OriginPlugin);
