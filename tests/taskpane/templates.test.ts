import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog";
import { TemplateSchema, drawingOf } from "../../taskpane/template";
import { templates } from "../../taskpane/templates/index";

describe.each(templates)("$title", (template) => {
  const drawing = drawingOf(template, true);

  test("is data that the schema takes", () => {
    expect(() => TemplateSchema.parse(template)).not.toThrow();
    expect(() => TemplateSchema.parse({ ...template, colour: "red" })).toThrow();
  });

  test("writes no cell twice", () => {
    const places = drawing.cells.map(({ row, column }) => `${row},${column}`);
    expect(new Set(places).size).toBe(places.length);
  });

  test("calls only functions that exist", () => {
    const calls = drawing.cells.flatMap(({ content }) => [
      ...String(content).matchAll(/MIST\.(\w+)/g),
    ]);
    expect(calls.length).toBeGreaterThan(0);
    const ids = catalog.map((entry) => entry.id);
    for (const [, id] of calls) expect(ids).toContain(id);
  });

  test("says the unit of every number that it asks for or gives", () => {
    // A heading or label names its unit in brackets, or the cell beside it does.
    const text = drawing.cells.map(({ content }) => String(content)).join("\n");
    for (const unit of template.title === "Size run"
      ? ["(g)", "(US fl oz)", "g/mL", "(count)", "(oz)", "(%)"]
      : ["($)", "(g/mL)", "($ per fl oz)", "(%)", "(1 to 5)"]) {
      expect(text).toContain(unit);
    }
  });

  test("keeps the demo out when it is inserted empty", () => {
    const empty = drawingOf(template, false);
    const inputs = empty.cells.filter(({ look }) => look === "input");
    expect(inputs.length).toBeGreaterThan(10);
    expect(inputs.every(({ content }) => content === null)).toBe(true);
    expect([empty.rows, empty.columns]).toEqual([drawing.rows, drawing.columns]);
  });

  test("keeps to what both hosts have", () => {
    const text = drawing.cells.map(({ content }) => String(content)).join("\n");
    expect(text).not.toMatch(/\b(LET|LAMBDA|MAP|SORTBY)\(|\[@/);
  });
});

test("the list of templates has every file", () => {
  const files = readdirSync("taskpane/templates").filter((name) => name !== "index.ts");
  expect(templates).toHaveLength(files.length);
});

test("the demo is invented: no name but those of design section 6", () => {
  // Larkfield Mist House; suppliers, bases and oils as design section 6 lists them.
  const names =
    /Alder Row|Bluepost Chandlery|Drovers Wharf|Alder Clear|Bluepost Soft|Drovers Dry|Rain on Slate|Attic Cedar|Salt Orchard/;
  const base = readFileSync("taskpane/templates/base-comparison.ts", "utf8");
  expect(base.match(new RegExp(names, "g"))?.length).toBe(6);
});
