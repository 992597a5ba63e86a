/**
 * Rules for input and conditional formats of files often reach down to the last row that a sheet can have. The
 * engine would go through a million rows of them after each change; it looks at those of its grid alone, since
 * below there is nothing. The rules themselves keep their ranges.
 */
import { gettersWith } from "./engine-parts.ts";
import { type Model, engine } from "./engine.ts";

type Getters = Model["getters"];
type Range = ReturnType<Getters["getRangeFromSheetXC"]>;

function withinGrid(getters: Getters): Getters {
  const ended = (range: Range): Range => {
    const { sheetId, zone } = range;
    // What a rule looked at may have been taken out.
    if (!getters.tryGetSheet(sheetId)) return range;
    const end = getters.getSheetZone(sheetId);
    return {
      ...range,
      zone: {
        ...zone,
        bottom: Math.max(zone.top, Math.min(zone.bottom, end.bottom)),
        right: Math.max(zone.left, Math.min(zone.right, end.right)),
      },
    };
  };
  const own: Partial<Getters> = {
    getRangeFromSheetXC: (...place) => ended(getters.getRangeFromSheetXC(...place)),
    getDataValidationRules: (sheetId) =>
      getters
        .getDataValidationRules(sheetId)
        .map((rule) => ({ ...rule, ranges: rule.ranges.map(ended) })),
  };
  return gettersWith(getters, own);
}

const plugins = engine.registries.coreViewsPluginRegistry;
for (const name of ["evaluation_cf", "data_validation_ui"]) {
  const Plugin = plugins.get(name);
  plugins.replace(
    name,
    class extends Plugin {
      constructor(config: ConstructorParameters<typeof Plugin>[0]) {
        super({ ...config, getters: withinGrid(config.getters) });
      }
    },
  );
}
