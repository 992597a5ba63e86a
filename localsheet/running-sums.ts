/**
 * Running sums, SUM(A$1:A1) above SUM(A$1:A2). Of the first the engine makes SUM(A$1), which says
 * another thing as soon as it is filled down; and it writes a formula down as what differs from the
 * one above it, where the two kinds of range made it fail: no file with them opened, and no
 * workbook was kept.
 */
import { engine } from "./engine.ts";

interface Part {
  colFixed: boolean;
  rowFixed: boolean;
}

interface Ranges {
  getRangeFromSheetXC: (this: Ranges, sheetId: string, xc: string) => { parts: Part[] };
}

/** What turns texts into ranges, which no registry holds. */
const ranges = Object.getPrototypeOf(
  (new engine.Model() as unknown as { range: Ranges }).range,
) as Ranges;
const { getRangeFromSheetXC } = ranges;

ranges.getRangeFromSheetXC = function (sheetId, xc) {
  const range = getRangeFromSheetXC.call(this, sheetId, xc);
  const corners = /(\$?)[A-Z]+(\$?)\d+:(\$?)[A-Z]+(\$?)\d+$/i.exec(xc);
  if (range.parts.length !== 1 || !corners) return range;
  const [, col, row, lastCol, lastRow] = corners;
  const parts = [
    { colFixed: col === "$", rowFixed: row === "$" },
    { colFixed: lastCol === "$", rowFixed: lastRow === "$" },
  ];
  return { ...range, parts };
};

const NAME = "cell";
const plugins = engine.registries.corePluginRegistry;
const Cells = plugins.get(NAME);

/**
 * A range of one cell that comes of a table is still of the other kind: where it fails, all is
 * written whole.
 */
class WholeCells extends Cells {
  override export(...[data, isShort]: Parameters<InstanceType<typeof Cells>["export"]>) {
    try {
      super.export(data, isShort);
    } catch {
      super.export(data, false);
    }
  }
}

plugins.replace(NAME, WholeCells);

/** What shortens the changes of a step, which no registry holds. */
interface Shortener {
  squish: (this: Shortener, commands: unknown[]) => unknown[];
}

const { commandSquisher } = (
  new engine.Model() as unknown as { session: { commandSquisher: Shortener } }
).session;
const shortener = Object.getPrototypeOf(commandSquisher) as Shortener;
const { squish } = shortener;
shortener.squish = function (commands) {
  try {
    return squish.call(this, commands);
  } catch {
    return commands;
  }
};
