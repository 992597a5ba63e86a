/**
 * Running sums, SUM(A$1:A1) above SUM(A$1:A2). Of the first the engine makes SUM(A$1), which says
 * another thing as soon as it is filled down; and it writes a formula down as what differs from the
 * one above it, where the two kinds of range made it fail: no file with them opened, and no
 * workbook was kept.
 */
import { engine } from "./engine.ts";

interface RangeEnd {
  colFixed: boolean;
  rowFixed: boolean;
}

interface Ranges {
  getRangeFromSheetXC: (this: Ranges, sheetId: string, xc: string) => { parts: RangeEnd[] };
}

/** What shortens the changes of a step. */
interface Shortener {
  squish: (this: Shortener, commands: unknown[]) => unknown[];
}

// No registry holds these two: they are found through a workbook that has them, in what its types keep private.
const { range, session } = new engine.Model() as unknown as {
  range: Ranges;
  session: { commandSquisher: Shortener };
};

function prototypeOf<T extends object>(made: T): T {
  // A prototype has the methods of what is made after it, and only these are used here.
  return Object.getPrototypeOf(made) as T;
}

const ranges = prototypeOf(range);
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

const shortener = prototypeOf(session.commandSquisher);
const { squish } = shortener;
shortener.squish = function (commands) {
  try {
    return squish.call(this, commands);
  } catch {
    return commands;
  }
};
