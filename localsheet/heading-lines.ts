/** Headings of lists are broken into lines beside the filter's button. The engine breaks them as if it were not there. */
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

/** Pixels of a wide letter, of a tall line with what the engine leaves between two, and of what is free around them. */
const LETTER = 7.2;
const LINE = 22;
const FREE = 8;

/** The height of a row of headings in columns of these widths, some beside a button: the engine's own is too low. */
export function headingsHeight(
  headings: readonly { text: string; width: number; isBeside: boolean }[],
): number {
  const counts = headings.map(({ text, width, isBeside }) =>
    linesOf(text, width - FREE - (isBeside ? BUTTON : 0)),
  );
  return Math.max(...counts) * LINE + FREE / 2;
}

function linesOf(text: string, width: number): number {
  let lines = 0;
  let taken = Infinity;
  for (const word of text.split(" ")) {
    const longer = taken + (word.length + 1) * LETTER;
    if (longer <= width) taken = longer;
    else {
      lines++;
      taken = word.length * LETTER;
    }
  }
  return lines;
}
