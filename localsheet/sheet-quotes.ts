/**
 * Sheets with an apostrophe in their names. Formulas write it twice, 'Mum''s oils'!A1; the engine knows
 * no such sheet when it reads that, and writes it once, which nothing can read.
 */
import { inQuotes } from "../functions/formula/sheet-names.ts";
import { type Getters, ranges, sheets, shortener } from "./engine-parts.ts";
import { engine } from "./engine.ts";

const { getRangeString } = ranges;

ranges.getRangeString = function (found, ...others) {
  const text = getRangeString.call(this, found, ...others);
  const name = found && this.getters.tryGetSheetName(found.sheetId);
  if (!name?.includes("'") || !text.startsWith(`'${name}'!`)) return text;
  return inQuotes(name) + text.slice(name.length + 2);
};

const { getSheetIdByName } = sheets;

sheets.getSheetIdByName = function (name) {
  return (
    getSheetIdByName.call(this, name) ?? getSheetIdByName.call(this, name?.replaceAll("''", "'"))
  );
};

const hasQuoted = (getters: Getters) =>
  getters.getSheetIds().some((id) => getters.tryGetSheetName(id)?.includes("'"));

/** What differs from the formula above is written by another road: here formulas are written whole. */
const plugins = engine.registries.corePluginRegistry;
const Cells = plugins.get("cell");

class UnshortenedCells extends Cells {
  override export(...[data, isShort]: Parameters<InstanceType<typeof Cells>["export"]>) {
    super.export(data, isShort && !hasQuoted(this.getters));
  }
}

plugins.replace("cell", UnshortenedCells);

const { squish } = shortener;
shortener.squish = function (commands) {
  return hasQuoted(this.getters) ? commands : squish.call(this, commands);
};
