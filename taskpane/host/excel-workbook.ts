/** The pane's port on Excel, through Office.js: what each part does stands in a file of its own. */
import type { CellValue } from "../../functions/bind/cell.ts";
import { drawAt, drawOnNewSheet, drawOnNewSheets, redraw } from "./draw.ts";
import { enter, sweep, type as write } from "./enter.ts";
import { file, give } from "./file.ts";
import {
  cells,
  content,
  extent,
  firstFilled,
  format,
  formulas,
  selectedBlock,
  selection,
  sheetNames,
  show,
} from "./read.ts";
import { read } from "./run.ts";
import type { Spot, Workbook } from "./workbook.ts";

export class ExcelWorkbook implements Workbook {
  selection = selection;
  selectedBlock = selectedBlock;
  format = format;
  firstFilled = firstFilled;
  drawOnNewSheet = drawOnNewSheet;
  drawOnNewSheets = drawOnNewSheets;
  drawAt = drawAt;
  redraw = redraw;
  sheetNames = sheetNames;
  show = show;
  extent = extent;
  read = cells;
  write = write;
  content = content;
  formulas = formulas;
  enter = enter;
  sweep = sweep;
  file = file;
  give = give;

  onChange(listener: () => void): Promise<void> {
    return read(async (context) => {
      const told = async () => listener();
      context.workbook.onSelectionChanged.add(told);
      context.workbook.worksheets.onChanged.add(told);
      await context.sync();
    });
  }

  async values(spot: Spot, expressions: string[]): Promise<(CellValue[][] | null)[]> {
    // The reader of formulas, which few callers want, is loaded with the first of them.
    const { told } = await import("./expressions.ts");
    const found: (CellValue[][] | null)[] = [];
    // One by one: what fails is left out, and fails nothing else.
    for (const expression of expressions) found.push(await told(spot, expression));
    return found;
  }
}
