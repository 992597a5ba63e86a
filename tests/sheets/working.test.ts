import { expect, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { mentionsUs } from "../../functions/formula/ours";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { explain } from "../../taskpane/working/explain";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";

test("every call of every template has its working, or its reason", async () => {
  const model = newModel({ sheets: [{ id: "s", name: "First" }] });
  const workbook = new LocalWorkbook(model);
  let explainedCells = 0;
  for (const template of templates) {
    const drawing = drawingOf(template, true);
    const sheet = await workbook.drawOnNewSheet(template.title, drawing);
    for (const { row, column, content } of drawing.cells) {
      if (!String(content).startsWith("=") || !mentionsUs(String(content))) continue;
      const explained = await explain(workbook, { sheet, row, column });
      for (const call of explained.calls) {
        const { steps, problem } = call.at(call.line);
        expect(
          Boolean(problem) || steps.length > 0,
          `${template.title} ${cellName(row, column)}`,
        ).toBe(true);
        for (const { sentence } of steps)
          expect(sentence).not.toMatch(/blank|undefined|NaN|[[\]{}]/);
      }
      explainedCells++;
    }
  }
  expect(explainedCells).toBeGreaterThan(90);
});
