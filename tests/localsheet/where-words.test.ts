/** An error for words tells in which cell they stand. */
import { expect, test } from "vitest";
import { newModel, write } from "./load-engine.ts";

await import("../../localsheet/words.ts");
const { reasonOf } = await import("../../localsheet/where-words.ts");

function reason(cells: Record<string, string>, name: string) {
  const model = newModel({
    sheets: [
      { id: "s", name: "Here" },
      { id: "t", name: "Costs" },
    ],
  });
  for (const [at, content] of Object.entries(cells)) {
    const [sheet, cell = sheet] = at.split("!");
    write(model, cell, content, cell === sheet ? "Here" : sheet);
  }
  const position = { sheetId: "s", ...globalThis.o_spreadsheet.helpers.toCartesian(name) };
  return reasonOf(model, position);
}

test.each([
  [
    "a formula of the sheet's own",
    { A1: "about 5", B1: "=A1*2" },
    "B1",
    /'about 5' is words.* The words stand in A1\.$/,
  ],
  [
    "one that reads it in turn",
    { A1: "about 5", B1: "=A1*2", C1: "=B1+1" },
    "C1",
    /The words stand in A1\.$/,
  ],
  [
    "one of ours",
    { B2: "n/a", C2: "=MIST.OILFOR(B2,5%)" },
    "C2",
    /batch must be a number, got "n\/a"\. The words stand in B2\.$/,
  ],
  [
    "a list of numbers",
    { A1: "1", A2: "5 dollars", B1: "=MIST.LANDED(A1:A2,{1;1},3)" },
    "B1",
    /The words stand in A2\.$/,
  ],
  [
    "another sheet",
    { "Costs!C3": "about 5", A1: "=Costs!C3/2" },
    "A1",
    /The words stand in C3 of Costs\.$/,
  ],
])("%s", (_, cells, name, expected) => {
  expect(reason(cells, name)).toMatch(expected);
});

test("an error for something else is left as it is", () => {
  expect(reason({ A1: "about 5", A2: "0", B1: "=1/A2+A1" }, "B1")).not.toContain("stand in");
  expect(reason({ A1: "5" }, "A1")).toBeUndefined();
});

test("the tip opens over an error, and over a caution that its cell may cut off", async () => {
  const { oneSheet } = await import("../sheets/one-sheet.ts");
  const { model, cell, put } = await oneSheet("Trial batch");
  put("step", "a tenth");
  const tip = globalThis.o_spreadsheet.registries.cellPopoverRegistry.get("ErrorToolTip");
  const sheetId = model.getters.getActiveSheetId();
  const isOpen = (name: string) => {
    const at = globalThis.o_spreadsheet.helpers.toCartesian(cell(name));
    return tip.onHover?.({ sheetId, ...at }, model.getters)?.isOpen;
  };
  expect([isOpen("pours.enough"), isOpen("pours.oil"), isOpen("step")]).toEqual([
    true,
    false,
    false,
  ]);
});
