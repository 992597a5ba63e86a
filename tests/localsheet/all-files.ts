/** A file of every kind that we write: templates, random sheets, their copies, and one that was opened. */
import { expect } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { richParts, zipped } from "../files/foreign-book";
import { randomSheet } from "../office/random-sheet";
import { LocalWorkbook, bound, newModel, openModel, saveBook, toXlsx, write } from "./load-engine";

const RANDOM = 6;

export async function allFiles(): Promise<Record<string, Uint8Array>> {
  const files: Record<string, Uint8Array> = {};
  const put = (name: string, bytes: Uint8Array) => {
    files[name] = bytes;
    files[`${name} copy`] = handOver(bytes).bytes;
  };
  for (const isFilled of [true, false])
    for (const template of templates) {
      const model = newModel({ sheets: [{ id: "s", name: "First" }] });
      await new LocalWorkbook(model).drawOnNewSheet(template.title, drawingOf(template, isFilled));
      put(`${template.title} ${isFilled ? "filled" : "empty"}`, await toXlsx(model));
    }
  for (let seed = 1; seed <= RANDOM; seed++) {
    const model = newModel({
      sheets: [{ id: "s", name: "Sheet", colNumber: 120, rowNumber: 200 }],
    });
    for (const [cell, content] of Object.entries(randomSheet(seed).contents))
      write(model, cell, content);
    const bytes = await toXlsx(model);
    files[`random ${seed}`] = bytes;
    try {
      files[`random ${seed} copy`] = handOver(bytes).bytes;
    } catch (error) {
      // A sheet with a name that nobody knows is not handed over.
      expect(String(error)).toContain("Nothing was handed over");
    }
  }
  return { ...files, ...(await patched()) };
}

/** A workbook of another program, changed in all ways that are written into it. */
async function patched(): Promise<Record<string, Uint8Array>> {
  const bytes = zipped(richParts());
  const model = newModel(bound(openModel(bytes), "key"));
  const sheetId = model.getters.getSheetIds()[0];
  write(model, "B3", "20");
  write(model, "E20", "=MIST.OILFOR(B2:B3,5%)");
  write(model, "H1", "'5-3");
  write(model, "H2", "[moss](https://moss.example)");
  write(model, "C1", "Load of oil");
  model.dispatch("FREEZE_ROWS", { sheetId, quantity: 1 });
  model.dispatch("COLOR_SHEET", { sheetId, color: "#AA00CC" });
  const zone = { top: 0, bottom: 4, left: 0, right: 1 };
  model.dispatch("SET_FORMATTING", {
    sheetId,
    target: [zone],
    style: { italic: true, fillColor: "#00FF00" },
  } as never);
  model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId,
    sheetName: "Oils",
    dimension: "ROW",
    base: 2,
    quantity: 2,
    position: "before",
  });
  model.dispatch("ADD_COLUMNS_ROWS", {
    sheetId,
    sheetName: "Oils",
    dimension: "COL",
    base: 1,
    quantity: 1,
    position: "before",
  });
  model.dispatch("RESIZE_COLUMNS_ROWS", { sheetId, dimension: "COL", elements: [1], size: 200 });
  model.dispatch("ADD_MERGE", { sheetId, target: [{ top: 30, bottom: 31, left: 0, right: 2 }] });
  const workbook = new LocalWorkbook(model);
  const template =
    templates.find((each) => drawingOf(each, true).charts.length > 0) ?? templates[0];
  await workbook.drawOnNewSheet(template.title, drawingOf(template, true));
  await workbook.drawAt({ sheet: "Oils", row: 40, column: 0 }, drawingOf(template, true));
  return {
    patched: (await saveBook(model, { key: "key", name: "mine.xlsx", bytes })).bytes,
    opened: bytes,
  };
}
