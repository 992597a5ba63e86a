/** A landed cost for each line of a maker's own sheet: few clicks, and no formula typed. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { ownSheet } from "./own-sheet";
import { clickCell, openSheet, valueOf } from "./sheet";

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

test("sixty lines get their cost per fluid ounce in under 12 clicks", async () => {
  const { page, trouble } = await openSheet(browser, inject("address"));
  await ownSheet(page);
  let clicks = 0;
  const click = async (press: () => Promise<unknown>) => {
    clicks++;
    await press();
  };
  await click(() => clickCell(page, "D6"));
  await click(() => page.getByRole("tab", { name: "Functions" }).click());
  const need = "cost per fluid ounce";
  await click(() => page.locator("#need").click());
  await page.keyboard.type(need);
  await click(() => page.locator("li summary").filter({ hasText: "MIST.FLOZCOST" }).click());
  const item = page.locator("li").filter({ hasText: "MIST.FLOZCOST" }).first();
  await click(() => item.getByRole("button", { name: "Use my cells" }).click());
  await item.getByText("57 of 60 lines have an answer.").waitFor();
  // Every seventh line, from the fourth on, has no density: three of them are sold by weight.
  await item.getByText(/^Rows 14, 49: density is needed/).waitFor();
  await click(() => item.getByRole("button", { name: "Write 60 formulas" }).click());
  await page.getByText('60 formulas are in "Costs" from H4 on').waitFor();
  console.log(`clicks: ${clicks}, characters typed: ${need.length}, cells typed: 0`);
  expect(clicks).toBeLessThan(12);
  // By hand: 12 / (453.59237 / 0.91 / 29.5735295625) = 0.711967.
  expect(await valueOf(page, "H4")).toBeCloseTo(0.711967, 5);
  // The keyboard is on the sheet: one undo takes all back.
  await page.keyboard.press("Control+z");
  await page.waitForFunction(() => {
    const { getters } = globalThis.localSheet.model;
    return getters.getEvaluatedCell({ sheetId: "own", col: 7, row: 3 }).type === "empty";
  });
  expect(await valueOf(page, "H63")).toBeNull();
  expect(trouble).toEqual([]);
});

test("a field that was clicked into takes the next cell that is clicked", async () => {
  const { page } = await openSheet(browser, inject("address"));
  await ownSheet(page);
  await clickCell(page, "D6");
  await page.getByRole("tab", { name: "Functions" }).click();
  await page.locator("#need").fill("FLOZCOST");
  await page.locator("li summary").filter({ hasText: "MIST.FLOZCOST" }).click();
  const item = page.locator("li").filter({ hasText: "MIST.FLOZCOST" }).first();
  await item.getByRole("button", { name: "Use my cells" }).click();
  const price = item.getByLabel("price", { exact: false }).first();
  await price.click();
  await clickCell(page, "C9");
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>(".from-cells input")?.value === "C9",
  );
  await item.getByText("57 of 60 lines have an answer.").waitFor();
  // What is typed is meant: another click on the sheet does not write over it.
  await price.fill("$20");
  await clickCell(page, "A20");
  await page.waitForTimeout(400);
  expect(await price.inputValue()).toBe("$20");
});
