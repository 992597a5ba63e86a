/**
 * Text pasted from elsewhere: each cell is read as if it were typed there. The engine's own takes it as it stands, so
 * that 5 in a percent cell is 500 %, takes the cell's looks and format away, so that what is typed later is read for
 * no format, and empties the line below where the text ends with a new line, as that of spreadsheets does.
 */
import { cellName } from "../functions/formula/addresses.ts";
import { composing } from "./composing.ts";
import { engine } from "./engine.ts";
import { readInCell } from "./read-in-cell.ts";

const handlers = engine.registries.clipboardHandlersRegistries.cellHandlers;
const Cells = handlers.get("cell");

type Handler<T, T1> = InstanceType<typeof Cells<T, T1>>;

/** A cell of the clipboard; one that was text has stood in no sheet. */
interface Clipped {
  content: string;
  position?: object;
}

class TextPaste<T, T1> extends Cells<T, T1> {
  override pasteZone(...all: Parameters<Handler<T, T1>["pasteZone"]>) {
    const [sheetId, left, top, , options] = all;
    // What each kind of content is told apart by is not in the engine's types.
    const lines = all[3] as Clipped[][];
    const isText = lines.flat().every(({ position }) => !position);
    if (!isText || options?.pasteOption === "onlyFormat") {
      super.pasteZone(...all);
      return;
    }
    const doubts: string[] = [];
    for (const [down, line] of lines.entries())
      for (const [across, { content }] of line.entries()) {
        const to = { sheetId, col: left + across, row: top + down };
        // Below a list there is nothing yet that says how to read: as in the first line.
        const like = this.getters.getCell(to) ? to : { ...to, row: top };
        const read = readInCell(this.getters, like, content, composing.language);
        this.dispatch("UPDATE_CELL", { ...to, content: read.content });
        if (read.doubt) doubts.push(`${cellName(to.row, to.col)}: ${read.doubt}`);
      }
    const [first, ...more] = doubts;
    const others = more.length > 0 ? ` And ${more.length} more that were pasted.` : "";
    composing.doubt(first && first + others);
  }

  override convertTextToClipboardData(text: string) {
    return super.convertTextToClipboardData(text.replace(/\r?\n$/, ""));
  }
}

handlers.replace("cell", TextPaste);
