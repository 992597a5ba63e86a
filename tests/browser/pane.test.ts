/** The pane in windows of several sizes, and its search. */
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { makeCopy, openSheet, selectCell } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** WCAG 2.2, 1.4.10 Reflow has 320 px; 1.4.4 Resize text has 200 %; 1.4.12 Text spacing has the styles. */
const WINDOWS: [name: string, options: BrowserContextOptions, style?: string][] = [
  ["a desk", { viewport: { width: 1280, height: 800 } }],
  ["a desk at 200 %", { viewport: { width: 640, height: 480 }, deviceScaleFactor: 2 }],
  ["320 px", { viewport: { width: 320, height: 700 } }],
  [
    "320 px, letters, words and lines apart",
    { viewport: { width: 320, height: 700 } },
    ".pane * { letter-spacing: 0.12em !important; word-spacing: 0.16em !important; line-height: 1.5 !important }" +
      ".pane p { margin-bottom: 2em !important }",
  ],
];

/** A list of one's own with a heading that is longer than the pane is wide. */
const LONG =
  "What the supplier asks for one pack, before freight and before what is taken off for ten";

async function ownList(page: Page) {
  const cells = [
    ["Item", LONG, "Size"],
    ...[1, 2, 3].map((i) => [`Oil ${i}`, `${40 + i}`, "1 gal"]),
  ];
  await page.evaluate((rows) => {
    const { model } = globalThis.localSheet;
    const sheetIdFrom = model.getters.getActiveSheetId();
    model.dispatch("CREATE_SHEET", { sheetId: "own", position: 1, name: "Costs" });
    model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo: "own" });
    rows.forEach((line, row) =>
      line.forEach((content, col) =>
        model.dispatch("UPDATE_CELL", { sheetId: "own", row, col, content }),
      ),
    );
    // Its working has a table.
    const content = "=MIST.BLENDOF({60;40},{0.85;1.02})";
    model.dispatch("UPDATE_CELL", { sheetId: "own", row: 29, col: 9, content });
  }, cells);
}

/** What the pane has wider than itself. */
function cutOff(page: Page) {
  return page.evaluate(() => {
    const pane = document.querySelector("#pane") as HTMLElement;
    const { left, right } = pane.getBoundingClientRect();
    const boxes = [pane, document.body, ...pane.querySelectorAll("[role=tabpanel]:not([hidden])")]
      .filter((box) => box.scrollWidth > box.clientWidth)
      .map((box) => `${box.tagName} ${box.id} ${box.scrollWidth} > ${box.clientWidth}`);
    const controls = [...pane.querySelectorAll("button, input, select, summary, table")]
      .filter((each) => each.checkVisibility())
      .filter((each) => {
        const box = each.getBoundingClientRect();
        return box.left < left || box.right > right;
      })
      .map((each) => each.outerHTML.slice(0, 120));
    return [...boxes, ...controls];
  });
}

describe.each(WINDOWS)("the pane in %s", (_, options, style) => {
  test("is not cut off sideways, whatever it shows", async () => {
    const { page } = await openSheet(browser, address, options);
    if (style) await page.addStyleTag({ content: style });
    await ownList(page);
    const turn = page.getByRole("button", { name: "Pane", exact: true });
    if (await turn.isVisible()) await turn.click();
    const part = (name: string) => page.getByRole("tab", { name }).click();

    await page.getByText("I have a price list already").click();
    await page.getByLabel("Sheet with your price list").selectOption("Costs");
    await page.getByLabel("Price of a pack").selectOption(LONG);
    expect(await cutOff(page)).toEqual([]);

    await part("Functions");
    await page.getByLabel("What do you need?").fill("FLOZCOST");
    await page.locator("summary", { hasText: "MIST.FLOZCOST" }).click();
    await selectCell(page, "A2");
    await page.getByRole("button", { name: "Use my cells" }).click();
    await page.getByLabel("Price of the pack").fill("B2:B4");
    await page.getByLabel("Size of the pack").fill("C2:C4");
    await page.getByText("3 of 3 lines have an answer.").waitFor();
    await page.getByText("Working of row 2").click();
    expect(await cutOff(page)).toEqual([]);

    await part("Working");
    await selectCell(page, "J30");
    await page.getByText("J30 of Costs shows").waitFor();
    expect(await cutOff(page)).toEqual([]);

    await part("Hand over");
    await makeCopy(page);
    await page.getByText("What was replaced").click();
    expect(await cutOff(page)).toEqual([]);
    // Room to read in, between the tabs and what is told.
    const panel = await page.locator("#part-hand-over").boundingBox();
    expect(panel?.height).toBeGreaterThan(150);
    await page.context().close();
  });
});

test.each(["light", "dark"] as const)("%s, one sees where to type", async (colorScheme) => {
  const { page } = await openSheet(browser, address, { colorScheme });
  await page.getByRole("tab", { name: "Functions" }).click();
  const search = page.getByLabel("What do you need?");
  const colours = await search.evaluate((input) => {
    const { borderColor, backgroundColor } = getComputedStyle(input);
    const paper = getComputedStyle(document.querySelector("#pane") as Element).backgroundColor;
    return [borderColor, backgroundColor, paper];
  });
  const [edge, inside, outside] = colours.map(lightness);
  // WCAG 2.2, 1.4.11 Non-text contrast: 3 to 1.
  expect(contrast(edge, inside)).toBeGreaterThan(3);
  expect(contrast(edge, outside)).toBeGreaterThan(3);
  await page.context().close();
});

/** WCAG 2.2, relative luminance of "rgb(1, 2, 3)". */
function lightness(colour: string): number {
  const [red, green, blue] = (colour.match(/\d+/g) ?? []).map((part) => {
    const share = Number(part) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** WCAG 2.2, contrast ratio. */
const contrast = (a: number, b: number) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);

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
