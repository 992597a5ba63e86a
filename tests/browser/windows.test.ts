/** The whole set in windows of several sizes: what stays in sight leaves room, headings stand beside their filters. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { openSheet } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const SETTLED = 300;

async function wholeSet(page: Page) {
  const pane = page.getByRole("button", { name: "Pane", exact: true });
  if (await pane.isVisible()) await pane.click();
  await page.getByRole("button", { name: "Insert the whole workbook" }).click();
  await page.getByText(/sheets were added/).waitFor({ state: "attached", timeout: 120_000 });
}

/** Shows each sheet in turn; gives what stays in sight there, and what the engine complains of. */
async function eachSheet(page: Page) {
  const names = await page.evaluate(() => {
    const { getters } = globalThis.localSheet.model;
    return getters.getSheetIds().map((id) => getters.getSheetName(id));
  });
  const frozen: Record<string, { rows: number; columns: number }> = {};
  for (const name of names) {
    await page.evaluate((shown) => {
      const { model } = globalThis.localSheet;
      const sheetIdTo = model.getters.getSheetIdByName(shown) ?? "";
      const sheetIdFrom = model.getters.getActiveSheetId();
      model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo });
    }, name);
    await page.waitForTimeout(SETTLED);
    frozen[name] = await page.evaluate(() => {
      const { getters } = globalThis.localSheet.model;
      const { ySplit, xSplit } = getters.getPaneDivisions(getters.getActiveSheetId());
      return { rows: ySplit, columns: xSplit };
    });
  }
  const complaints = await page.getByText(/window is too small/).count();
  return { frozen, complaints };
}

/** Words that would run on beyond what stays in sight, where the engine cuts them off. */
function cutOff(page: Page) {
  return page.evaluate(() => {
    const { getters } = globalThis.localSheet.model;
    return getters.getSheetIds().flatMap((sheetId) => {
      const { xSplit } = getters.getPaneDivisions(sheetId);
      const cut: string[] = [];
      for (let row = 0; xSplit > 0 && row < getters.getNumberRows(sheetId); row++) {
        const position = { sheetId, col: xSplit - 1, row };
        const { type, formattedValue } = getters.getEvaluatedCell(position);
        const style = getters.getCellComputedStyle(position);
        const width = getters.getColSize(sheetId, xSplit - 1);
        const isFree = getters.getEvaluatedCell({ ...position, col: xSplit }).type === "empty";
        if (type !== "text" || !isFree || style.wrapping === "wrap") continue;
        if (getters.getTextWidth(formattedValue, style) > width)
          cut.push(`${getters.getSheetName(sheetId)}: ${formattedValue}`);
      }
      return cut;
    });
  });
}

const WINDOWS: [
  name: string,
  viewport: { width: number; height: number },
  rows: number,
  columns: number,
][] = [
  ["a desk", { width: 1280, height: 900 }, 12, 1],
  ["a low window", { width: 1280, height: 640 }, 0, 1],
  ["a phone", { width: 390, height: 780 }, 0, 0],
];

test.each(WINDOWS)("%s", async (_, viewport, rows, columns) => {
  const { page, trouble } = await openSheet(browser, address, { viewport });
  await wholeSet(page);
  const { frozen, complaints } = await eachSheet(page);
  expect(frozen.Materials).toEqual({ rows, columns });
  expect(complaints).toBe(0);
  expect(await cutOff(page)).toEqual([]);
  expect(trouble).toEqual([]);
  await page.context().close();
});

test("each heading of a list stands beside its filter, all of its lines in the row", async () => {
  const { page } = await openSheet(browser, address);
  await wholeSet(page);
  const hidden = await page.evaluate(() => {
    const { getters } = globalThis.localSheet.model;
    /** The button, its margin, and the room left of the words. */
    const taken = 17 + 2 + 4;
    return getters.getSheetIds().flatMap((sheetId) =>
      getters.getCoreTables(sheetId).flatMap(({ range: { zone } }) => {
        const found: string[] = [];
        for (let col = zone.left; col <= zone.right; col++) {
          if (getters.isColHidden(sheetId, col)) continue;
          const position = { sheetId, col, row: zone.top };
          const width = getters.getColSize(sheetId, col);
          const height = getters.getRowSize(sheetId, zone.top);
          const style = getters.getCellComputedStyle(position);
          const lines = getters.getCellMultiLineText(position, {
            maxWidth: width - 8,
            wrapWidth: width - 8,
          });
          const widest = Math.max(...lines.map((line) => getters.getTextWidth(line, style)));
          const size = getters.getMultilineTextSize(lines, style);
          if (widest + taken > width || size.height > height)
            found.push(
              `${getters.getSheetName(sheetId)}: ${lines.join("|")}, ${width} x ${height}`,
            );
        }
        return found;
      }),
    );
  });
  expect(hidden).toEqual([]);
  await page.context().close();
});
