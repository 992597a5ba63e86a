/** Work is never lost unsaid: two tabs, a killed tab, a full, blocked, damaged or newer store. */
import { readFileSync } from "node:fs";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { richParts, zipped } from "../files/foreign-book";
import { launchBrowser } from "./launch";
import { clickCell, openSheet, ready, shown, typeInto } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** Reads, or puts, what stands in the page's store. */
function stored(page: Page, key: string, value?: unknown): Promise<unknown> {
  return page.evaluate(
    ([name, next]) =>
      new Promise((resolve, reject) => {
        const open = indexedDB.open("mistwright");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const kept = open.result.transaction("workbook", "readwrite").objectStore("workbook");
          const request = next === undefined ? kept.get(name) : kept.put(next, name);
          request.onsuccess = () => (open.result.close(), resolve(request.result));
          request.onerror = () => reject(request.error);
        };
      }),
    [key, value] as const,
  );
}

/** Waits until the whole workbook is written, not only the changes beside it. */
async function written(page: Page) {
  await page.waitForFunction(() => localStorage.getItem("mistwright.changes") === null);
  await expect.poll(() => stored(page, "workbook")).toBeTruthy();
}

async function openWith(script: () => void) {
  const context: BrowserContext = await browser.newContext();
  const page = await context.newPage();
  await page.addInitScript(script);
  await page.goto(address);
  await ready(page);
  return page;
}

async function again(page: Page) {
  await page.reload();
  await ready(page);
}

describe("saving", () => {
  test("happens for a change, and not for 20 moves of the selection", async () => {
    const page = await openWith(() => {
      const counted = globalThis as unknown as { saves: number };
      counted.saves = 0;
      for (const [owner, name] of [
        [Storage.prototype, "setItem"],
        [IDBObjectStore.prototype, "put"],
      ] as [Record<string, (...given: unknown[]) => unknown>, string][]) {
        const real = owner[name];
        owner[name] = function (...given) {
          counted.saves++;
          return real.apply(this, given);
        };
      }
    });
    const saves = () => page.evaluate(() => (globalThis as unknown as { saves: number }).saves);
    await clickCell(page, "B17");
    const before = await saves();
    for (let i = 0; i < 10; i++) {
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("ArrowRight");
    }
    await page.waitForTimeout(1500);
    expect(await saves()).toBe(before);
    await typeInto(page, "B17", "90");
    await written(page);
    expect(await saves()).toBeGreaterThan(before);
    await page.context().close();
  });

  test("a tab killed in mid-write keeps all that was typed", async () => {
    const page = await openWith(() => {
      // The whole never gets written: what is left are the changes beside it.
      const real = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (value, key) {
        if (key === "workbook" && !sessionStorage.getItem("mended")) throw new Error("killed");
        return real.call(this, value, key);
      };
    });
    await page.evaluate(() => sessionStorage.setItem("mended", "yes"));
    await typeInto(page, "B17", "70");
    await written(page);
    await page.evaluate(() => sessionStorage.removeItem("mended"));
    await typeInto(page, "B17", "90");
    await typeInto(page, "B18", "7%");
    await page.waitForTimeout(1500);
    await again(page);
    expect([await shown(page, "B17"), await shown(page, "B18")]).toEqual(["90", "7.0%"]);
    await page.context().close();
  });

  test("a tab killed after an undo that followed a whole write keeps the undo", async () => {
    const page = await openWith(() => {
      const real = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (value, key) {
        if (key === "workbook" && sessionStorage.getItem("killed")) throw new Error("killed");
        return real.call(this, value, key);
      };
    });
    await typeInto(page, "B17", "90");
    await written(page);
    await page.evaluate(() => sessionStorage.setItem("killed", "yes"));
    await page.keyboard.press("Control+z");
    expect(await shown(page, "B17")).toBe("60");
    await page.waitForTimeout(1500);
    await page.evaluate(() => sessionStorage.removeItem("killed"));
    await again(page);
    expect(await shown(page, "B17")).toBe("60");
    await page.context().close();
  });

  test("an undo is kept as well", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B17", "90");
    await page.keyboard.press("Control+z");
    expect(await shown(page, "B17")).toBe("60");
    await written(page);
    await again(page);
    expect(await shown(page, "B17")).toBe("60");
    await page.context().close();
  });

  test("a workbook of 20,000 rows opens and is kept", async () => {
    const { page } = await openSheet(browser, address);
    const cells: Record<string, string> = {};
    for (let row = 1; row <= 20_000; row++) {
      cells[`A${row}`] = String(row);
      cells[`B${row}`] = `=A${row}*2`;
      cells[`C${row}`] = `Oil ${row}`;
    }
    await typeInto(page, "B17", "61");
    await written(page);
    const sheets = [{ id: "s", name: "Long", colNumber: 26, rowNumber: 20_000, cells }];
    const kept = (await stored(page, "workbook")) as { data: object };
    const data = { ...kept.data, sheets };
    await stored(page, "workbook", { ...kept, data });
    await again(page);
    expect(await shown(page, "B20000")).toBe("40000");
    await typeInto(page, "A1", "5");
    await again(page);
    expect([await shown(page, "A1"), await shown(page, "B1")]).toEqual(["5", "10"]);
    await page.context().close();
  });
});

describe("two tabs", () => {
  test("one writes, the other reads and can take over; no edit is lost", async () => {
    const { page: first } = await openSheet(browser, address);
    await typeInto(first, "B17", "90");
    const second = await first.context().newPage();
    await second.goto(address);
    await ready(second);
    await second.getByText("This workbook is open in another tab").waitFor();
    expect(await shown(second, "B17")).toBe("90");
    await typeInto(second, "B17", "11");
    expect(await shown(second, "B17")).toBe("90");
    await second.getByRole("button", { name: "Pane" }).isVisible();
    await second.getByRole("button", { name: "Insert Size run" }).click();
    await second.getByText("Nothing was inserted: this tab only reads.").waitFor();

    // Left in the middle of typing: the taking over puts it into its cell.
    await clickCell(first, "B18");
    await first.waitForTimeout(150);
    await first.keyboard.type("8%");
    await second.getByRole("button", { name: "Take over here" }).click();
    await second.waitForEvent("load");
    await ready(second);
    await first.getByText("This workbook is open in another tab").waitFor();
    expect([await shown(second, "B17"), await shown(second, "B18")]).toEqual(["90", "8.0%"]);
    await typeInto(second, "B17", "12");
    await typeInto(first, "B17", "13");
    expect(await shown(first, "B17")).toBe("90");
    await again(second);
    expect(await shown(second, "B17")).toBe("12");
    await first.context().close();
  });

  test("where the browser has no locks, the tabs ask each other", async () => {
    const first = await openWith(() =>
      Object.defineProperty(navigator, "locks", { value: undefined }),
    );
    await typeInto(first, "B17", "90");
    const second = await first.context().newPage();
    await second.addInitScript(() =>
      Object.defineProperty(navigator, "locks", { value: undefined }),
    );
    await second.goto(address);
    await ready(second);
    await second.getByRole("button", { name: "Take over here" }).click();
    await second.waitForEvent("load");
    await ready(second);
    expect(await shown(second, "B17")).toBe("90");
    await first.getByText("This workbook is open in another tab").waitFor();
    await first.context().close();
  });
});

describe("a store that fails is told in words", () => {
  test("full: the last good state is kept, and a file can be saved", async () => {
    const page = await openWith(() => {
      const full = () => {
        throw new DOMException("no room", "QuotaExceededError");
      };
      if (sessionStorage.getItem("full")) {
        IDBObjectStore.prototype.put = full;
        Storage.prototype.setItem = full;
      }
    });
    await typeInto(page, "B17", "90");
    await written(page);
    await page.evaluate(() => sessionStorage.setItem("full", "yes"));
    await again(page);
    await typeInto(page, "B17", "91");
    await page.getByText("This browser cannot keep the work").waitFor();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.locator("#notices").getByRole("button", { name: "Save .xlsx" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("mistwright.xlsx");
    await page.evaluate(() => sessionStorage.removeItem("full"));
    await again(page);
    expect(await shown(page, "B17")).toBe("90");
    await page.context().close();
  });

  test("blocked: the page works, and says that nothing is kept", async () => {
    const page = await openWith(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("no store", "SecurityError");
      };
    });
    await page.getByText("This browser does not let the page keep work").waitFor();
    await typeInto(page, "B17", "90");
    expect(await shown(page, "B19")).toBe("4.5");
    await page.context().close();
  });

  test("damaged: the last that opened is shown, the damaged one can be saved", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B17", "90");
    await written(page);
    await again(page);
    await expect.poll(() => stored(page, "before")).toBeTruthy();
    const kept = (await stored(page, "workbook")) as object;
    await stored(page, "workbook", { ...kept, data: { sheets: "gone" } });
    await again(page);
    await page.getByText("What you see is the workbook as it was when it last opened.").waitFor();
    expect(await shown(page, "B17")).toBe("90");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save it as a file" }).click(),
    ]);
    expect(readFileSync(await download.path(), "utf8")).toContain('"sheets":"gone"');
    expect(await stored(page, "damaged")).toMatchObject({ data: { sheets: "gone" } });
    await page.context().close();
  });

  test("newer: it is left as it is, whatever is typed", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B17", "90");
    await written(page);
    const newer = { ...((await stored(page, "workbook")) as object), format: 99 };
    await stored(page, "workbook", newer);
    await again(page);
    await page.getByText("was kept by a newer Mistwright").waitFor();
    await typeInto(page, "B17", "70");
    await page.waitForTimeout(1500);
    expect(await stored(page, "workbook")).toEqual(newer);
    await page.context().close();
  });

  test("of an older version: it is taken over", async () => {
    const { page } = await openSheet(browser, address);
    await page.evaluate(() => {
      const data = globalThis.localSheet.model.exportData();
      const cells = { A1: "Kept long ago" };
      const text = JSON.stringify({ ...data, sheets: [{ ...data.sheets[0], cells }] });
      localStorage.setItem("mistwright.workbook", text);
      indexedDB.deleteDatabase("mistwright");
    });
    await again(page);
    expect(await shown(page, "A1")).toBe("Kept long ago");
    await page.context().close();
  });
});

test("changes that were recalled beside the whole are kept with those that follow", async () => {
  const { page } = await openSheet(browser, address);
  await written(page);
  // As if the page were always killed before the whole is written.
  const neverWhole = () =>
    page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new Error("killed");
      };
    });
  for (const [cell, text] of [
    ["B17", "90"],
    ["B18", "10%"],
    ["A30", "third"],
  ] as const) {
    await neverWhole();
    await typeInto(page, cell, text);
    await page.reload();
    await ready(page);
  }
  // By hand: 10 % of 90.
  expect([await shown(page, "B19"), await shown(page, "A30")]).toEqual(["9", "third"]);
  await page.context().close();
});

test("start anew gives an empty workbook, or the demo", async () => {
  const { page } = await openSheet(browser, address);
  await typeInto(page, "B17", "90");
  await page.getByRole("button", { name: "Start anew" }).click();
  await page.getByRole("button", { name: "An empty workbook" }).click();
  await page.waitForEvent("load");
  await ready(page);
  expect(await shown(page, "A1")).toBe("");
  await page.getByRole("button", { name: "Start anew" }).click();
  await page.getByRole("button", { name: "The demo" }).click();
  await page.waitForEvent("load");
  await ready(page);
  expect(await shown(page, "B17")).toBe("60");
  await page.context().close();
});

test("what was replaced can be had back, once for each replacing, also with the file that it came from", async () => {
  const { page } = await openSheet(browser, address);
  const buffer = Buffer.from(zipped(richParts()));
  const name = "oils.xlsx";
  await page.locator("#file").setInputFiles({ name, mimeType: "application/octet-stream", buffer });
  await page.getByRole("button", { name: "Go on" }).click();
  await page.waitForEvent("load");
  await ready(page);
  await typeInto(page, "B3", "20");
  await page.getByRole("button", { name: "Start anew" }).click();
  await page.getByRole("button", { name: "The demo" }).click();
  await page.waitForEvent("load");
  await ready(page);
  await page.getByRole("button", { name: "Bring back" }).click();
  await page.waitForEvent("load");
  await ready(page);
  expect(await shown(page, "B3")).toBe("20");
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save .xlsx" }).click(),
  ]);
  expect(download.suggestedFilename()).toBe(name);
  await page.getByRole("button", { name: "Bring back" }).waitFor();
  await again(page);
  await page.waitForTimeout(500);
  expect(await page.getByRole("button", { name: "Bring back" }).count()).toBe(0);
  await page.context().close();
});

test("who wants empty sheets is not offered the demo again", async () => {
  const { page } = await openSheet(browser, address);
  const demo = page.getByLabel("Filled with the invented demo");
  await demo.uncheck();
  await page.reload();
  await ready(page);
  expect(await demo.isChecked()).toBe(false);
  await demo.check();
  await page.reload();
  await ready(page);
  expect(await demo.isChecked()).toBe(true);
  await page.context().close();
});
