/** Text pasted from elsewhere is read as if it were typed in each cell, and leaves the cell's looks and format. */
import { describe, expect, test } from "vitest";
import { composing } from "../../localsheet/composing";
import type { Model } from "../../localsheet/engine";
import { PAINT } from "../../taskpane/sheets/looks";
import { growing } from "../taskpane/growing-list";
import { LocalWorkbook, newModel, read, write } from "./load-engine";

async function drawn() {
  const model = newModel();
  await new LocalWorkbook(model).drawOnNewSheet("Offers", growing);
  return model;
}

function place(model: Model, name: string) {
  const sheetId = model.getters.getActiveSheetId();
  return { sheetId, ...globalThis.o_spreadsheet.helpers.toCartesian(name) };
}

function paste(model: Model, text: string, name: string, pasteOption?: "asValue") {
  const { col, row } = place(model, name);
  const target = [{ left: col, right: col, top: row, bottom: row }];
  const clipboardContent = { text };
  model.dispatch("PASTE_FROM_OS_CLIPBOARD", {
    target,
    clipboardContent,
    ...(pasteOption && { pasteOption }),
  });
}

test("a blank among what is pasted takes neither looks nor format away", async () => {
  const model = await drawn();
  paste(model, "Fen\t20\t5%\nMoor\t30\t", "A5");
  for (const name of ["A5", "C5", "C6"])
    expect(model.getters.getCell(place(model, name))?.style?.fillColor).toBe(PAINT.input.fill);
  // By hand: typed there later, 5 is 5 %, not 500 %.
  expect(model.getters.getCell(place(model, "C6"))?.format).toBe("0.0%");
});

test("it is read as it would be typed", async () => {
  const model = await drawn();
  paste(model, "Fen\t£12.50\t5\nMoor\t12,50\t0.05\nMarsh\t$1,250\t2.5 %", "A5");
  // By hand: in a percent cell 5 and 0.05 are both 5 %, as Excel reads them.
  expect(["B5", "B6", "B7"].map((name) => read(model, name))).toEqual([12.5, 12.5, 1250]);
  expect(["C5", "C6", "C7"].map((name) => read(model, name))).toEqual([0.05, 0.05, 0.025]);
});

test("lines below a list are read as those in it", async () => {
  const model = await drawn();
  paste(model, "Fen\t100\t5\nMoor\t100\t5\nMarsh\t100\t5", "A8");
  expect(["C8", "C9", "C10"].map((name) => read(model, name))).toEqual([0.05, 0.05, 0.05]);
});

test("a new line at its end empties no line below", async () => {
  for (const end of ["\n", "\r\n"]) {
    const model = await drawn();
    const below = read(model, "A6");
    paste(model, `Fen\t20\t5%${end}`, "A5");
    expect([read(model, "A5"), read(model, "A6")]).toEqual(["Fen", below]);
  }
});

test("as values alone it is pasted, too", async () => {
  const model = await drawn();
  paste(model, "Fen\t20", "A5", "asValue");
  expect([read(model, "A5"), read(model, "B5")]).toEqual(["Fen", 20]);
});

test("what is copied within the workbook keeps its own looks", async () => {
  const model = await drawn();
  const zone = { left: 0, right: 0, top: 3, bottom: 3 };
  write(model, "H1", "free");
  model.selection.selectZone({ cell: { col: 0, row: 3 }, zone });
  model.dispatch("COPY");
  model.dispatch("PASTE", { target: [{ left: 7, right: 7, top: 0, bottom: 0 }] });
  expect(model.getters.getCell(place(model, "H1"))?.style?.fillColor).toBe(PAINT.heading.fill);
});

describe("names of web pages", () => {
  test.each([
    ["a space that does not break", "Fen\u00a0base"],
    ["a narrow one", "Fen\u202fbase"],
    ["marks that are not seen", "\ufeffFen\u200b ba\u00adse"],
  ])("with %s are those with a plain space", async (_, name) => {
    const model = await drawn();
    paste(model, `${name}\t20\t5%`, "A5");
    expect(read(model, "A5")).toBe("Fen base");
  });
});

test("what is in doubt is said of the first cell, and how many more there are", async () => {
  const model = await drawn();
  const said: (string | undefined)[] = [];
  composing.doubt = (text) => void said.push(text);
  paste(model, "Fen\t20\t0.05\nMoor\t30\t0.06\nMarsh\t40\t5", "A5");
  paste(model, "Fen\t20\t5", "A5");
  composing.doubt = () => undefined;
  expect(said).toEqual([
    expect.stringMatching(/^C5: 0.05 was read as 5 %.* And 1 more that were pasted\.$/),
    undefined,
  ]);
});
