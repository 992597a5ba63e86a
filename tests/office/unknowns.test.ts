/**
 * Copies of sheets in which cells were left blank, and of orders at the free-freight sum, worked out by
 * LibreOffice: they refuse, stay blank and charge where ours do.
 */
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { cellName } from "../../functions/formula/addresses";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { DEMO_MATERIALS } from "../../taskpane/templates/demo/materials";
import { templates } from "../../taskpane/templates/index";
import { readBook } from "../files/read-book";
import { LocalWorkbook, newModel, toXlsx, write } from "../localsheet/load-engine";
import { wholeSet } from "../sheets/whole-set";
import { cellOf } from "./compare";
import { holdCopy } from "./copies";
import { libreOffice, recalculated } from "./libreoffice";

const proof = describe.skipIf(!libreOffice);

const COSTING = ["Base comparison", "Bottle cost", "Buying plan", "Size run", "Trial batch"];

proof("a sheet for each number that may be left blank, one blank on each", () => {
  test.each(templates.filter(({ title }) => COSTING.includes(title)))(
    "$title",
    async (template) => {
      const model = newModel({ sheets: [{ id: "s", name: "First" }] });
      const drawing = drawingOf(template, true);
      // Two lines of a list that grows stand for all.
      const isLater = ({ row, column }: { row: number; column: number }) =>
        (drawing.lists ?? []).some(
          (list) =>
            row > list.row + 2 && column >= list.column && column < list.column + list.columns,
        );
      const inputs = drawing.cells.filter(
        (cell) => cell.look === "input" && cell.content !== null && !isLater(cell),
      );
      for (const { row, column } of inputs) {
        const sheet = await new LocalWorkbook(model).drawOnNewSheet(template.title, drawing);
        write(model, cellName(row, column), "", sheet);
      }
      expect(holdCopy(await toXlsx(model))).toBeGreaterThan(inputs.length * 50);
    },
    300_000,
  );
});

proof("recipes of a workshop that says no span, and not what a base takes", () => {
  test("are no error in a copy", async () => {
    const set = await wholeSet(true, ["Materials", "Recipes"]);
    for (let line = 0; line < 5; line++)
      for (const name of ["least", "most", "strong"])
        await set.type("Recipes", `kinds.${name}`, line, null);
    for (const [line] of DEMO_MATERIALS.entries())
      await set.type("Materials", "materials.takes", line, null);
    expect(holdCopy(await toXlsx(set.model))).toBeGreaterThan(300);
  }, 120_000);
});

proof("orders at the free-freight sum", () => {
  test("travel free in a copy to the cent, and pay a cent below", async () => {
    const cells: Record<string, string> = {};
    let seed = 7;
    const below = (limit: number) => (seed = (seed * 48_271) % 2_147_483_647) % limit;
    for (let row = 0; row < 600; row++) {
      let cents = 0;
      for (let column = 0; column < 3; column++) {
        const [price, count] = [1 + below(9_999), 1 + below(40)];
        cents += price * count;
        cells[cellName(row, column)] = String(price / 100);
        cells[cellName(row, column + 3)] = String(count);
      }
      cells[cellName(row, 6)] = String((cents + (row % 2)) / 100);
      const name = (column: number) => cellName(row, column);
      const call = `MIST.LANDED(${name(0)}:${name(2)},${name(3)}:${name(5)},7,${name(6)})`;
      cells[name(7)] = `=SUM(${call})`;
    }
    const model = newModel({ sheets: [{ id: "s", name: "Orders", rowNumber: 601, cells }] });
    const bytes = await toXlsx(model);
    expect(holdCopy(bytes)).toBeGreaterThan(600 * 8 - 1);
    const copy = handOver(bytes);
    expect(copy.replaced.every(({ became }) => became === "formula")).toBe(true);
    const theirs = readBook(recalculated(copy.bytes));
    for (let row = 0; row < 600; row++) {
      const [sum, landed] = [6, 7].map((c) => cellOf(theirs, "Orders", cellName(row, c)).value);
      const paid = row % 2 ? 7 - 0.01 : 0;
      expect(landed).toBeCloseTo((sum as number) + paid, 7);
    }
  }, 300_000);
});
