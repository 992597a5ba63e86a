/**
 * The colours of the colour picker. The engine goes through every cell for them each time that something is
 * typed; only a cell that is given a look can bring a new one.
 */
import { type Command, engine } from "./engine.ts";

const NAME = "custom_colors";
const plugins = engine.registries.coreViewsPluginRegistry;
const Colors = plugins.get(NAME);

class UsedColors extends Colors {
  override handle(command: Command) {
    if (command.type !== "UPDATE_CELL" || command.style) super.handle(command);
  }
}

plugins.replace(NAME, UsedColors);
