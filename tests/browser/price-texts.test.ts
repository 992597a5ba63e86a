/**
 * A workbook made elsewhere: sixty supplier lines whose prices and packs are texts. Three needs over it, by
 * clicks and typed characters: the landed cost, the price to charge, the oil to weigh.
 */
import ExcelJS from "exceljs";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { clickCell, openSheet, ready, shown, valueOf } from "./sheet";

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const PRICES = ["$6.00", "12.50 USD", " 8.00 ", "$1,234.50", "USD 20", "\u00a07.25"];
const PACKS = ["16 fl oz", "1/2 gal", "4 x 250 mL", "1 gal jug", "32 fl. oz.", "1 qt"];

/** The file: loads are percents, and every tenth is a 5 in place of 5 %. */
async function foreignBook(): Promise<Buffer> {
  const book = new ExcelJS.Workbook();
  const costs = book.addWorksheet("Suppliers");
  costs.addRow(["Supplier", "Item", "Price", "Pack", "Freight"]);
  for (let i = 0; i < 60; i++) {
    const [price, pack] = [PRICES[i % 6], PACKS[i % 6]];
    costs.addRow([
      i % 2 ? "Pinefold" : "Hollow & Reed",
      `Oil ${i}`,
      price,
      pack,
      i % 3 ? "$4.50" : null,
    ]);
  }
  const bottles = book.addWorksheet("Bottles");
  bottles.addRow(["Bottle", "Cost", "Margin"]);
  for (let i = 0; i < 60; i++) bottles.addRow([`Bottle ${i}`, `$${3 + i}.00`, 0.5]);
  const batches = book.addWorksheet("Batches");
  batches.addRow(["Batch name", "Batch (g)", "Load"]);
  for (let i = 0; i < 60; i++) {
    const row = batches.addRow([`Batch ${i}`, 100 + i, i % 10 === 9 ? 5 : 0.05]);
    row.getCell(3).numFmt = "0%";
  }
  return Buffer.from(await book.xlsx.writeBuffer());
}

/** A person who counts. */
class Hand {
  clicks = 0;
  typed = 0;

  constructor(readonly page: Page) {}

  async click(press: () => Promise<unknown>) {
    this.clicks++;
    await press();
  }

  /** Looks for a need, opens the function, and puts it over the list of the sheet that is shown. */
  async useMyCells(cell: string, need: string, id: string): Promise<Locator> {
    const { page } = this;
    await this.click(() => clickCell(page, cell));
    await this.click(() => page.getByRole("tab", { name: "Functions" }).click());
    await this.click(() => page.locator("#need").click());
    await page.keyboard.type(need);
    this.typed += need.length;
    const item = page
      .locator("li")
      .filter({ hasText: `MIST.${id}` })
      .first();
    await this.click(() => item.locator("summary").first().click());
    await this.click(() => item.getByRole("button", { name: "Use my cells" }).click());
    return item;
  }

  told(what: string) {
    console.log(`${what}: ${this.clicks} clicks, ${this.typed} characters typed, 0 cells retyped`);
    expect(this.clicks).toBeLessThan(12);
  }
}

/** The file opened, with one of its sheets shown. */
async function openBook(sheet: string) {
  const { page, trouble } = await openSheet(browser, inject("address"));
  const file = {
    name: "mine.xlsx",
    mimeType: "application/octet-stream",
    buffer: await foreignBook(),
  };
  await page.locator("#file").setInputFiles(file);
  await page.getByRole("button", { name: "Go on" }).click();
  await page.waitForEvent("load");
  await ready(page);
  await page.locator(".o-sheet", { hasText: sheet }).click();
  return { page, trouble, hand: new Hand(page) };
}

test("the landed cost of sixty lines", async () => {
  const { page, trouble, hand } = await openBook("Suppliers");
  const item = await hand.useMyCells("C3", "cost per fluid ounce", "FLOZCOST");
  await item.getByText("60 of 60 lines have an answer.").waitFor();
  await hand.click(() => item.getByRole("button", { name: "Write 60 formulas" }).click());
  await page.getByText("60 formulas are in").waitFor();
  hand.told("landed cost");
  // By hand: 6 / 16; (12.5 + 4.5) / 64; (1234.5 + 0) / 128 on the fourth line.
  expect(await valueOf(page, "F2")).toBeCloseTo(0.375, 12);
  expect(await valueOf(page, "F3")).toBeCloseTo(17 / 64, 12);
  expect(await valueOf(page, "F5")).toBeCloseTo(1234.5 / 128, 12);
  // The currency that the texts name.
  expect(await shown(page, "F5")).toBe("$9.64");
  expect(trouble).toEqual([]);
});

test("what to charge for sixty bottles", async () => {
  const { page, hand } = await openBook("Bottles");
  const item = await hand.useMyCells("B3", "what should I charge", "ASKPRICE");
  await item.getByText("60 of 60 lines have an answer.").waitFor();
  await hand.click(() => item.getByRole("button", { name: "Write 60 formulas" }).click());
  await page.getByText("60 formulas are in").waitFor();
  hand.told("price to charge");
  // By hand: 3 and 62 at half.
  expect([await shown(page, "D2"), await shown(page, "D61")]).toEqual(["$6.00", "$124.00"]);
});

test("how much oil to weigh for sixty batches, some of whose loads are 5 for 5 %", async () => {
  const { page, hand } = await openBook("Batches");
  const item = await hand.useMyCells("B3", "how much oil", "OILFOR");
  await item.getByText("54 of 60 lines have an answer.").waitFor();
  await item.getByText(/^Rows 11, 21.*load must be from 0 % to 100 %.*type 5 %/).waitFor();
  await hand.click(() => item.getByRole("button", { name: "Write 60 formulas" }).click());
  await page.getByText("60 formulas are in").waitFor();
  hand.told("oil to weigh");
  // By hand: 5 % of 100 and of 101.
  expect(await valueOf(page, "D2")).toBeCloseTo(5, 12);
  expect(await valueOf(page, "D3")).toBeCloseTo(5.05, 12);
  expect(await shown(page, "D11")).toContain("type 5 %");
});
