/**
 * Errors and cautions in cells in red and bold, to be seen at arm's length: the engine's own mark is a small corner.
 * A caution is what a formula says of words where a number is asked for.
 */
import { ASKS_AGAIN } from "../taskpane/sheets/words-first.ts";
import { type Model, engine } from "./engine.ts";

type Getters = Pick<Model["getters"], "getEvaluatedCell">;
type Position = Parameters<Getters["getEvaluatedCell"]>[0];

/** What a cell cautions of; undefined for most. */
export function cautionIn(getters: Getters, position: Position): string | undefined {
  const { type, value } = getters.getEvaluatedCell(position);
  return type === "text" && ASKS_AGAIN.test(value) ? value : undefined;
}

const NAME = "cell_computed_style";
const plugins = engine.registries.statefulUIPluginRegistry;
const Plain = plugins.get(NAME);

class LoudErrors extends Plain {
  /** Of the engine's own class, which its types do not name; that it is there is held by a test. */
  declare computeCellStyle: (position: Position) => Record<string, unknown>;

  constructor(...all: ConstructorParameters<typeof Plain>) {
    super(...all);
    const plainly = this.computeCellStyle.bind(this);
    this.computeCellStyle = (position) => {
      const style = plainly(position);
      const isError = this.getters.getEvaluatedCell(position).type === "error";
      const isLoud = isError || cautionIn(this.getters, position) !== undefined;
      return isLoud ? { ...style, textColor: "#A3261B", bold: true } : style;
    };
  }
}

plugins.replace(NAME, LoudErrors);
