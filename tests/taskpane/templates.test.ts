import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { cellName } from "../../functions/formula/addresses";
import { TemplateSchema } from "../../taskpane/sheets/template";
import { plannedSheets } from "../../taskpane/sheets/find";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";

describe.each(templates)("$title", (template) => {
  const drawing = drawingOf(template, true);

  test("is data that the schema takes", () => {
    expect(() => TemplateSchema.parse(template)).not.toThrow();
    expect(() => TemplateSchema.parse({ ...template, colour: "red" })).toThrow();
  });

  test("is written in names: no formula of a part has an address", () => {
    const formulas = JSON.stringify(template.parts).match(/"=(?:[^"\\]|\\.)*"/g) ?? [];
    for (const formula of formulas) {
      // Without its texts, and what stands in braces.
      const bare = formula.replace(/\\"(?:[^"\\]|\\\\)*\\"/g, "").replace(/\{[^}]*\}/g, "");
      expect(bare, formula).not.toMatch(/(?<![\w.])\$?[A-Z]{1,3}\$?\d+(?![\w(])/);
    }
  });

  test("writes no cell twice", () => {
    const places = drawing.cells.map(({ row, column }) => `${row},${column}`);
    expect(new Set(places).size).toBe(places.length);
  });

  test("calls only functions that exist", () => {
    const calls = drawing.cells.flatMap(({ content }) => [
      ...String(content).matchAll(/MIST\.(\w+)/g),
    ]);
    const ids = catalog.map((entry) => entry.id);
    for (const [, id] of calls) expect(ids).toContain(id);
  });

  test("says the unit of every number that it asks for", () => {
    const at = (row: number, column: number) =>
      drawing.cells.find((cell) => cell.row === row && cell.column === column);
    const numbers = drawing.cells.filter(
      ({ look, content }) => look === "input" && typeof content === "number",
    );
    for (const { row, column, format } of numbers) {
      // A percent, a date, or a unit in the format itself.
      if (/[%"y]/.test(format ?? "")) continue;
      const heading = drawing.cells
        .filter((cell) => cell.look === "heading" && cell.column === column && cell.row < row)
        .at(-1);
      // The nearest label to its left.
      const label = drawing.cells
        .filter((cell) => cell.look === "label" && cell.row === row && cell.column < column)
        .at(-1);
      // A note that stands over several columns speaks for all of them.
      const banners = drawing.cells.filter(
        (cell) =>
          cell.look === "note" && cell.row < row && cell.column > 2 && cell.column <= column,
      );
      const said = [heading, label, at(row, column + 1), ...banners].map((cell) =>
        String(cell?.content ?? ""),
      );
      // In brackets, or in the cell beside it; the unit of a size is picked in the column beside it.
      const unit =
        /\((\$|g|g or oz|g\/mL|count|minutes|in its unit|C|1 to the last|g or pieces|US fl oz|1 to 5|0 to 10|1 to 6|date|C or F|\$ per .*)\)|^(g|g\/mL|US fl oz)$| size$/;
      expect(
        said.some((text) => unit.test(text)),
        `${cellName(row, column)}: ${said.join("; ")}`,
      ).toBe(true);
    }
  });

  test("cuts off no label: what is longer than its column has room beside it", () => {
    // About six pixels a letter at the sheet's usual size; a filled or painted neighbour gives no room.
    const all = plannedSheets(templates.map((each) => ({ sheet: each.title, template: each })));
    const drawings = [drawing, drawingOf(template, true, all)];
    const cells = drawings.flatMap(({ cells }) => cells.map((cell) => ({ ...cell, cells })));
    for (const { row, column, look, content, cells: around } of cells) {
      const isBeside = around.some((cell) => cell.row === row && cell.column === column + 1);
      if (look !== "label" || typeof content !== "string" || content.startsWith("=") || !isBeside)
        continue;
      expect(content.length * 6, `${cellName(row, column)}: ${content}`).toBeLessThanOrEqual(
        drawing.widths[column],
      );
    }
  });

  test("its sentences end before the pane, on a screen 1280 wide", () => {
    // There the local sheet shows 887 pixels of cells; bold letters are wider.
    const lefts = drawing.widths.map((_, i) =>
      drawing.widths.slice(0, i).reduce((a, b) => a + b, 0),
    );
    const indent = template.page?.sections?.repeat ?? template.page?.columns ?? 0;
    for (const { row, column, look, content } of drawing.cells) {
      if (typeof content !== "string" || content.startsWith("=") || column !== indent) continue;
      if (look !== "note" && look !== "caution") continue;
      const end = (lefts[column] ?? 0) + content.length * (look === "caution" ? 6.4 : 6);
      expect(end, `${cellName(row, column)}: ${content}`).toBeLessThanOrEqual(887);
    }
  });

  test("keeps the demo out when it is inserted empty", () => {
    const empty = drawingOf(template, false);
    const inputs = empty.cells.filter(({ look }) => look === "input");
    expect(empty.charts).toEqual(drawing.charts);
    expect(inputs.every(({ content }) => content === null)).toBe(true);
    expect([empty.rows, empty.columns]).toEqual([drawing.rows, drawing.columns]);
  });

  test("keeps to the lengths that Excel takes: 8,192 letters a formula, 255 a text in it", () => {
    for (const { row, column, content } of drawing.cells) {
      if (typeof content !== "string" || !content.startsWith("=")) continue;
      const longest = Math.max(0, ...(content.match(/"[^"]*"/g) ?? []).map((text) => text.length));
      expect(content.length, cellName(row, column)).toBeLessThanOrEqual(8192);
      expect(longest - 2, cellName(row, column)).toBeLessThanOrEqual(255);
    }
  });

  test("keeps to what both hosts have", () => {
    const text = drawing.cells.map(({ content }) => String(content)).join("\n");
    expect(text).not.toMatch(/\b(LET|LAMBDA|MAP|SORTBY)\(|\[@/);
  });
});

test("a list that Excel would part or cut is refused", () => {
  const withWords = (words: string[]) => ({
    ...templates[0],
    parts: [{ fields: [{ label: "What it is", demo: "a", words }] }],
  });
  const isTaken = (words: string[]) => TemplateSchema.safeParse(withWords(words)).success;
  expect(isTaken(["yes", "no"])).toBe(true);
  expect(isTaken(["room spray (aerosol, one phase)", "other"])).toBe(false);
  const long = (count: number) => Array.from({ length: count }, () => "123456789");
  // 25 words of nine characters and 24 commas are 249 characters; one more makes 259.
  expect(isTaken(long(25))).toBe(true);
  expect(isTaken(long(26))).toBe(false);
  expect(isTaken([])).toBe(false);
  expect(isTaken([""])).toBe(false);
});

test("the list of templates has every file", () => {
  // A folder holds the parts of the template of its name.
  const files = readdirSync("taskpane/templates").filter(
    (name) => name.endsWith(".ts") && name !== "index.ts",
  );
  expect(templates).toHaveLength(files.length);
});

test("the demo is invented: every name is one of our own workshop's", () => {
  const invented =
    "Alder Row, Bluepost Chandlery, Drovers Wharf, Alder Clear, Alder Clear (base), Bluepost Soft, " +
    "Drovers Dry, Rain on Slate, Attic Cedar, Salt Orchard, " +
    // Ingredients and places that are nobody's name.
    "Alcohol of the base, Not disclosed, " +
    "Drovers Mild, Field Wax, Cotton wick, Fine sprayer, Rain room, Rain linen, Rain candle, Orchard body, " +
    "Jar 8 oz, Bottle 2 fl oz, Bottle 4 fl oz, Bottle 8 fl oz, Bottle 16 fl oz";
  const names = templates.flatMap((template) =>
    drawingOf(template, true)
      .cells.filter(
        ({ look, content, column }) =>
          look === "input" && typeof content === "string" && column < 2,
      )
      .map(({ content }) => String(content))
      .filter((text) => /[A-Z].* /.test(text)),
  );
  expect(names.length).toBeGreaterThan(10);
  for (const name of names) expect(invented.split(", ")).toContain(name);
});
