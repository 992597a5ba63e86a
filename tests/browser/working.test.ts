import { strFromU8, unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { placeOf } from "../../taskpane/sheets/drawing";
import { template as limitsCheck } from "../../taskpane/templates/limits-check";
import { asExcel } from "../files/as-excel";
import { readBook } from "../files/read-book";
import { launchBrowser } from "./launch";
import { clickCell, makeCopy, openSheet, shown, typeInto } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const explained = (page: Page) => page.locator(".explained");

describe("the working of a cell", () => {
  test("follows the selection, and the numbers in the cells", async () => {
    const { page, trouble } = await openSheet(browser, address);
    await page.getByRole("tab", { name: "Working" }).click();
    await page.getByText("A1 of Start here holds a text that was typed in").waitFor();
    await clickCell(page, "B19");
    await page.getByText("B19 of Start here shows 3 g").waitFor();
    await page.getByText('from B17, "Batch (g)"').waitFor();
    expect(await explained(page).locator(".working li").allTextContents()).toEqual([
      "The oil's part of the finished batch, the load itself, is 5 %.part = load= 5 %",
      "Oil to weigh: 5 % of 60 g is 3 g.oil = batch × part= 60 g × 5 %= 3 g",
    ]);
    await page
      .getByText("the oil's certificate, for this kind of product, sets its limit")
      .waitFor();

    await typeInto(page, "B17", "90");
    await clickCell(page, "B19");
    // By hand: 5 % of 90.
    await page.getByText("Answer: 4.5 g.").waitFor();
    await typeInto(page, "B18", "=5");
    await clickCell(page, "B19");
    await page.getByText("Load must be from 0 % to 100 %, got 500 %: type 5 %.").waitFor();
    await page.getByText("Type 5 % in B18.").waitFor();
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("of a formula without functions of ours, in words, with the formula folded away", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("tab", { name: "Working" }).click();
    await typeInto(page, "E1", '=IF(ISNUMBER(B17),B17*B18,"")');
    await clickCell(page, "E1");
    await page.getByText('It is "Batch" (B17) times "Fragrance load" (B18).').waitFor();
    await page.getByText("60 g × 5 %", { exact: true }).waitFor();
    const raw = explained(page).locator(".itself code");
    expect(await raw.isVisible()).toBe(false);
    await page.getByText("The formula itself").click();
    expect(await raw.textContent()).toMatch(/^=IF\(ISNUMBER/);
    await page.context().close();
  });

  test("of nested and spilled calls, line by line", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("tab", { name: "Working" }).click();
    await typeInto(page, "E1", "60");
    await typeInto(page, "E2", "120");
    await typeInto(page, "F1", "=2*MIST.BASEFOR(MIST.BATCHFROM(E1:E2,5%),5%)");
    await clickCell(page, "F2");
    await page.getByText("2 functions, from the inside out:").waitFor();
    expect(await explained(page).locator("h2").allTextContents()).toEqual([
      "In words",
      "1. MIST.BATCHFROM",
      "2. MIST.BASEFOR",
    ]);
    await page.getByText("2 × 2280", { exact: true }).waitFor();
    // By hand: 120 g of oil are 5 % of 2,400 g, of which 95 % are base.
    expect(await explained(page).locator(".answer").allTextContents()).toEqual([
      "Answer: 2400.",
      "Answer: 2280.",
    ]);
    await explained(page).locator("select").first().selectOption("0");
    expect(await explained(page).locator(".answer").first().textContent()).toBe("Answer: 1200.");
    await page.context().close();
  });
});

test("long expressions are broken, not cut off", async () => {
  const { page } = await openSheet(browser, address);
  await page.getByRole("button", { name: "Insert Limits check" }).click();
  await page.getByText("Limits check is on the new sheet").waitFor();
  await page.getByRole("tab", { name: "Working" }).click();
  await clickCell(page, placeOf(limitsCheck, "flash.cautious:first").replaceAll("$", ""));
  await page.getByRole("heading", { name: "MIST.FLASHGUESS" }).waitFor();
  const cut = await page.evaluate(() =>
    [...document.querySelectorAll("#part-working, #part-working *")]
      .filter((box) => box.scrollWidth > box.clientWidth + 1 && box.clientWidth > 0)
      .map((box) => box.outerHTML.slice(0, 80)),
  );
  expect(cut).toEqual([]);
  await page.context().close();
});

describe("handing over", () => {
  test("downloads a copy without our functions, and changes nothing here", async () => {
    const { page, trouble } = await openSheet(browser, address);
    await page.getByRole("button", { name: "Insert Limits check" }).click();
    await page.getByText("Limits check is on the new sheet").waitFor();
    const before = await page.evaluate(() =>
      JSON.stringify(globalThis.localSheet.model.exportData()),
    );
    await page.getByRole("tab", { name: "Hand over" }).click();
    const bytes = await makeCopy(page);
    const copy = readBook(bytes);
    // A heading of several lines is as high in the file as it is here.
    const sheet = strFromU8(unzipSync(bytes)["xl/worksheets/sheet1.xml"]);
    const heading = placeOf(limitsCheck, "parts.name:head").replace(/\D/g, "");
    const row = new RegExp(`<row r="${heading}"[^>]* ht="([\\d.]+)"`).exec(sheet);
    expect(Number(row?.[1])).toBeGreaterThan(40);
    expect(copy.get("Start here")?.get("B19")).toMatchObject({
      value: 3,
      formula: expect.stringMatching(/^IF\(/),
    });
    const left = [...copy.values()]
      .flatMap((cells) => [...cells.values()])
      .filter(({ formula }) => /MIST/.test(formula ?? ""));
    expect(left).toEqual([]);
    expect(copy.get("Hand over")?.get("A8")?.value).toBe("Start here");
    const status = await page.locator(".status").textContent();
    expect(status).toMatch(
      /^The copy was downloaded as handed over\.xlsx\. \d+ cells stay live, \d+ became fixed values\.$/,
    );
    await page.getByText(/What was replaced: \d+/).click();
    await page.getByText("fixed value: FLASHGUESS is more than arithmetic").waitFor();
    expect(
      await page.evaluate(() => JSON.stringify(globalThis.localSheet.model.exportData())),
    ).toBe(before);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("of a workbook that was saved elsewhere", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("tab", { name: "Hand over" }).click();
    const file = {
      name: "Ana's costs.xlsx",
      mimeType: "application/octet-stream",
      buffer: Buffer.from(asExcel()),
    };
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.locator("#saved").setInputFiles(file),
    ]);
    expect(download.suggestedFilename()).toBe("Ana's costs handed over.xlsx");
    const wrong = { ...file, buffer: Buffer.from("price,46") };
    await page.locator("#saved").setInputFiles(wrong);
    await page.getByText("This is a text file (.csv or the like), not a workbook").waitFor();
    await page.context().close();
  });

  test("repair enters unknown names of ours again and lists them", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "E1", "=_xldudf_MIST_OILFOR(60,5%)");
    expect(await shown(page, "E1")).toMatch(/^#/);
    await page.getByRole("tab", { name: "Hand over" }).click();
    await page.getByRole("button", { name: "Repair" }).click();
    await page.getByText("1 cell entered again: see the list.").waitFor();
    await page.getByText("E1 of Start here").waitFor();
    await page.getByText("was entered again and has its answer").waitFor();
    expect(await shown(page, "E1")).toBe("3");
    await page.getByRole("button", { name: "Repair" }).click();
    await page.getByText("Nothing to repair: every function of ours is known here.").waitFor();
    await page.context().close();
  });
});
