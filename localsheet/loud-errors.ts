/** Errors in cells in red and bold, to be seen at arm's length: the engine's own mark is a small corner. */
import { engine } from "./engine.ts";

interface Position {
  sheetId: string;
  row: number;
  col: number;
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
      return isError ? { ...style, textColor: "#A3261B", bold: true } : style;
    };
  }
}

plugins.replace(NAME, LoudErrors);
