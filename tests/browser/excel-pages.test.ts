/**
 * The pages of the add-in as a host serves them, with a stand-in for Excel's own script: axe finds nothing, and the
 * functions answer, those that are loaded later, too.
 */
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import type { Browser, BrowserContextOptions, Page, Route } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { lateIds } from "../../functions/bind/list";
import { catalog } from "../../functions/catalog/catalog";
import { readCall, readResult } from "../../functions/catalog/examples";
import { zipOf } from "../release/zip";
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
  globalThis.runs = {};
  globalThis.CustomFunctions = {
    associate: (id, run) => (runs[id] = run),
    Error: class {
      constructor(code, message) { Object.assign(this, { code, message }); }
    },
  };
`;

const HOST = "https://sheets.example.org/";

const ofPart = /\/functions-late\.\w{10}\.js$/;

const straight = (route: Route, path: string) => route.fulfill({ path });

/** `part` says what becomes of a request for the functions that are loaded later, which the page's load waits for. */
async function openPage(
  name: string,
  options: BrowserContextOptions,
  part: (route: Route, path: string) => Promise<void> = straight,
) {
  const context = await browser.newContext({ viewport: { width: 320, height: 700 }, ...options });
  const page = await context.newPage();
  await page.route("**/*", (route) => {
    const url = new URL(route.request().url());
    if (url.hostname === "appsforoffice.microsoft.com")
      return route.fulfill({ contentType: "text/javascript", body: OFFICE });
    const path = join(folder, url.pathname);
    if (ofPart.test(url.pathname)) return part(route, path);
    return url.href.startsWith(HOST) && existsSync(path) ? route.fulfill({ path }) : route.abort();
  });
  await page.goto(HOST + name, { waitUntil: part === straight ? "load" : "domcontentloaded" });
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

/** Calls a function as Excel does: what it gave, and whether that was a promise. */
function call(page: Page, id: string, ...args: unknown[]) {
  return page.evaluate(
    async ([name, given]) => {
      const { runs } = window as unknown as {
        runs: Record<string, (...args: unknown[]) => unknown>;
      };
      const answer = runs[name](...given);
      return { isPromise: answer instanceof Promise, cells: (await answer) as unknown[][] };
    },
    [id, args] as const,
  );
}

// By hand: none or more right of one is sure.
const SURE = ["TRIOCHANCE", [[0]], [[1]]] as const;

describe("the functions that are loaded after the others", () => {
  test("are asked for at once; a call that comes before them waits, a later one does not", async () => {
    let asked = 0;
    let letCome = () => {};
    const mayCome = new Promise<void>((come) => (letCome = come));
    const page = await openPage("taskpane.html", {}, async (route, path) => {
      asked++;
      await mayCome;
      await route.fulfill({ path });
    });
    await page.getByRole("button", { name: "Insert Weighed" }).waitFor();
    expect(asked).toBe(1);
    const early = [call(page, ...SURE), call(page, ...SURE)];
    // By hand: 60 × 5 % = 3.
    const others = await call(page, "OILFOR", [[60]], [[0.05]]);
    expect(others).toEqual({ isPromise: false, cells: [[3]] });
    letCome();
    for (const answer of await Promise.all(early))
      expect(answer).toEqual({ isPromise: true, cells: [[1]] });
    expect(await call(page, ...SURE)).toEqual({ isPromise: false, cells: [[1]] });
    expect(asked).toBe(1);
    await page.context().close();
  });

  test.each<[how: string, fail: (route: Route) => Promise<void>]>([
    ["no network", (route) => route.abort()],
    ["no such file", (route) => route.fulfill({ status: 404, body: "not here" })],
    ["a page in its place", (route) => route.fulfill({ body: "<!doctype html>" })],
  ])("%s: the cell says so, and the next call tries again", async (_, fail) => {
    let isThere = false;
    const page = await openPage("taskpane.html", {}, (route, path) =>
      isThere ? route.fulfill({ path }) : fail(route),
    );
    for (let times = 0; times < 2; times++) {
      const { cells } = await call(page, ...SURE);
      expect(cells).toEqual([
        [{ code: "#N/A", message: expect.stringContaining("could not be loaded") }],
      ]);
    }
    isThere = true;
    expect((await call(page, ...SURE)).cells).toEqual([[1]]);
    expect(await call(page, ...SURE)).toEqual({ isPromise: false, cells: [[1]] });
    await page.context().close();
  });

  test("lie in the release beside the others, under a name that changes with them", () => {
    const names = Object.keys(unzipSync(zipOf(folder, "excel", "2026-11-30")));
    const parts = names.filter((name) => ofPart.test(name));
    expect(parts).toHaveLength(1);
    const first = readFileSync(join(folder, "functions.js"), "utf8");
    expect(first).toContain(parts[0].split(".")[1]);
    expect(names).toEqual(expect.arrayContaining(["excel/licences.txt", "excel/LICENSE.txt"]));
    const later = readFileSync(join(folder, parts[0].split("/")[1]), "utf8");
    for (const id of lateIds) expect(later).toContain(`"${id}"`);
  });
});

test("every example of every function, by the bundle that Excel loads", async () => {
  const page = await openPage("taskpane.html", {});
  for (const { id, examples } of catalog) {
    for (const { formula, result } of examples) {
      const { cells } = await call(page, id, ...readCall(formula).args);
      const expected = readResult(result);
      expect(
        cells.map((row) => row.length),
        formula,
      ).toEqual(expected.map((row) => row.length));
      for (const [i, { value, within }] of expected.flat().entries()) {
        const cell = cells.flat()[i];
        if (typeof value === "string") expect(cell, formula).toBe(value);
        else expect(Math.abs((cell as number) - value), formula).toBeLessThanOrEqual(within);
      }
    }
  }
  await page.context().close();
});
