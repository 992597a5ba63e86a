/** Drives the local sheet as a person would: clicks a cell, types, and reads what it shows. */
import { readFileSync } from "node:fs";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import type { Model } from "../../localsheet/engine";

declare global {
  var localSheet: { model: Model };
}

export interface OpenSheet {
  page: Page;
  /** Everything the page complained of, or asked of another host. */
  trouble: string[];
}

export async function openSheet(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
  /** What all that the page asks for must begin with. */
  within = address,
  /** The day that it is. */
  today?: Date,
): Promise<OpenSheet> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  if (today) await context.clock.setSystemTime(today);
  const page = await context.newPage();
  const trouble: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") trouble.push(message.text());
  });
  page.on("pageerror", (error) => trouble.push(error.message));
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(within) && !/^(data|blob):/.test(url)) trouble.push(`asked for ${url}`);
  });
  await page.goto(address, { timeout: 60_000 });
  await ready(page);
  return { page, trouble };
}

export async function ready(page: Page) {
  // On a narrow screen the pane is out of sight.
  await page.locator("#pane [role=tab]").first().waitFor({ state: "attached" });
  await page.locator(".o-grid canvas").first().waitFor();
}

/** Clicks a cell of the sheet that is shown, scrolling to it first. */
export async function clickCell(page: Page, name: string) {
  const { x, y } = await spotOf(page, name);
  await page.mouse.click(x, y);
}

/** Clicks a cell, types into it and presses Enter. */
export async function typeInto(page: Page, name: string, text: string) {
  await clickCell(page, name);
  // No hand types sooner; the engine readies its editor a moment after the click.
  await page.waitForTimeout(150);
  await page.keyboard.type(text, { delay: 10 });
  await page.keyboard.press("Enter");
}

/** Selects a cell without the mouse. */
export async function selectCell(page: Page, name: string) {
  await page.evaluate((xc) => {
    const { col, row } = globalThis.o_spreadsheet.helpers.toCartesian(xc);
    globalThis.localSheet.model.selection.selectCell(col, row);
  }, name);
}

/** Types into a cell by the keyboard alone, for many cells in a row: the sheet has the keyboard. */
export async function keyInto(page: Page, name: string, text: string) {
  await selectCell(page, name);
  // The engine draws, then readies its editor.
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

/** What stands in a cell: a number as a number. */
export function valueOf(page: Page, name: string): Promise<unknown> {
  return page.evaluate((xc) => {
    const { getters } = globalThis.localSheet.model;
    const position = globalThis.o_spreadsheet.helpers.toCartesian(xc);
    return getters.getEvaluatedCell({ sheetId: getters.getActiveSheetId(), ...position }).value;
  }, name);
}

/** What a cell of the shown sheet shows; an error with its text. */
export function shown(page: Page, name: string): Promise<string> {
  return page.evaluate((xc) => {
    const { model } = globalThis.localSheet;
    const position = globalThis.o_spreadsheet.helpers.toCartesian(xc);
    const sheetId = model.getters.getActiveSheetId();
    const cell = model.getters.getEvaluatedCell({ sheetId, ...position });
    return cell.type === "error" ? `${cell.value} ${cell.message}` : cell.formattedValue;
  }, name);
}

export async function spotOf(page: Page, name: string): Promise<{ x: number; y: number }> {
  const inGrid = await page.evaluate((xc) => {
    const { model } = globalThis.localSheet;
    const { col, row } = globalThis.o_spreadsheet.helpers.toCartesian(xc);
    model.dispatch("SCROLL_TO_CELL", { col, row });
    const zone = { left: col, right: col, top: row, bottom: row };
    return model.getters.getVisibleRectWithoutHeaders(zone);
  }, name);
  await page.waitForTimeout(100);
  const overlay = await page.locator(".o-grid-overlay").boundingBox();
  if (!overlay) throw new Error("the grid is not shown");
  return {
    x: overlay.x + inGrid.x + inGrid.width / 3,
    y: overlay.y + inGrid.y + inGrid.height / 2,
  };
}

/** The filter's button of a heading, at its right end. */
export async function filterButton(page: Page, heading: string) {
  const { x, y } = await spotOf(page, heading);
  const width = await page.evaluate((xc) => {
    const { getters } = globalThis.localSheet.model;
    const { col } = globalThis.o_spreadsheet.helpers.toCartesian(xc);
    return getters.getColSize(getters.getActiveSheetId(), col);
  }, heading);
  return { x: x + (width * 2) / 3 - 10, y };
}

/** Presses the button that hands the workbook over; gives the bytes of the copy. */
export async function makeCopy(page: Page): Promise<Uint8Array> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Make a copy of this workbook" }).click(),
  ]);
  await page.getByText("The copy was downloaded").waitFor();
  return new Uint8Array(readFileSync(await download.path()));
}
