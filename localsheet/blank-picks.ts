/**
 * A formula that shows nothing is no wrong pick, nor is a cell that a person empties as they edit it: the engine would
 * mark the one, and refuse the other.
 */
import { engine } from "./engine.ts";

const NAME = "data_validation_ui";
const plugins = engine.registries.coreViewsPluginRegistry;
const Validation = plugins.get(NAME);

/** What the engine's types leave out. */
interface Inside {
  getRuleErrorForCellValue(value: unknown, ...where: unknown[]): string | undefined;
}

class ValidationOfWhatShows extends Validation {
  getRuleErrorForCellValue(value: unknown, ...where: unknown[]): string | undefined {
    // The engine's types keep it private.
    const plain = Validation.prototype as unknown as Inside;
    const isBlank = value === "" || value === null;
    return isBlank ? undefined : plain.getRuleErrorForCellValue.call(this, value, ...where);
  }
}

plugins.replace(NAME, ValidationOfWhatShows);
