/** The tasks of a maker by the keyboard alone: the focus is always seen, and never lost. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { cellName } from "../../functions/formula/addresses";
import { plannedSheets } from "../../taskpane/sheets/find";
import { template as benchSheet } from "../../taskpane/templates/bench-sheet";
import { ownSheet } from "./own-sheet";
import { openSheet, ready, selectCell, shown, valueOf } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** What has the keyboard, by the words on it; fails where nothing has, or where one does not see what. */
async function focused(page: Page): Promise<string> {
  const { name, trouble } = await page.evaluate(() => {
    const now = document.activeElement as HTMLInputElement | null;
    if (!now || now === document.body) return { name: "", trouble: "nothing has the keyboard" };
    // The engine draws its own frame around a cell.
    if (now.closest("#sheet")) return { name: "the sheet", trouble: "" };
    const words = now.ariaLabel ?? now.labels?.[0]?.textContent ?? now.textContent ?? "";
    const name = words.trim().replace(/\s+/g, " ");
    const { outlineStyle, outlineWidth } = getComputedStyle(now);
    const isOutlined = outlineStyle !== "none" && parseFloat(outlineWidth) >= 1;
    const box = now.getBoundingClientRect();
    const top = document.elementFromPoint(
      box.x + box.width / 2,
      box.y + Math.min(8, box.height / 2),
    );
    const isInSight = top !== null && (now.contains(top) || top.contains(now));
    const seen = isOutlined ? (isInSight ? "" : "is out of sight") : "has no outline";
    return { name, trouble: seen && `"${name}" ${seen}` };
  });
  if (trouble) throw new Error(trouble);
  return name;
}

/** Presses Tab until something has the keyboard whose words begin so. */
async function tabTo(page: Page, words: string, key = "Tab") {
  const gone: string[] = [];
  while (gone.length < 80) {
    await page.keyboard.press(key);
    const name = await focused(page);
    if (name.startsWith(words)) return;
    gone.push(name);
  }
  throw new Error(`"${words}" was not reached, but ${gone.join(", ")}`);
}

const press = async (page: Page, ...keys: string[]) => {
  for (const key of keys) await page.keyboard.press(key);
};

/** From the sheet to a part of the pane. */
async function toPart(page: Page, name: string) {
  await press(page, "F6");
  for (let i = 0; i < 100 && (await focused(page)) !== "Sheets"; i++) {
    const isTab = await page.evaluate(() => document.activeElement?.role === "tab");
    await press(page, isTab ? "ArrowLeft" : "Shift+Tab");
  }
  while ((await focused(page)) !== name) await press(page, "ArrowRight");
}

const isInSheet = async (page: Page) => expect.poll(() => focused(page)).toBe("the sheet");

/** Opens, and waits until the sheet has the keyboard, as it has from the start. */
async function opened(options = {}) {
  const { page } = await openSheet(browser, address, options);
  await isInSheet(page);
  return page;
}

test.each([
  ["side by side", { width: 1280, height: 900 }],
  ["in turns", { width: 320, height: 700 }],
])("F6 goes around sheet and pane, %s, and comes back to where one was", async (_, viewport) => {
  const page = await opened({ viewport });
  await press(page, "F6");
  expect(await focused(page)).toBe("Sheets");
  await press(page, "ArrowRight");
  await page.getByLabel("What do you need?").waitFor();
  await tabTo(page, "What do you need?");
  await press(page, "Shift+F6");
  await isInSheet(page);
  // The arrows mean its cells.
  await press(page, "ArrowDown");
  await expect
    .poll(() => page.evaluate(() => globalThis.localSheet.model.getters.getSelectedZone().top))
    .toBe(1);
  await press(page, "F6");
  expect(await focused(page)).toBe("What do you need?");
  await press(page, "F6");
  expect(await focused(page)).toBe(viewport.width < 760 ? "Sheet" : "Open .xlsx");
  await press(page, "F6");
  await isInSheet(page);
  await page.context().close();
});

test("an example is put, its working read, a sheet inserted, and a copy made", async () => {
  const page = await opened();
  await toPart(page, "Functions");
  await page.getByLabel("What do you need?").waitFor();
  await tabTo(page, "What do you need?");
  await page.keyboard.type("how much fragrance oil");
  await tabTo(page, "How much fragrance oil do I weigh?");
  await press(page, "Enter");
  await selectCell(page, "A60");
  await tabTo(page, "Put the example");
  await press(page, "Enter");
  // By hand: 5 % of 60.
  await page.getByText("is in A60 of").waitFor();
  expect(await valueOf(page, "A60")).toBe(3);
  await isInSheet(page);

  await toPart(page, "Working");
  await page.getByText("A60 of Start here shows 3").waitFor();
  await tabTo(page, "All digits");
  await press(page, "Space");
  await page.getByText("Answer: 3").waitFor();
  expect(await focused(page)).toBe("All digits");

  await press(page, "Shift+F6");
  await toPart(page, "Sheets");
  await tabTo(page, "Insert Materials");
  await press(page, "Enter");
  await page.getByText("Materials is on the new sheet").waitFor();
  await isInSheet(page);

  await toPart(page, "Hand over");
  await tabTo(page, "Make a copy of this workbook");
  const [copy] = await Promise.all([page.waitForEvent("download"), press(page, "Enter")]);
  expect(copy.suggestedFilename()).toBe("handed over.xlsx");
  await page.getByText("The copy was downloaded").waitFor();
  expect(await focused(page)).toBe("Make a copy of this workbook");
  const choosing = page.waitForEvent("filechooser");
  await tabTo(page, "Make a copy of a saved .xlsx");
  await press(page, "Enter");
  await choosing;
  await tabTo(page, "Repair");
  await press(page, "Enter");
  await page.getByText("Nothing to repair").waitFor();
  expect(await focused(page)).toBe("Repair");
  await page.context().close();
});

test("a function is laid over one's own cells, chosen on the sheet", async () => {
  const page = await opened();
  await toPart(page, "Sheets");
  await tabTo(page, "Insert Sizes");
  await press(page, "Enter");
  await page.getByText("Sizes is on the new sheet").waitFor();
  await isInSheet(page);
  await toPart(page, "Functions");
  await page.getByLabel("What do you need?").waitFor();
  await tabTo(page, "What do you need?");
  await page.keyboard.type("FLOZCOST");
  await tabTo(page, "Which supplier's pack is cheapest");
  await press(page, "Enter");
  await tabTo(page, "Use my cells");
  await press(page, "Enter");
  await expect.poll(() => focused(page)).toBe("My cells: MIST.FLOZCOST");
  await page.getByText("Still needed: price").waitFor();

  await tabTo(page, "price");
  await page.keyboard.type("40");
  await tabTo(page, "size");
  // The field takes the cell that is gone to, and the keyboard comes back to it.
  await press(page, "Shift+F6");
  await isInSheet(page);
  await selectCell(page, "B10");
  await press(page, "ArrowUp");
  await page.getByText("4 of 5 lines have an answer.").waitFor();
  await press(page, "F6");
  expect(await focused(page)).toMatch(/^size/);
  expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe("B9");
  await tabTo(page, "Write 5 formulas");
  await press(page, "Enter");
  await page.getByText("5 formulas are in").waitFor();
  await isInSheet(page);
  await page.context().close();
});

test("the workbook is saved and opened; a question that Escape closes changes nothing", async () => {
  const page = await opened();
  await press(page, "Shift+F6");
  await tabTo(page, "Save .xlsx");
  const [file] = await Promise.all([page.waitForEvent("download"), press(page, "Enter")]);
  expect(file.suggestedFilename()).toBe("mistwright.xlsx");
  await page.getByText("Saved as mistwright.xlsx").waitFor();
  expect(await focused(page)).toBe("Save .xlsx");

  const choosing = page.waitForEvent("filechooser");
  await tabTo(page, "Open .xlsx", "Shift+Tab");
  await press(page, "Enter");
  await (
    await choosing
  ).setFiles({ name: "a.xlsx", mimeType: "text/csv", buffer: Buffer.from("price,46") });
  await page.getByRole("dialog", { name: "This is a text file" }).waitFor();
  expect(await focused(page)).toBe("Close");
  await press(page, "F6");
  expect(await focused(page)).toBe("Close");
  await press(page, "Escape");
  expect(await focused(page)).toBe("Open .xlsx");

  await tabTo(page, "Start anew");
  await press(page, "Enter");
  expect(await focused(page)).toBe("The demo");
  await press(page, "Escape");
  expect(await focused(page)).toBe("Start anew");
  expect(await shown(page, "A1")).toBe("Larkfield Mist House");
  await page.context().close();
});

test("a message is reached and closed, and the sheet has the keyboard", async () => {
  const page = await opened();
  const second = await page.context().newPage();
  await second.goto(address);
  await ready(second);
  await second.getByText("This workbook is open in another tab").waitFor();
  await press(second, "F6", "F6", "F6");
  expect(await focused(second)).toBe("Take over here");
  await tabTo(second, "Close");
  await press(second, "Enter");
  await isInSheet(second);
  await page.context().close();
});

test("a run is made, weighed, booked and taken back", async () => {
  const page = await opened();
  await toPart(page, "Sheets");
  await tabTo(page, "Insert the whole workbook");
  await press(page, "Enter");
  await page.getByText(/sheets were added/).waitFor();
  await toPart(page, "Sheets");
  await tabTo(page, "Make this run");
  await press(page, "Enter");
  await page.getByText("The bench sheet of batch B-012").waitFor();
  await isInSheet(page);
  // The demo's Size run has its recipe and bottles; what is poured is typed line by line, downwards.
  const places = plannedSheets([{ sheet: "Bench sheet", template: benchSheet }]);
  const at = (name: string) => {
    const place = places.get(benchSheet.title)?.places.get(name);
    return cellName(place?.row ?? 0, place?.column ?? 0);
  };
  await selectCell(page, at("pours.reading"));
  for (const grams of ["55.3", "13.7", "1298.7"]) {
    await page.keyboard.type(grams);
    await press(page, "Enter");
  }
  await selectCell(page, at("sizes.filled"));
  for (const count of ["6", "10", "0", "0"]) {
    await page.keyboard.type(count);
    await press(page, "Tab");
  }
  await toPart(page, "Sheets");
  await tabTo(page, "Book this run");
  await press(page, "Enter");
  await page.getByText("Batch B-012 is in the Batch book").waitFor();
  expect(await focused(page)).not.toBe("");
  await toPart(page, "Sheets");
  await tabTo(page, "Batch to take back");
  await page.keyboard.type("B-012");
  await tabTo(page, "Take a run back");
  await press(page, "Enter");
  await page.getByText("Batch B-012 was taken back").waitFor();
  await page.context().close();
}, 120_000);

test("Materials draws from one's own list, whose sheet and columns are chosen", async () => {
  const page = await opened();
  await ownSheet(page);
  await toPart(page, "Sheets");
  await tabTo(page, "Filled with the invented demo");
  await press(page, "Space");
  await tabTo(page, "Insert Materials");
  await press(page, "Enter");
  await page.getByText("Materials is on the new sheet").waitFor();
  await toPart(page, "Sheets");
  await tabTo(page, "I have a price list already");
  await press(page, "Enter");
  await page.getByLabel("Freight of the order").waitFor();
  await tabTo(page, "Sheet with your price list");
  await page.keyboard.type("Costs");
  await page.getByLabel("Freight of the order").waitFor();
  await tabTo(page, "Draw Materials from this list");
  await press(page, "Enter");
  await page.getByText(/Materials draws/).waitFor();
  await page.context().close();
}, 120_000);

test("a workbook that was replaced is brought back", async () => {
  const page = await opened();
  await selectCell(page, "A60");
  await page.keyboard.type("mine");
  await press(page, "Enter");
  await press(page, "Shift+F6");
  await tabTo(page, "Start anew");
  await press(page, "Enter");
  expect(await focused(page)).toBe("The demo");
  await press(page, "Enter");
  await page.getByText("took the place of another").waitFor();
  expect(await shown(page, "A60")).toBe("");
  await isInSheet(page);
  await tabTo(page, "Bring back", "F6");
  await press(page, "Enter");
  await expect.poll(() => shown(page, "A60").catch(() => ""), { timeout: 20_000 }).toBe("mine");
  await page.context().close();
}, 120_000);
