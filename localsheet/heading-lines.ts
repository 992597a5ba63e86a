/** Headings of lists are broken into lines beside the filter's button. The engine breaks them as if it were not there. */
import { linesOf } from "../taskpane/sheets/headings.ts";
import { engine } from "./engine.ts";

/** Pixels of the button, as the engine draws it. */
const BUTTON = 19;

const NAME = "ui_sheet";
const plugins = engine.registries.featurePluginRegistry;
const Sheets = plugins.get(NAME);

interface Position {
  sheetId: string;
  row: number;
  col: number;
}

interface Widths {
  maxWidth: number;
  wrapWidth?: number;
}

class SheetsWithHeadings extends Sheets {
  /** Of the engine's own class, which its types do not name. */
  declare getCellMultiLineText: (position: Position, widths: Widths) => string[];

  constructor(...all: ConstructorParameters<typeof Sheets>) {
    super(...all);
    const plainly = this.getCellMultiLineText.bind(this);
    this.getCellMultiLineText = (position, widths) => {
      const { wrapWidth } = widths;
      const isBeside = wrapWidth !== undefined && this.getters.isFilterHeader(position);
      return plainly(position, isBeside ? { ...widths, wrapWidth: wrapWidth - BUTTON } : widths);
    };
  }
}

plugins.replace(NAME, SheetsWithHeadings);

/** Pixels of a line with what the engine leaves between two, and of what is free above and below them. */
const LINE = 18;
const FREE = 8;

/** The height of a row of headings in columns of these widths, some beside a button: the engine's own is too low. */
export function headingsHeight(
  headings: readonly { text: string; width: number; isBeside: boolean }[],
): number {
  const counts = headings.map(({ text, width, isBeside }) => linesOf(text, width, isBeside));
  return Math.max(...counts) * LINE + FREE;
}
