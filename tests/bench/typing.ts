/** What a person waits for in a real browser: the page, and each key in a workbook of 50,000 cells. */
import { resolve } from "node:path";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { launchBrowser } from "../browser/launch";
import { openSheet, ready, selectCell, valueOf } from "../browser/sheet";
import { type Case, median, plainly } from "./measure";
import { longBook } from "./page";

/** As it comes out of its zip: opened from a file. */
const folder = pathToFileURL(resolve("dist/localsheet/")).href;
const address = `${folder}/index.html`;

const STARTS = 5;

declare global {
  var keyWaits: number[];
}

async function inBrowser<T>(
  use: (browser: Awaited<ReturnType<typeof launchBrowser>>) => Promise<T>,
) {
  const browser = await launchBrowser();
  try {
    return await use(browser);
  } finally {
    await browser.close();
  }
}

/** From asking for the page until its grid and its pane are there; the first start fills the browser's caches. */
function starts() {
  return inBrowser(async (browser) => {
    const taken: number[] = [];
    for (let i = 0; i <= STARTS; i++) {
      const began = performance.now();
      const { page } = await openSheet(browser, address, {}, folder);
      taken.push(performance.now() - began);
      await page.context().close();
    }
    return { "page start": plainly(median(taken.slice(1))) };
  });
}

/** From each key until the browser has painted what came of it. */
async function watchKeys(page: Page) {
  await page.evaluate(() => {
    globalThis.keyWaits = [];
    const painted = (pressed: number) => () => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => globalThis.keyWaits.push(performance.now() - pressed);
      port2.postMessage(0);
    };
    addEventListener("keydown", (e) => requestAnimationFrame(painted(e.timeStamp)), true);
  });
}

async function keys() {
  const buffer = Buffer.from(await toXlsx(newModel(longBook())));
  return inBrowser(async (browser) => {
    const { page } = await openSheet(browser, address, {}, folder);
    const mimeType = "application/octet-stream";
    await page.locator("#file").setInputFiles({ name: "long.xlsx", mimeType, buffer });
    await page.getByRole("button", { name: "Go on" }).click();
    await page.waitForEvent("load", { timeout: 120_000 });
    await ready(page);
    // By hand: 5 % of 25,000.
    if ((await valueOf(page, "B25000")) !== 1250) throw new Error("the workbook is not worked out");
    await selectCell(page, "A100");
    await watchKeys(page);
    for (let line = 0; line < 20; line++) {
      for (const key of [...String(100 + line), "Enter", "ArrowRight", "ArrowDown", "ArrowLeft"]) {
        await page.keyboard.press(key);
        await page.waitForTimeout(60);
      }
    }
    const waits = (await page.evaluate(() => globalThis.keyWaits)).sort((a, b) => a - b);
    if (waits.length < 140) throw new Error(`only ${waits.length} keys were painted`);
    return {
      "key to paint, p95": plainly(waits[Math.floor(waits.length * 0.95)] ?? NaN),
      "key to paint, the longest": plainly(waits.at(-1) ?? NaN),
    };
  });
}

export const typing: Record<string, Case> = {
  "in a browser": { beside: "one second", goal: 1, runs: 1, other: 1000, ours: starts },
  "in a browser, 50,000 cells": {
    beside: "a tenth of a second",
    goal: 1,
    runs: 1,
    other: 100,
    ours: keys,
  },
};
