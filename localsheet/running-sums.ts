/**
 * A running sum, SUM(A$1:A1) above SUM(A$1:A2). The engine writes a formula down as what differs from the one above
 * it, and fails on this one: no file with it opened, and no workbook was kept. Where it fails, all is written whole.
 */
import { engine } from "./engine";

const NAME = "cell";
const plugins = engine.registries.corePluginRegistry;
const Cells = plugins.get(NAME);

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
