/** The pages of the add-in as a host serves them, with a stand-in for Excel's own script: axe finds nothing. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { Browser, BrowserContextOptions } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { foundByAxe, namelessOrTwice } from "./axe";
import { built } from "./build";
import { launchBrowser } from "./launch";

const folder = built("excel");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** As much of it as the pane asks for before a button is pressed; there is no workbook behind it. */
const OFFICE = `
  globalThis.Office = {
    HostType: { Excel: "Excel" },
    EventType: {},
    context: {},
    onReady: (ready) => Promise.resolve({ host: "Excel" }).then(ready),
  };
  globalThis.CustomFunctions = { associate() {}, Error };
`;

const HOST = "https://sheets.example.org/";

async function openPage(name: string, options: BrowserContextOptions) {
  const context = await browser.newContext({ viewport: { width: 320, height: 700 }, ...options });
  const page = await context.newPage();
  await page.route("**/*", (route) => {
    const url = new URL(route.request().url());
    if (url.hostname === "appsforoffice.microsoft.com")
      return route.fulfill({ contentType: "text/javascript", body: OFFICE });
    const path = join(folder, url.pathname);
    return url.href.startsWith(HOST) && existsSync(path) ? route.fulfill({ path }) : route.abort();
  });
  await page.goto(HOST + name);
  return page;
}

/** The guides and sheets, and some functions, which are all alike; in the other looks one of each kind. */
function helpPages({ colorScheme }: BrowserContextOptions): string[] {
  const all = readdirSync(join(folder, "help"), { recursive: true, encoding: "utf8" });
  const pages = all.filter((name) => name.endsWith(".html") && !/reference.[^p]/.test(name));
  expect(pages.length).toBeGreaterThan(25);
  if (colorScheme === "light") return pages;
  return ["errors.html", "reference/oilfor.html", "sheets/materials.html", "pricing.html"];
}

describe.each<BrowserContextOptions>([
  { colorScheme: "light" },
  { colorScheme: "dark" },
  { forcedColors: "active" },
])("%o", (look) => {
  test("the pane", async () => {
    const page = await openPage("taskpane.html", look);
    await page.getByRole("button", { name: "Insert Weighed" }).waitFor();
    for (const part of ["Sheets", "Functions", "Working", "Hand over"]) {
      await page.getByRole("tab", { name: part }).click();
      if (part === "Functions") await page.getByLabel("What do you need?").waitFor();
      expect(await foundByAxe(page), part).toEqual([]);
      expect(await namelessOrTwice(page, "main"), part).toEqual([]);
    }
    await page.getByRole("button", { name: "Repair" }).click();
    await page.locator(".status.failed").waitFor();
    expect(await foundByAxe(page)).toEqual([]);
    await page.context().close();
  });

  test("the help pages, as wide as a telephone", async () => {
    const page = await openPage("help/hosts.html", look);
    const found: string[] = [];
    for (const name of helpPages(look)) {
      await page.goto(`${HOST}help/${name}`);
      found.push(...(await foundByAxe(page)).map((fault) => `${name}: ${fault}`));
    }
    expect(found).toEqual([]);
    await page.context().close();
  }, 240_000);

  test("the set-up page, and its refusal", async () => {
    const page = await openPage("set-up.html", look);
    expect(await foundByAxe(page)).toEqual([]);
    const field = page.getByLabel("The folder's address there");
    await field.fill("http://sheets.example.org");
    await page.getByRole("button", { name: "Save manifest.xml" }).press("Enter");
    await page.getByText("Excel loads add-ins over https alone").waitFor();
    expect(await foundByAxe(page)).toEqual([]);
    // Told at the field, too.
    expect(
      await field.evaluate((input) => [
        input.getAttribute("aria-invalid"),
        document.getElementById(input.getAttribute("aria-describedby") ?? "")?.textContent,
      ]),
    ).toEqual(["true", expect.stringContaining("give an address that begins with https://")]);
    const isWider = "document.documentElement.scrollWidth > innerWidth";
    expect(await page.evaluate(isWider)).toBe(false);
    await page.context().close();
  });
});
