/** The site of the docs in a browser: a picture is enlarged by the keyboard alone. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { builtSite } from "../site";
import { launchBrowser } from "./launch";

const BASE = "/mistwright/";
const HOST = "https://docs.example.org";
const site = builtSite(BASE);
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

test.each([
  { width: 1280, height: 800 },
  { width: 390, height: 800 },
])("a picture of a sheet on a page %o", async (viewport) => {
  const page = await browser.newPage({ viewport });
  await page.route("**/*", (route) => {
    const { origin, pathname } = new URL(route.request().url());
    const path = join(site, pathname.slice(BASE.length));
    return origin === HOST && existsSync(path) ? route.fulfill({ path }) : route.abort();
  });
  await page.goto(`${HOST}${BASE}sheets/materials.html`, { waitUntil: "networkidle" });
  const name = "Enlarge the picture: Materials of the invented workshop";
  const link = page.getByRole("link", { name, exact: true });
  const shown = await link.getByRole("img").boundingBox();

  const isReached = () => link.evaluate((each) => each.matches(":focus-visible"));
  // The first key press offers to skip what stands above the page's text.
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  for (let i = 0; i < 20 && !(await isReached()); i++) await page.keyboard.press("Tab");
  expect(await isReached()).toBe(true);
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/assets\/materials\.[\w-]+\.png$/);
  // Alone, it is as wide as it was taken.
  const naturalWidth = await page
    .locator("img")
    .evaluate((image: HTMLImageElement) => image.naturalWidth);
  expect(naturalWidth).toBeGreaterThan((shown?.width ?? Infinity) * 1.2);
  await page.goBack();
  await link.waitFor();
  await page.close();
});
