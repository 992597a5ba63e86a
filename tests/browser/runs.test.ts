/** A run in a browser: a bench sheet is made, typed, booked and taken back by the pane's buttons. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { openSheet, typeInto } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** What a cell of a sheet shows. */
const shown = (page: Page, sheet: string, name: string) =>
  page.evaluate(
    ([title, cell]) => {
      const { getters } = localSheet.model;
      const sheetId = getters.getSheetIdByName(title) ?? "";
      return getters.getEvaluatedCell({ sheetId, ...o_spreadsheet.helpers.toCartesian(cell) })
        .value;
    },
    [sheet, name] as const,
  );

test("a run is made, booked and taken back", async () => {
  const { page, trouble } = await openSheet(browser, address);
  const press = (name: string) => page.getByRole("button", { name, exact: true }).click();
  const told = (text: string) => page.locator(".status", { hasText: text }).waitFor();
  await press("Insert the whole workbook");
  await told("draw from each other");
  await press("Make this run");
  await told(": print it");
  // Recipe, a batch of 100 g, one bottle of the first of Size run's sizes, 2 fl oz, and none of the others.
  await typeInto(page, "C6", "Orchard body");
  await typeInto(page, "K11", "100");
  for (const [i, cell] of ["C17", "D17", "E17", "F17"].entries())
    await typeInto(page, cell, i === 0 ? "1" : "0");
  await typeInto(page, "H24", "3.1");
  await press("Book this run");
  await told("the reading of Alder Clear is missing");
  await typeInto(page, "H25", "97");
  const before = Number(await shown(page, "Materials", "T13"));
  await press("Book this run");
  await told("is in the Batch book, with 5 lines on Weighed");
  // By hand: 97 g of the base less.
  expect(await shown(page, "Materials", "T13")).toBeCloseTo(before - 97, 9);
  await page.getByLabel("Batch to take back").fill("B-012");
  await press("Take a run back");
  await told("Batch B-012 was taken back");
  expect(await shown(page, "Materials", "T13")).toBe(before);
  expect(trouble).toEqual([]);
  await page.context().close();
}, 120_000);
