/** What is said at the head of a sheet is read without scrolling. */
import { expect, test } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";

/** Pixels for the cells in a window of 1280 with the pane open, as measured. */
const WINDOW = 886;
/** Pixels of a letter, as measured on the screen: 117 of a note take 698, 115 of a caution 732. */
const LETTER = { note: 698 / 117, caution: 732 / 115 };

test.each(templates.map((template) => [template.title, template] as const))(
  "%s: no note or caution above its first field is longer than the window is wide",
  (_, template) => {
    const { cells, widths } = drawingOf(template, false);
    const typed = cells.filter(({ look }) => look === "input" || look === "drawn");
    const first = Math.min(...typed.map(({ row }) => row));
    const tooLong = cells.filter(({ row, column, look, content }) => {
      if (row >= first || (look !== "note" && look !== "caution")) return false;
      if (String(content).startsWith("=")) return false;
      const left = widths.slice(0, column).reduce((sum, width) => sum + width, 0);
      return left + String(content).length * LETTER[look] > WINDOW;
    });
    expect(tooLong.map(({ content }) => content)).toEqual([]);
  },
);
