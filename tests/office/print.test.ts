/** Every template on paper, as LibreOffice prints the saved file: no column is lost, and all can be read. */
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel, toXlsx } from "../localsheet/load-engine";
import { canReadPaper, libreOffice, printed } from "./libreoffice";

/** The least height of a printed line: LibreOffice makes it 1.15 times the size of the letters, here 5.6 points. */
const LEAST = 5.6 * 1.15;

/** What stands in the rows of headings that each page repeats, of columns that are shown. */
function headingsOf(template: (typeof templates)[number]): string[] {
  const { cells, page, hidden = [] } = drawingOf(template, true);
  const [first = -1, last = -1] = page?.titleRows ?? [];
  return cells
    .filter(({ row, column }) => row >= first && row <= last && !hidden.includes(column))
    .map(({ content }) => String(content ?? ""))
    .filter((text) => text !== "" && !text.startsWith("="));
}

if (!libreOffice || !canReadPaper)
  console.warn(
    "Without LibreOffice, pdftotext (poppler-utils) and Arial or Liberation Sans nothing was looked at on paper.",
  );

const canPrint = libreOffice !== undefined && canReadPaper;

describe.skipIf(!canPrint)("on paper", () => {
  test("each template: its headings on paper, each as often as there are such columns, and large enough", async () => {
    const files: Record<string, Uint8Array> = {};
    for (const template of templates) {
      const model = newModel();
      await insertTemplate(new LocalWorkbook(model), template, {
        where: "new sheet",
        filled: true,
      });
      files[template.title] = await toXlsx(model);
    }
    const paper = printed(files);
    for (const template of templates) {
      const words = (paper[template.title] ?? []).flat();
      const count = (of: readonly string[], word: string) =>
        of.filter((each) => each === word).length;
      const said = words.map(({ text }) => text.replaceAll("&amp;", "&"));
      const wanted = headingsOf(template).flatMap((text) => text.split(" "));
      const lost = wanted.filter((word) => count(said, word) < count(wanted, word));
      expect(lost, template.title).toEqual([]);
      const heights = words.map(({ height }) => height).sort((a, b) => a - b);
      expect(heights[heights.length >> 1], template.title).toBeGreaterThan(LEAST);
    }
    // Materials repeats the name of the material on each page across.
    const across = paper.Materials ?? [];
    expect(across.length).toBeGreaterThanOrEqual(3);
    for (const page of across.slice(0, 3))
      expect(page.map(({ text }) => text)).toContain("Material");
  }, 400_000);
});
