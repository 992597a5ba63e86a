/**
 * Running sums, SUM(A$1:A1) above SUM(A$1:A2). Of the first the engine makes SUM(A$1), which says
 * another thing as soon as it is filled down; and it writes a formula down as what differs from the
 * one above it, where the two kinds of range made it fail: no file with them opened, and no
 * workbook was kept.
 */
import { ranges, shortener } from "./engine-parts.ts";
import { engine } from "./engine.ts";

const { getRangeFromSheetXC } = ranges;

ranges.getRangeFromSheetXC = function (sheetId, xc) {
  const found = getRangeFromSheetXC.call(this, sheetId, xc);
  const corners = /(\$?)[A-Z]+(\$?)\d+:(\$?)[A-Z]+(\$?)\d+$/i.exec(xc);
  if (found.parts.length !== 1 || !corners) return found;
  const [, col, row, lastCol, lastRow] = corners;
  const parts = [
    { colFixed: col === "$", rowFixed: row === "$" },
    { colFixed: lastCol === "$", rowFixed: lastRow === "$" },
  ];
  return { ...found, parts };
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

const { squish } = shortener;
shortener.squish = function (commands) {
  try {
    return squish.call(this, commands);
  } catch {
    return commands;
  }
};
