/**
 * npm run pictures: the pictures of the guides, docs/pictures/*.png, of the local sheet with the whole workbook
 * in it. Look at them before you commit them.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import type { Page } from "playwright-core";
import { templates } from "../../taskpane/templates/index";
import { launchBrowser } from "./launch";
import { inFewColours } from "./small-png";
import { openSheet } from "./sheet";

const FOLDER = "docs/pictures";
/** A page of a guide loads quickly, also far from a city. */
const LARGEST_KB = 150;
/** The sheets that the guides show. */
const SHOWN = ["Materials", "Base comparison", "Price list", "Bench sheet"];

/** Brings a sheet into sight and lets the engine draw it. */
async function turnTo(page: Page, name: string) {
  await page.evaluate((wanted) => {
    const { model } = globalThis.localSheet;
    const sheetId = model.getters.getSheetIdByName(wanted);
    if (sheetId === undefined) throw new Error(`no sheet "${wanted}" is in the workbook`);
    model.dispatch("ACTIVATE_SHEET", {
      sheetIdFrom: model.getters.getActiveSheetId(),
      sheetIdTo: sheetId,
    });
    model.selection.selectCell(0, 0);
  }, name);
  // The pointer away from what shows a hint under it.
  await page.mouse.move(640, 10);
  await page.waitForTimeout(1500);
}

async function take(page: Page, name: string) {
  const path = `${FOLDER}/${name.toLowerCase().replaceAll(" ", "-")}.png`;
  const png = inFewColours(await page.screenshot());
  writeFileSync(path, png);
  const size = png.length / 1000;
  console.log(`${path}: ${size.toFixed(0)} kB`);
  if (size > LARGEST_KB) throw new Error(`${path} is larger than ${LARGEST_KB} kB`);
}

mkdirSync(FOLDER, { recursive: true });
const browser = await launchBrowser();
try {
  const address = pathToFileURL("dist/localsheet/").href;
  // As wide as the guides show it; light, as most readers have their page.
  const view = { viewport: { width: 1280, height: 900 }, colorScheme: "light" } as const;
  const { page, trouble } = await openSheet(browser, `${address}index.html`, view, address);
  await take(page, "Start here");
  await page.getByRole("button", { name: "Insert the whole workbook" }).click();
  await page.getByText(/sheets were added/).waitFor({ timeout: 120_000 });
  for (const name of SHOWN) {
    if (!templates.some(({ title }) => title === name)) continue;
    await turnTo(page, name);
    await take(page, name);
  }
  const setUp = await browser.newPage(view);
  await setUp.goto(pathToFileURL("dist/excel/set-up.html").href);
  await setUp.getByRole("textbox").fill("https://sheets.example.org/mistwright");
  await take(setUp, "Set up");
  if (trouble.length > 0) throw new Error(trouble.join("\n"));
} finally {
  await browser.close();
}
