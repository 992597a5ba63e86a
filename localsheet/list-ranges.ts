/**
 * Drop-downs that take their words from cells follow those cells when rows or columns are added or taken
 * away above or beside them. The engine moves the formulas of its rules, and forgets this one's range.
 */
import { engine } from "./engine.ts";

interface ListRule {
  criterion: { type: string; values: string[] };
}

interface Inside {
  rules: Record<string, ListRule[]>;
  history: { update(...pathAndValue: unknown[]): void };
}

interface Adapters {
  adaptFormulaString: (sheetId: string, formula: string) => string;
}

const NAME = "dataValidation";
const plugins = engine.registries.corePluginRegistry;
const Rules = plugins.get(NAME);

class RulesWithLists extends Rules {
  override adaptRanges(adapters: never) {
    super.adaptRanges(adapters);
    const { adaptFormulaString } = adapters as Adapters;
    const { rules, history } = this as unknown as Inside;
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
