/** Takes the pictures of the guides: each sheet of the whole workbook, and the pane at work beside the local sheet. */
import type { Browser, Locator, Page, PageScreenshotOptions } from "playwright-core";
import { templates } from "../../taskpane/templates/index";
import { ownSheet } from "./own-sheet";
import { clickCell, openSheet, spotOf, typeInto } from "./sheet";

/** As wide as the guides show it in letters that can be read; light, as most readers have their page. */
const VIEW = { viewport: { width: 1100, height: 760 }, colorScheme: "light" } as const;
/** The first picture of all. */
const WIDE = { width: 1280, height: 900 };
/** The cells of a sheet alone. */
const TALL = { width: 1180, height: 900 };
/** So that every chart is in sight, wherever it stands on its sheet. */
const HUGE = { width: 2600, height: 2400 };

/** After the demo's last batch: what is past its use by is so on one day and not on another. */
const TODAY = new Date(Date.UTC(2026, 10, 25, 12));

type Clip = NonNullable<PageScreenshotOptions["clip"]>;
type Take = (what: Page | Locator, name: string, clip?: Clip) => Promise<void>;

/** Where the pages are that pictures are taken of. */
export interface Pictured {
  sheet: string;
  /** What all that the sheet asks for begins with. */
  within: string;
  setUp: string;
}

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

/** The pane at work on the first sheet. */
async function takePane(page: Page, take: Take) {
  await page.getByRole("button", { name: "Insert Weighed" }).waitFor();
  await page.waitForTimeout(1500);
  await take(page, "Start here");
  await page.getByRole("tab", { name: "Functions" }).click();
  await page.getByLabel("What do you need?").fill("poured too much oil");
  const found = page.locator(".functions details").first();
  await found.locator("summary").click();
  await page.waitForTimeout(500);
  await take(page, "Functions");
  await page.getByRole("tab", { name: "Working" }).click();
  await clickCell(page, "B19");
  await page.getByText("B19 of Start here shows 3 g").waitFor();
  await take(page, "Working");
  await typeInto(page, "C19", "=MIST.OILFOR(60,5)");
  const { x, y } = await spotOf(page, "C19");
  await page.mouse.move(x, y);
  await page.getByText("load must be from 0 % to 100 %").first().waitFor();
  await take(page, "Error", { x: 0, y: y - 100, width: 780, height: 160 });
  await page.getByRole("tab", { name: "Hand over" }).click();
  await page.mouse.move(640, 10);
  await take(page, "Hand over");
  await ownSheet(page);
  await clickCell(page, "D6");
  await page.getByRole("tab", { name: "Functions" }).click();
  await page.getByLabel("What do you need?").fill("cost per fluid ounce");
  const cost = page.locator("li").filter({ hasText: "MIST.FLOZCOST" }).first();
  await cost.locator("summary").click();
  await cost.getByRole("button", { name: "Use my cells" }).click();
  await cost.getByText("57 of 60 lines have an answer.").waitFor();
  await cost.getByRole("button", { name: "Write 60 formulas" }).scrollIntoViewIfNeeded();
  await take(page, "My own sheet");
}

/** Hands over each picture with the name of its file. */
export async function takePictures(
  browser: Browser,
  { sheet, within, setUp }: Pictured,
  keep: (name: string, png: Buffer) => unknown,
) {
  const take: Take = async (what, name, clip) => {
    const png = await what.screenshot(clip && { clip });
    await keep(`${name.toLowerCase().replaceAll(" ", "-")}.png`, png);
  };
  const open = () => openSheet(browser, sheet, VIEW, within, TODAY);
  const first = await open();
  await takePane(first.page, take);

  const { page, trouble } = await open();
  await page.getByRole("button", { name: "Insert the whole workbook" }).click();
  await page.getByText(/sheets were added/).waitFor({ timeout: 120_000 });
  await page.setViewportSize(WIDE);
  await turnTo(page, "Price list");
  await take(page, "Whole workbook");
  await page.setViewportSize(TALL);
  for (const { title } of templates) {
    await turnTo(page, title);
    await take(page.locator(".o-grid"), title);
  }
  await page.setViewportSize(HUGE);
  for (const { title } of templates.filter(({ charts }) => charts)) {
    await turnTo(page, title);
    await take(page.locator(".o-figure"), `${title} chart`);
  }
  const pageOfSetUp = await browser.newPage(VIEW);
  await pageOfSetUp.goto(setUp);
  await pageOfSetUp.getByRole("textbox").fill("https://sheets.example.org/mistwright");
  await take(pageOfSetUp, "Set up");
  const said = [...first.trouble, ...trouble];
  if (said.length > 0) throw new Error(said.join("\n"));
}
