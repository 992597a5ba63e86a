/** A unit in another spelling, a pack's text alone, and words in a number's cell, by the keyboard. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { placeOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { launchBrowser } from "./launch";
import { clickCell, keyInto, openSheet, shown, spotOf, valueOf } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const materials = templates.find(({ title }) => title === "Materials") as (typeof templates)[0];
/** The cell of the first line of a column. */
const cell = (name: string) => placeOf(materials, `materials.${name}:first`).replaceAll("$", "");

test("Materials takes pounds, a pack's text alone, and says what is wrong with words", async () => {
  const { page, trouble } = await openSheet(browser, address);
  await page.getByRole("button", { name: "Insert Materials", exact: true }).click();
  await page.getByText("Materials is on the new sheet").waitFor();
  await keyInto(page, cell("size"), "8");
  await keyInto(page, cell("unit"), "lbs.");
  expect(await valueOf(page, cell("unit"))).toBe("lb");
  const told = await valueOf(page, cell("perg"));
  expect(told).toBeTypeOf("number");
  await keyInto(page, cell("unit"), "bushels");
  await page.getByText("takes one of these units, in any spelling: mg, g, kg").waitFor();
  await page.getByRole("button", { name: "Close", exact: true }).click();
  expect(await valueOf(page, cell("unit"))).toBe("lb");

  await keyInto(page, cell("size"), "2 x 4 lb");
  await clickCell(page, cell("unit"));
  await page.keyboard.press("Delete");
  expect(await valueOf(page, cell("size"))).toBe("2 x 4 lb");
  expect(await valueOf(page, cell("perg"))).toBeCloseTo(told as number, 12);

  await keyInto(page, cell("price"), "about 5");
  expect(await shown(page, cell("landed"))).toBe("type a number: Price of a pack ($)");
  const { x, y } = await spotOf(page, cell("landed"));
  await page.mouse.move(x, y, { steps: 4 });
  await page
    .locator(".o-error-tooltip", { hasText: "type a number: Price of a pack ($)" })
    .waitFor();
  expect(trouble).toEqual([]);
});
