/** The number that is written at each bar of a chart: none where no number is known, which would be read as 0. */
import { type Package, allNamed } from "../functions/files/package.ts";
import { labelFormat } from "../taskpane/sheets/looks.ts";
import { type Model, engine } from "./engine.ts";

/** Where a chart of bars of the engine keeps what is written at them. */
interface BarChart {
  chartJsConfig: { options: { plugins: { chartShowValuesPlugin: Labels } } };
}

interface Labels {
  callback: (value: number, drawn: { _parsed: Point[] }, at: number) => string;
}

interface Point {
  x: number | null;
  y: number | null;
}

const bars = engine.registries.chartTypeRegistry.get("bar");
const getRuntime = bars.getRuntime.bind(bars);

bars.getRuntime = (...asked) => {
  const made = getRuntime(...asked);
  // The engine's types tell of no kind of chart what it has.
  const { chartJsConfig } = made as unknown as BarChart;
  const labels = chartJsConfig.options.plugins.chartShowValuesPlugin;
  const { callback } = labels;
  labels.callback = (value, drawn, at) => {
    const { x = null, y = null } = drawn._parsed[at] ?? {};
    return x === null || y === null ? "" : callback(value, drawn, at);
  };
  return made;
};

/** In a file, bars of formulas have no number at zero. */
export function labelKnown(chart: ReturnType<Package["root"]>, { getters }: Model): void {
  const { ownerDocument } = chart;
  for (const series of allNamed(chart, "ser")) {
    const [values] = allNamed(series, "val").flatMap((each) => allNamed(each, "f"));
    const [labels] = allNamed(series, "dLbls");
    const range = getters.getRangeFromSheetXC(
      getters.getActiveSheetId(),
      values?.textContent ?? "",
    );
    if (!ownerDocument || !labels || range.invalidXc) continue;
    const first = { sheetId: range.sheetId, row: range.zone.top, col: range.zone.left };
    if (!getters.getCell(first)?.isFormula) continue;
    const { format } = getters.getEvaluatedCell(first);
    const shown = ownerDocument.createElementNS(labels.namespaceURI, "c:numFmt");
    shown.setAttribute("formatCode", labelFormat(format));
    shown.setAttribute("sourceLinked", "0");
    labels.insertBefore(shown, labels.firstChild);
  }
}
