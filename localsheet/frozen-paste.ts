/**
 * Pasting across what stays in sight. The engine refuses it, as merged cells may not reach across; a list whose
 * names stay in sight could not be pasted into. Without merged cells there is nothing in the way.
 */
import { engine } from "./engine.ts";

const handlers = engine.registries.clipboardHandlersRegistries.cellHandlers;
const Sheets = handlers.get("sheet");

type Handler<T, T1> = InstanceType<typeof Sheets<T, T1>>;
/** Of a handler that refuses nothing. */
const Any = engine.AbstractCellClipboardHandler.prototype;

class FrozenPaste<T, T1> extends Sheets<T, T1> {
  override isPasteAllowed(...all: Parameters<Handler<T, T1>["isPasteAllowed"]>) {
    // What each kind of content is told apart by is not in the engine's types.
    const { merge } = all[2] as { merge?: { merges: unknown[][] } };
    const hasMerges = merge?.merges.flat().some(Boolean) ?? false;
    return hasMerges ? super.isPasteAllowed(...all) : Any.isPasteAllowed.apply(this, all);
  }
}

handlers.replace("sheet", FrozenPaste);
