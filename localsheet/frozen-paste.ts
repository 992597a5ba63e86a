/**
 * Pasting across what stays in sight. The engine refuses it, as merged cells may not reach across; a list whose
 * names stay in sight could not be pasted into. Without merged cells there is nothing in the way.
 */
import { engine } from "./engine.ts";

interface Handler {
  isPasteAllowed(sheetId: string, target: unknown, content: unknown, options: unknown): string;
}

const handlers = engine.registries.clipboardHandlersRegistries.cellHandlers;
const Sheets = handlers.get("sheet") as unknown as new (...all: unknown[]) => Handler;

class FrozenPaste extends Sheets {
  override isPasteAllowed(...all: Parameters<Handler["isPasteAllowed"]>): string {
    const { merge } = all[2] as { merge?: { merges: unknown[][] } };
    const hasMerges = merge?.merges.flat().some(Boolean) ?? false;
    return hasMerges ? super.isPasteAllowed(...all) : "Success";
  }
}

handlers.replace("sheet", FrozenPaste as never);
