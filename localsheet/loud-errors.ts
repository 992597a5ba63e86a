/** Errors in cells in red and bold, to be seen at arm's length: the engine's own mark is a small corner. */
import { engine } from "./engine.ts";

interface Position {
  sheetId: string;
  row: number;
  col: number;
}

/** What of the engine's plugin is used here; that it is so is looked at by a test. */
interface Styles {
  getters: { getEvaluatedCell: (position: Position) => { type: string } };
  computeCellStyle: (position: Position) => Record<string, unknown>;
}

const NAME = "cell_computed_style";
const plugins = engine.registries.statefulUIPluginRegistry;
const Plain = plugins.get(NAME) as unknown as new (...args: unknown[]) => Styles;

class LoudErrors extends Plain {
  constructor(...args: unknown[]) {
    super(...args);
    const plainly = this.computeCellStyle.bind(this);
    this.computeCellStyle = (position) => {
      const style = plainly(position);
      const isError = this.getters.getEvaluatedCell(position).type === "error";
      return isError ? { ...style, textColor: "#A3261B", bold: true } : style;
    };
  }
}

plugins.replace(NAME, LoudErrors as never);
