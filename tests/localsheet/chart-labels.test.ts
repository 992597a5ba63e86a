/** What is written at the bars of a chart. A cost that is not known is a blank text, not a zero. */
import { expect, test } from "vitest";
import { strFromU8, unzipSync } from "fflate";
import type { Model } from "../../localsheet/engine";
import { LocalWorkbook, newModel, toXlsx, write } from "./load-engine";
import { labelFormat } from "../../taskpane/sheets/looks";
import type { Drawing } from "../../taskpane/sheets/drawing";

/** Two bases, of which the second has no cost: one column of formulas, one of numbers. */
async function drawn(kind: "columns" | "bars"): Promise<Model> {
  const at = (row: number, column: number) => ({ row, column, rows: 2, columns: 1 });
  const costs = { title: "Costs", kind, unit: "$", labels: at(0, 0), over: at(4, 0) };
  const drawing: Drawing = {
    ...{ rows: 6, columns: 3, rules: [], marks: [], widths: [] },
    cells: [
      { row: 0, column: 0, content: "Alder" },
      { row: 1, column: 0, content: "Drovers: no cost" },
      { row: 0, column: 1, content: "=C1/2", format: "0.000" },
      { row: 1, column: 1, content: '=IF(C2="","",C2/2)', format: "0.000" },
      { row: 0, column: 2, content: 3 },
    ],
    charts: [
      { ...costs, series: [{ name: "worked out", values: at(0, 1) }] },
      { ...costs, series: [{ name: "typed", values: at(0, 2) }] },
    ],
  };
  const model = newModel();
  await new LocalWorkbook(model).drawOnNewSheet("Costs", drawing);
  return model;
}

/** What the engine writes at the bars of the first chart, whose values it has parsed to these. */
function labels(model: Model, parsed: object[]): string[] {
  const [figure] = model.getters.getFigures(model.getters.getActiveSheetId());
  const chartId = model.getters.getChartIdFromFigureId(figure?.id ?? "") ?? "";
  const { chartJsConfig } = model.getters.getChartRuntime(chartId) as unknown as {
    chartJsConfig: {
      options: { plugins: { chartShowValuesPlugin: { callback: (...all: unknown[]) => string } } };
    };
  };
  const { callback } = chartJsConfig.options.plugins.chartShowValuesPlugin;
  return parsed.map((point, i) => {
    const value = Number(Object.values(point)[1]);
    return callback(value, { _parsed: parsed, yAxisID: "y", xAxisID: "x" }, i);
  });
}

test.each(["columns", "bars"] as const)(
  "on the screen %s without a number have none written at them",
  async (kind) => {
    const model = await drawn(kind);
    // Chart.js parses what is no number to null; a real zero stays.
    const points = kind === "columns" ? ["x", "y"] : ["y", "x"];
    const point = (value: number | null) =>
      Object.fromEntries(points.map((axis, i) => [axis, i === 0 ? 0 : value]));
    expect(labels(model, [point(1.5), point(null), point(0)])).toEqual(["1.500", "", "0.000"]);
  },
);

test("in a file bars of formulas have no number at zero, those of typed numbers keep it", async () => {
  const model = await drawn("columns");
  write(model, "C2", "0");
  const files = unzipSync(await toXlsx(model));
  const formats = ["chart1", "chart2"].map((name) => {
    const xml = strFromU8(files[`xl/charts/${name}.xml`] ?? new Uint8Array());
    return /<c:numFmt formatCode="([^"]*)" sourceLinked="0"\/><c:show/.exec(
      xml.replace(/>\s+</g, "><"),
    )?.[1];
  });
  // ECMA-376 part 1, 18.8.31: the third section of a format is for zeros.
  expect(formats).toEqual(["0.000;-0.000;", undefined]);
});

test("a format that says how it writes what is below zero keeps that, and nothing at zero", () => {
  expect(labelFormat("0.00;[Red]-0.00")).toBe("0.00;[Red]-0.00;");
  expect(labelFormat("0.00;(0.00);free;@")).toBe("0.00;(0.00);");
  expect(labelFormat()).toBe("General;-General;");
});
