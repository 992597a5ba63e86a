/** What the menus of the local sheet say when a person opens them, submenus and all. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch.ts";
import { clickCell, openSheet, spotOf } from "./sheet.ts";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const EVERYWHERE = ["Cut", "Copy", "Paste", "Paste special > Paste as value, Paste format only"];
const SORTS = "Ascending (A ⟶ Z), Descending (Z ⟶ A)";

/** What means something in a costing sheet; what is new in an engine of another version is to be looked at. */
const BAR: Record<string, string[]> = {
  File: ["Print"],
  Edit: [
    "Undo",
    "Redo",
    "Copy",
    "Cut",
    "Paste",
    "Paste special > Paste as value, Paste format only",
    "Find and replace",
    "Delete > Delete values, Delete row 1, Delete column A, Delete cell and shift up, Delete cell and shift left",
  ],
  View: [
    "Show > Gridlines, Formulas",
    "Zoom > 50%, 75%, 100%, 125%, 150%, 200%",
    "Freeze > 1 row, 2 rows, Up to current row, 1 column, 2 columns, Up to current column",
    "Group > Group column A, Group row 1",
  ],
  Insert: [
    "Insert row > Row above, Row below",
    "Insert column > Column left, Column right",
    "Insert cells > Shift down, Shift right",
    "Insert sheet",
    "Chart",
    "Table",
    "Function > SUM, AVERAGE, COUNT, MAX, MIN, All, Array, Database, Date, Engineering, Filter, Financial, Info, Logical, Lookup, Math, Mistwright, Operator, Parser, Statistical, Text, Web",
    "Link",
    "Checkbox",
    "Dropdown list",
  ],
  Format: [
    "Number > Automatic, Plain text, Number, Percent, Scientific, Currency, Accounting, Currency rounded, Date, Time, Date time, Duration, Custom date and time, Custom number format",
    "Bold",
    "Italic",
    "Underline",
    "Strikethrough",
    "Font size > 6, 7, 8, 9, 10, 11, 12, 14, 18, 24, 36",
    "Alignment > Left, Center, Right, Top, Middle, Bottom",
    "Wrapping > Overflow, Wrap, Clip",
    "Conditional formatting",
    "Clear formatting",
  ],
  Data: [
    `Sort range > ${SORTS}`,
    "Data cleanup > Remove duplicates, Trim whitespace",
    "Split text to columns",
    "Column statistics",
    "Data Validation",
    "Named ranges",
    "Add filters",
  ],
};

const BY_RIGHT_BUTTON: Record<string, string[]> = {
  "a cell": [
    ...EVERYWHERE,
    "Insert row",
    "Insert column",
    "Insert cells > Shift down, Shift right",
    "Delete row 17",
    "Delete column B",
    "Delete cells > Shift up, Shift left",
    "Insert link",
  ],
  "a column": [
    ...EVERYWHERE,
    `Sort column > ${SORTS}`,
    "Column statistics",
    "Insert column left",
    "Insert column right",
    "Delete column B",
    "Clear column B",
    "Hide column B",
    "Conditional formatting",
    "Group column B",
  ],
  "a row": [
    ...EVERYWHERE,
    "Insert row above",
    "Insert row below",
    "Delete row 17",
    "Clear row 17",
    "Hide row 17",
    "Conditional formatting",
    "Group row 17",
  ],
  "one of two sheets": [
    "Delete",
    "Hide sheet",
    "Duplicate",
    "Rename",
    "Change color",
    "Lock against typing",
    "Move right",
  ],
  "a locked one": [
    "Delete",
    "Hide sheet",
    "Duplicate",
    "Rename",
    "Change color",
    "Unlock for typing",
    "Move right",
  ],
  "a cell of a list": [
    ...EVERYWHERE,
    "Insert row",
    "Insert column",
    "Insert cells > Shift down, Shift right",
    "Delete row 45",
    "Delete column A",
    "Delete cells > Shift up, Shift left",
    "Edit table",
    "Delete table",
    "Insert link",
  ],
  "a chart": ["Edit", "Copy", "Cut", "Copy as image", "Download", "Delete"],
};

/** What the entries of an open menu say, each with those that it opens; names of functions are not gone through. */
async function read(page: Page, level = 0): Promise<string[]> {
  const items = page.locator(".o-menu").nth(level).locator(".o-menu-item");
  const entries = await items.evaluateAll((all) =>
    all.map((entry) => ({
      name: entry.querySelector(".o-menu-item-name")?.textContent?.trim() ?? "",
      opens: Boolean(entry.querySelector(".o-menu-item-root")) && !entry.matches(".disabled"),
    })),
  );
  const said: string[] = [];
  for (const [i, { name, opens }] of entries.entries()) {
    if (!opens || level > 0) said.push(name);
    else {
      await items.nth(i).hover();
      await page.waitForTimeout(400);
      said.push(`${name} > ${(await read(page, 1)).join(", ")}`);
    }
  }
  return said;
}

/**
 * Escape closes the menu that was opened last, so a menu with a submenu needs it twice. A press beside a menu
 * that is still open closes it and is lost.
 */
async function close(page: Page) {
  const menus = page.locator(".o-menu");
  for (let left = await menus.count(); left > 0; left--) {
    await page.keyboard.press("Escape");
    await menus.nth(left - 1).waitFor({ state: "detached" });
  }
}

test("each menu of the bar", async () => {
  const { page } = await openSheet(browser, address);
  const found: Record<string, string[]> = {};
  for (const menu of await page.locator(".o-topbar-menu").all()) {
    const name = (await menu.textContent())?.trim() ?? "";
    await menu.click();
    await page.locator(".o-menu").first().waitFor();
    found[name] = await read(page);
    await close(page);
  }
  expect(found).toEqual(BAR);
  await page.context().close();
});

const nameOf = ({ col, row }: { col: number; row: number }) =>
  `${String.fromCharCode(65 + col)}${row + 1}`;

test("a link is shown without asking another host for a picture", async () => {
  const { page, trouble } = await openSheet(browser, address);
  await page.evaluate(() => {
    const { model } = globalThis.localSheet;
    const sheetId = model.getters.getActiveSheetId();
    const content = "[moss](https://moss.example)";
    model.dispatch("UPDATE_CELL", { sheetId, col: 1, row: 21, content });
  });
  await clickCell(page, "B22");
  const { x, y } = await spotOf(page, "B22");
  await page.mouse.move(x + 2, y);
  await page.locator(".o-link-tool", { hasText: "https://moss.example" }).waitFor();
  expect(trouble).toEqual([]);
  await page.context().close();
});

test("what the right button opens", async () => {
  const { page } = await openSheet(browser, address);
  const found: Record<string, string[]> = {};
  const open = async (name: string, x: number, y: number) => {
    await page.mouse.click(x, y, { button: "right" });
    await page.locator(".o-menu").first().waitFor();
    found[name] = await read(page);
    await close(page);
  };
  const { x, y } = await spotOf(page, "B17");
  await clickCell(page, "B17");
  await open("a cell", x, y);
  const grid = await page.locator(".o-grid-overlay").boundingBox();
  if (!grid) throw new Error("the grid is not shown");
  await open("a column", x, grid.y - 8);
  await open("a row", grid.x - 12, y);
  await page.getByRole("button", { name: "Insert Sizes", exact: true }).click();
  await page.getByText("Sizes is on the new sheet").waitFor();
  const tab = await page.locator(".o-sheet").first().boundingBox();
  if (!tab) throw new Error("there is no sheet");
  await open("one of two sheets", tab.x + 10, tab.y + 8);
  await page.mouse.click(tab.x + 10, tab.y + 8, { button: "right" });
  await page.locator(".o-menu-item", { hasText: "Lock against typing" }).click();
  await page.locator(".o-menu").waitFor({ state: "detached" });
  await open("a locked one", tab.x + 10, tab.y + 8);
  await page.getByRole("button", { name: "Insert Spray trial log", exact: true }).click();
  await page.getByText("Spray trial log is on the new sheet").waitFor();
  const chart = await page.evaluate(() => {
    const { getters } = globalThis.localSheet.model;
    const [figure] = getters.getFigures(getters.getActiveSheetId());
    return figure as unknown as { col: number; row: number };
  });
  const line = await spotOf(page, "A45");
  await page.mouse.click(line.x, line.y);
  await open("a cell of a list", line.x, line.y);
  const corner = await spotOf(page, nameOf(chart));
  await page.waitForTimeout(400);
  await open("a chart", corner.x + 80, corner.y + 60);
  expect(found).toEqual(BY_RIGHT_BUTTON);
  await page.context().close();
});
