/** The pages of the sheets say what the sheets ask for: held to the drawn cells, not to the page's own code. */
import { expect, test } from "vitest";
import { sheetPages } from "../../taskpane/generate/sheet-pages";
import { thingsOf } from "../../taskpane/generate/things";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import { TemplateSchema } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";

const pages = sheetPages(templates);
const others = plannedSheets(templates.map((template) => ({ sheet: template.title, template })));
const pageOf = (title: string) => pages.get(`${title.toLowerCase().replaceAll(" ", "-")}.md`) ?? "";

test.each(templates)(
  "$title has a page with its use, its cautions and what it asks for",
  (template) => {
    const page = pageOf(template.title);
    expect(page).toContain(`# ${template.title}\n\n${template.use}`);
    expect(pages.get("README.md")).toContain(`[${template.title}](`);
    const texts = drawingOf(template, true, others).cells.filter(
      ({ content }) => typeof content === "string",
    );
    const cautions = texts.filter(({ look, content }) => {
      return (
        look === "caution" && !String(content).startsWith("=") && String(content).includes(" ")
      );
    });
    for (const { content } of cautions) expect(page).toContain(`**${content}**`);
    expect(page).toMatch(/^## (You type|Drawn from other sheets)$/m);
    // Whatever is asked for or told stands on the sheet in the same words.
    const written = new Set(texts.map(({ content }) => content));
    for (const { label } of thingsOf(template)) expect(written).toContain(label);
  },
);

/** A sheet as small as can be, with one of each. */
const small = TemplateSchema.parse({
  title: "Drying",
  use: "How long it stays wet.",
  step: 1,
  widths: [90],
  page: { landscape: true, caution: "No flames." },
  parts: [
    { text: "title", rows: ["Drying"] },
    { text: "caution", rows: ["Air the room."] },
    {
      fields: [
        { name: "limit", label: "Too slow from (minutes)", demo: 20 },
        { label: "Made on", demo: 46000, format: "yyyy-mm-dd" },
        { label: "Slowest (minutes)", formula: "=MAX({pours.dry})" },
      ],
    },
    {
      list: "pours",
      lines: 2,
      columns: [
        {
          name: "base",
          heading: "Base",
          words: "{Materials!materials.picks}",
          demo: ["Alder Clear"],
        },
        { name: "dry", heading: "Dry after (minutes)", demo: [12] },
        { heading: "Lost (%)", format: "0%", limits: [0, 1], demo: [0.1] },
        { heading: "Density (g/mL)", demo: [0.85], draw: "={Materials!materials.density:first}" },
        { heading: "So far", look: "result", demo: ["=1+1"] },
        { heading: "Left", formula: "={Sizes!sizes.holds:first}+{Sizes!sizes.holds:last}" },
        { heading: "Not shown", formula: "=1", hidden: true },
      ],
    },
  ],
});

test("typed, drawn and worked out are told apart, with what each takes", () => {
  const told = thingsOf(small).map(({ label, kind, often, takes, from }) =>
    [label, kind, often, kind === "typed" ? takes : from.join()].join(" | "),
  );
  expect(told).toEqual([
    "Too slow from (minutes) | typed | once | a number",
    "Made on | typed | once | a date",
    "Slowest (minutes) | worked | once | ",
    "Base | typed | each line | picked from Materials",
    "Dry after (minutes) | typed | each line | a number",
    "Lost (%) | typed | each line | 0 % to 100 %",
    "Density (g/mL) | drawn | each line | Materials",
    "So far | worked | each line | ",
    "Left | worked | each line | Sizes",
  ]);
  const page = sheetPages([small]).get("drying.md");
  expect(page).toContain("**Air the room.**");
  expect(page).toContain("One page wide, landscape, with page numbers. Each page says: No flames.");
});
