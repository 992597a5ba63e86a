/** A list that grows, as a person works on it: keys, clipboard, menus. The count is looked at after each step. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { growing } from "../taskpane/growing-list";
import { launchBrowser } from "./launch";
import { clickCell, filterButton, openSheet, spotOf, valueOf } from "./sheet";

declare global {
  /** What was written in the row of letters. */
  var letters: string[];
}

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** The list on the sheet that is shown, put there as a drawing is. */
async function drawList(page: Page) {
  await page.evaluate((drawing) => {
    const { model } = globalThis.localSheet;
    const sheetId = model.uuidGenerator.uuidv4();
    const dispatch = model.dispatch as (type: string, command: object) => void;
    const { getters } = model;
    const create = { sheetId, name: "Offers", position: 1, cols: 26, rows: 100 };
    dispatch("CREATE_SHEET", create);
    for (const { row, column: col, content, format } of drawing.cells)
      dispatch("UPDATE_CELL", { sheetId, row, col, content: String(content), format });
    const [list] = drawing.lists ?? [];
    if (!list) throw new Error("there is no list");
    const { row: top, column: left, rows, columns } = list;
    const zone = { top, left, bottom: top + rows - 1, right: left + columns - 1 };
    const config = {
      numberOfHeaders: 1,
      hasFilters: true,
      styleId: "None",
      automaticAutofill: true,
    };
    const ranges = [{ _sheetId: sheetId, _zone: zone }];
    dispatch("CREATE_TABLE", { sheetId, tableType: "static", ranges, config });
    dispatch("FREEZE_COLUMNS", { sheetId, quantity: 1 });
    dispatch("ACTIVATE_SHEET", { sheetIdFrom: getters.getActiveSheetId(), sheetIdTo: sheetId });
  }, growing);
}

const counted = async (page: Page) => [await valueOf(page, "B2"), await rounded(page, "C2")];

const rounded = async (page: Page, name: string) =>
  Number(Number(await valueOf(page, name)).toFixed(4));

const undo = async (page: Page) => {
  await page.keyboard.press("Control+z");
  await page.waitForTimeout(100);
};

/** By hand: 46 x 0.05 + 39 x 0.06 + 52 x 0.04. */
const BEFORE = [3, 6.72];

test("typed by keys and Tab, pasted, inserted, deleted: all is counted, and comes back", async () => {
  const { page, trouble } = await openSheet(browser, address);
  await drawList(page);
  expect(await counted(page)).toEqual(BEFORE);

  await clickCell(page, "A8");
  await page.waitForTimeout(150);
  for (const text of ["Alder Soft", "60", "10"]) {
    await page.keyboard.type(text, { delay: 20 });
    await page.keyboard.press("Tab");
    await page.waitForTimeout(100);
  }
  // Typed below a column of percentages, 10 is 10 %. By hand: 6 more.
  expect(await counted(page)).toEqual([4, 12.72]);
  for (let i = 0; i < 3; i++) await undo(page);
  expect(await counted(page)).toEqual(BEFORE);

  await clickCell(page, "A8");
  await page.evaluate(() => {
    const lines = Array.from({ length: 200 }, (_, i) => `Offer ${i}\t100\t0.01`).join("\n");
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", lines);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }),
    );
  });
  await expect.poll(() => counted(page)).toEqual([203, 206.72]);
  await undo(page);
  expect(await counted(page)).toEqual(BEFORE);

  const row = await spotOf(page, "A6");
  await page.mouse.click(row.x, row.y, { button: "right" });
  await page.locator(".o-menu-item", { hasText: "Insert row" }).first().click();
  await clickCell(page, "B6");
  await page.waitForTimeout(150);
  for (const text of ["100", "1"]) {
    await page.keyboard.type(text, { delay: 20 });
    await page.keyboard.press("Tab");
    await page.waitForTimeout(100);
  }
  expect(await counted(page)).toEqual([4, 7.72]);
  for (let i = 0; i < 3; i++) await undo(page);
  expect(await counted(page)).toEqual(BEFORE);

  const first = await spotOf(page, "A5");
  await page.mouse.click(first.x, first.y, { button: "right" });
  await page.locator(".o-menu-item", { hasText: "Delete row" }).first().click();
  // By hand: 2.34 + 2.08.
  await expect.poll(() => counted(page)).toEqual([2, 4.42]);
  await undo(page);
  expect(await counted(page)).toEqual(BEFORE);
  expect(trouble).toEqual([]);
  await page.context().close();
});

test("Materials sorted and filtered by its menus: lines stay whole, and the counts true", async () => {
  const { page, trouble } = await openSheet(browser, address);
  await page.getByRole("button", { name: "Insert Materials", exact: true }).click();
  await page.getByText("Materials is on the new sheet").waitFor();
  const openFilter = async (heading: string) => {
    const { x, y } = await filterButton(page, heading);
    await page.mouse.click(x, y);
    await page.locator(".o-filter-menu").waitFor();
  };
  /** Each line as it is shown: material, price, what it lands at; as many as are filled. */
  const lines = () =>
    page.evaluate(() => {
      const { getters } = globalThis.localSheet.model;
      const sheetId = getters.getActiveSheetId();
      return Array.from({ length: 27 }, (_, i) => {
        const at = (col: number) => getters.getEvaluatedCell({ sheetId, col, row: 12 + i }).value;
        return { hidden: getters.isRowHidden(sheetId, 12 + i), text: [0, 4, 12].map(at).join(" ") };
      }).filter(({ text }) => text.trim() !== "");
    });
  const counts = async () => [await valueOf(page, "B7"), await valueOf(page, "B8")];
  const before = await lines();
  const filled = await counts();
  expect(filled).toEqual([before.length, before.length]);

  await openFilter("A12");
  await page.getByText("Sort descending").click();
  await expect.poll(async () => (await lines())[0]?.text).toContain("Salt Orchard");
  const sorted = (await lines()).map(({ text }) => text);
  expect([...sorted].sort()).toEqual(before.map(({ text }) => text).sort());
  expect(await counts()).toEqual(filled);

  await openFilter("B12");
  await page.locator(".o-filter-menu").getByText("Clear", { exact: true }).click();
  await page.locator(".o-filter-menu-value", { hasText: "fragrance oil" }).click();
  await page.getByRole("button", { name: "Confirm" }).click();
  const inSight = async () => (await lines()).filter(({ hidden }) => !hidden).length;
  // The demo has seven packs of oils.
  await expect
    .poll(inSight)
    .toBe(before.filter(({ text }) => /Slate|Cedar|Salt/.test(text)).length);
  // What is out of sight still counts.
  expect(await counts()).toEqual(filled);
  expect(trouble).toEqual([]);
  await page.context().close();
});

test("scrolled past its headings, a list has their words where its columns' letters were", async () => {
  const { page, trouble } = await openSheet(browser, address);
  await drawList(page);
  // What the page writes in the row of letters, 26 pixels high, since it was last asked.
  await page.evaluate(() => {
    const { prototype } = CanvasRenderingContext2D;
    const plainly = prototype.fillText;
    globalThis.letters = [];
    prototype.fillText = function (text, x, y, ...rest) {
      if (y < 26) globalThis.letters.push(text);
      plainly.call(this, text, x, y, ...rest);
    };
  });
  const written = async () => {
    await page.evaluate(() => void globalThis.letters.splice(0));
    await page.mouse.move(400, 400);
    await page.mouse.wheel(0, 23);
    await page.waitForTimeout(300);
    return page.evaluate(() => globalThis.letters);
  };
  const words = ["Offer", "Price, $", "Load", "Oil, $", "Kind"];
  // One row away: the headings, in the fourth, are in sight.
  expect(await written()).not.toEqual(expect.arrayContaining(words));
  await page.mouse.wheel(0, 3 * 23);
  expect(await written()).toEqual(expect.arrayContaining(words));
  // Below the last of its lines the letters are alone again.
  await page.mouse.wheel(0, 6 * 23);
  expect(await written()).not.toEqual(expect.arrayContaining(words));
  expect(trouble).toEqual([]);
  await page.context().close();
});
