import { expect, test } from "vitest";
import { linesAdded, typedColumns } from "../../taskpane/pane/sheet-lists";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel, write } from "../localsheet/load-engine";

const book = templates.find(({ title }) => title === "Batch book") as Template;
const columns = typedColumns(book, "batches");

test("a list takes lines until its last one is filled, and says then that it is full", async () => {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const places = new Map(
    columns.map((name, column) => [
      `batches.${name}`,
      { row: 1, column, rows: 3, columns: 1, of: "batches" },
    ]),
  );
  const on = { sheet: model.getters.getActiveSheet().name, places };
  write(model, "A2", "B-1");
  write(model, "A3", "B-2");
  const line = { [columns[0] ?? ""]: "B-3" };
  const added = await linesAdded(workbook, on, book, "batches", [line]);
  expect(added).toEqual([{ spot: { sheet: on.sheet, row: 3, column: 0 }, content: "B-3" }]);
  await expect(linesAdded(workbook, on, book, "batches", [line, line])).rejects.toThrow(
    "Nothing was booked: Batch book is full at 3 lines.",
  );
});
