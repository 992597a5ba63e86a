/**
 * Sorted, blank lines stand last, as in Excel: the engine's filters take a blank for a zero and put it first. The
 * spare lines of a list, whose formulas show nothing, are blank, too.
 */
import { gettersWith } from "./engine-parts.ts";
import { type Model, engine } from "./engine.ts";

const NAME = "sort";
const plugins = engine.registries.featurePluginRegistry;
const Sort = plugins.get(NAME);

/** A cell with nothing in it. */
const { getters: ofNone } = new engine.Model();
const BLANK = ofNone.getEvaluatedCell({ sheetId: ofNone.getActiveSheetId(), row: 0, col: 0 });

function blankWhereNothingShows(getters: Model["getters"]): Model["getters"] {
  return gettersWith(getters, {
    getEvaluatedCell: (position) => {
      const cell = getters.getEvaluatedCell(position);
      return cell.value === "" ? BLANK : cell;
    },
  });
}

plugins.replace(
  NAME,
  class extends Sort {
    constructor(config: ConstructorParameters<typeof Sort>[0]) {
      super({ ...config, getters: blankWhereNothingShows(config.getters) });
    }

    override handle(command: Parameters<InstanceType<typeof Sort>["handle"]>[0]) {
      if (command.type !== "SORT_CELLS") return;
      super.handle({
        ...command,
        sortOptions: { ...command.sortOptions, emptyCellAsZero: false },
      });
    }
  },
);
