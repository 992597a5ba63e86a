/**
 * Drop-downs that take their words from cells follow those cells when rows or columns are added or taken
 * away above or beside them. The engine moves the formulas of its rules, and forgets this one's range.
 */
import { engine } from "./engine.ts";

interface ListRule {
  criterion: { type: string; values: string[] };
}

const NAME = "dataValidation";
const plugins = engine.registries.corePluginRegistry;
const Rules = plugins.get(NAME);

type Adapters = Parameters<InstanceType<typeof Rules>["adaptRanges"]>[0];

class RulesWithLists extends Rules {
  /** Of the engine's own class, which its types do not name. */
  declare rules: Record<string, ListRule[]>;

  override adaptRanges(adapters: Adapters) {
    super.adaptRanges(adapters);
    const { adaptFormulaString } = adapters;
    const { rules, history } = this;
    for (const sheetId of Object.keys(rules)) {
      rules[sheetId]?.forEach(({ criterion: { type, values } }, i) => {
        if (type !== "isValueInRange") return;
        const moved = adaptFormulaString(sheetId, `=${values[0]}`).slice(1);
        history.update("rules", sheetId, i, "criterion", "values", 0, moved);
      });
    }
  }
}

plugins.replace(NAME, RulesWithLists);
