import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { clickCell, makeCopy, openSheet } from "./sheet";

const address = inject("address");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const SIZES = [
  { width: 320, height: 700 },
  { width: 1280, height: 800 },
];
const looks = SIZES.flatMap((viewport) =>
  (["light", "dark"] as const).map((colorScheme) => ({ viewport, colorScheme })),
);

describe.each(looks)(
  "the pane at $viewport.width px, $colorScheme",
  ({ viewport, colorScheme }) => {
    test("nothing is cut off sideways, and axe finds nothing to mend", async () => {
      const { page } = await openSheet(browser, address, { viewport, colorScheme });
      const turn = (side: string) => page.getByRole("button", { name: side, exact: true }).click();
      const isNarrow = viewport.width < 760;
      if (isNarrow) await turn("Pane");
      await page.evaluate(axe);
      for (const part of ["Sheets", "Functions", "Working", "Hand over"]) {
        await page.getByRole("tab", { name: part }).click();
        if (part === "Functions") await page.locator(".functions summary").first().click();
        if (part === "Working" && isNarrow) await turn("Sheet");
        if (part === "Working") await clickCell(page, "B19");
        if (part === "Working" && isNarrow) await turn("Pane");
        if (part === "Working") await page.getByText("Answer: 3").waitFor();
        if (part === "Hand over") await makeCopy(page);
        const wide = await page.evaluate(() => {
          return [...document.querySelectorAll("#pane, #pane [role=tabpanel]:not([hidden]), body")]
            .filter((box) => box.scrollWidth > box.clientWidth)
            .map((box) => `${box.tagName} ${box.id} ${box.scrollWidth} > ${box.clientWidth}`);
        });
        expect(wide).toEqual([]);
        const found = await page.evaluate(async () => {
          const { violations } = await (
            globalThis as unknown as { axe: typeof import("axe-core") }
          ).axe.run("#pane, header");
          return violations.map(
            ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`,
          );
        });
        expect(found).toEqual([]);
      }
      await page.context().close();
    });
  },
);

test("the parts are reached by the keyboard alone", async () => {
  const { page } = await openSheet(browser, address);
  await page.getByRole("tab", { name: "Sheets" }).focus();
  await page.keyboard.press("ArrowRight");
  expect(await page.getByRole("tab", { name: "Functions" }).getAttribute("aria-selected")).toBe(
    "true",
  );
  // The list of functions is loaded when it is first opened.
  await page.getByLabel("What do you need?").waitFor();
  await page.keyboard.press("Tab");
  await page.keyboard.type("drops");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  const open = page.locator(".functions details[open]");
  expect(await open.locator("summary code").textContent()).toMatch(/^MIST\.DROP/);
  await page.context().close();
});

test("a search that fits nothing says what to try", async () => {
  const { page } = await openSheet(browser, address);
  await page.getByRole("tab", { name: "Functions" }).click();
  await page.getByLabel("What do you need?").fill("zzzzzz");
  await page.getByText("None fits. Try one plain word").waitFor();
  await page.context().close();
});
