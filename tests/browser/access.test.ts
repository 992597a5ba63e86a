/** Each part of the page in each of its states, in each look: axe finds nothing, and every control has a name of its own. */
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { foundByAxe, namelessOrTwice } from "./axe";
import { launchBrowser } from "./launch";
import { makeCopy, openSheet, ready, selectCell } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

const part = (page: Page, name: string) => page.getByRole("tab", { name }).click();
const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();

/** On a narrow page one of the two is in sight. */
async function turnTo(page: Page, side: "Pane" | "Sheet") {
  const button = page.getByRole("button", { name: side, exact: true });
  if (await button.isVisible()) await button.click();
}

async function typeCell(page: Page, xc: string, content: string) {
  await page.evaluate(
    ([at, text]) => {
      const { model } = globalThis.localSheet;
      const position = globalThis.o_spreadsheet.helpers.toCartesian(at);
      const sheetId = model.getters.getActiveSheetId();
      model.dispatch("UPDATE_CELL", { sheetId, ...position, content: text });
    },
    [xc, content] as const,
  );
}

/** Holds what the page loads later until it is let go. */
async function hold(page: Page): Promise<() => void> {
  let letGo = () => undefined as void;
  const held = new Promise<void>((done) => (letGo = done));
  await page.route("**/part.*.js", async (route) => {
    await held;
    await route.continue();
  });
  return letGo;
}

type State = [name: string, enter: (page: Page) => Promise<unknown>];

/** Of the pane, one after the other. */
const STATES: State[] = [
  ["the sheets", (page) => page.getByRole("button", { name: "Insert Weighed" }).waitFor()],
  [
    "a price list of one's own",
    async (page) => {
      await page.getByText("I have a price list already").click();
      await page.getByLabel("Freight of the order").waitFor();
    },
  ],
  [
    "a refusal, at its field",
    async (page) => {
      await press(page, "Take a run back");
      await page.getByText("type the number of the batch").waitFor();
    },
  ],
  [
    "a sheet is inserted",
    async (page) => {
      await press(page, "Insert Sizes");
      await page.getByText("Sizes is on the new sheet").waitFor({ state: "attached" });
      await turnTo(page, "Pane");
    },
  ],
  [
    "a part is loading",
    async (page) => {
      const letGo = await hold(page);
      await part(page, "Functions");
      await page.getByText("Loading...").waitFor();
      return letGo;
    },
  ],
  [
    "a button is at work",
    async (page) => {
      await part(page, "Hand over");
      const letGo = await hold(page);
      await press(page, "Repair");
      await page.getByText("Working...").waitFor();
      return letGo;
    },
  ],
  ["nothing to repair", (page) => page.getByText("Nothing to repair").waitFor()],
  [
    "the functions, two of them open",
    async (page) => {
      await part(page, "Functions");
      await page.locator(".functions summary").nth(0).click();
      await page.locator(".functions summary").nth(1).click();
    },
  ],
  [
    "nothing found",
    async (page) => {
      await page.getByLabel("What do you need?").fill("zzzzzz");
      await page.getByText("None fits").waitFor();
    },
  ],
  [
    "cells of one's own, something still needed",
    async (page) => {
      await page.getByLabel("What do you need?").fill("cost per fluid ounce");
      await page.locator("summary", { hasText: "MIST.FLOZCOST" }).click();
      await page.getByRole("button", { name: "Use my cells" }).click();
      await page.getByText("Still needed: price").waitFor();
    },
  ],
  [
    "cells of one's own, with answers and gaps",
    async (page) => {
      await page.getByLabel("Price of the pack").fill("40");
      await page.getByLabel("Size of the pack").fill("B9:B13");
      await page.getByText("4 of 5 lines have an answer.").waitFor();
      await page.getByText("Working of row 9").click();
    },
  ],
  [
    "no working",
    async (page) => {
      await part(page, "Working");
      await selectCell(page, "A1");
      await page.getByText("holds a text that was typed in").waitFor();
    },
  ],
  [
    "a working line by line",
    async (page) => {
      await typeCell(page, "F30", "=MIST.BASEFOR(MIST.BATCHFROM({60;120},5%),5%)");
      await selectCell(page, "F30");
      await page.getByText("2 functions, from the inside out:").waitFor();
    },
  ],
  [
    "a working with a problem",
    async (page) => {
      await typeCell(page, "F40", "=MIST.OILFOR(60,5)");
      await selectCell(page, "F40");
      await page.getByText("Why there is no number").waitFor();
    },
  ],
  [
    "a problem of the cell around it",
    async (page) => {
      await typeCell(page, "F41", '=MIST.OILFOR(60,5%)+"drops"');
      await selectCell(page, "F41");
      await page.getByText("F41 of Sizes shows").waitFor();
      await page.getByRole("heading", { name: "How to mend it", level: 2 }).waitFor();
    },
  ],
  [
    "a copy, with what was replaced",
    async (page) => {
      await part(page, "Hand over");
      await makeCopy(page);
      await page.getByText("What was replaced").click();
    },
  ],
];

const LOOKS: Record<string, BrowserContextOptions> = {
  light: { colorScheme: "light" },
  dark: { colorScheme: "dark" },
  "forced colours": { forcedColors: "active" },
  narrow: { colorScheme: "light", viewport: { width: 320, height: 700 } },
};

describe.each(Object.entries(LOOKS))("%s", (_, look) => {
  test("the pane", async () => {
    const { page, trouble } = await openSheet(browser, address, look);
    await turnTo(page, "Pane");
    for (const [name, enter] of STATES) {
      const leave = await enter(page);
      expect(await foundByAxe(page), name).toEqual([]);
      expect(await namelessOrTwice(page, "#pane"), name).toEqual([]);
      if (typeof leave === "function") leave();
    }
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("questions and messages", async () => {
    const { page } = await openSheet(browser, address, look);
    await press(page, "Start anew");
    const question = "Another workbook takes the place of the one on the screen. Which?";
    await page.getByRole("dialog", { name: question }).waitFor();
    expect(await foundByAxe(page)).toEqual([]);
    expect(await namelessOrTwice(page, "dialog")).toEqual([]);
    await page.keyboard.press("Escape");

    const buffer = Buffer.from("price,46");
    await page.locator("#file").setInputFiles({ name: "a.xlsx", mimeType: "text/csv", buffer });
    await page.getByRole("dialog", { name: "This is a text file" }).waitFor();
    expect(await foundByAxe(page)).toEqual([]);
    await page.keyboard.press("Escape");

    const second = await page.context().newPage();
    await second.goto(address);
    await ready(second);
    await second
      .getByRole("log", { name: "Messages" })
      .getByText("This workbook is open in another tab")
      .waitFor();
    expect(await foundByAxe(second)).toEqual([]);
    await page.context().close();
  });
});

test("a refusal is told at its field, until something else is told", async () => {
  const { page } = await openSheet(browser, address);
  const field = page.getByLabel("Batch to take back");
  const told = () =>
    field.evaluate((input) => [
      input.getAttribute("aria-invalid"),
      document.getElementById(input.getAttribute("aria-describedby") ?? "")?.textContent,
    ]);
  expect(await told()).toEqual([null, undefined]);
  await press(page, "Take a run back");
  await page.getByText("type the number of the batch").waitFor();
  expect(await told()).toEqual(["true", "Nothing was taken back: type the number of the batch."]);
  await press(page, "Insert Sizes");
  await page.getByText("Sizes is on the new sheet").waitFor();
  expect(await told()).toEqual([null, undefined]);
  await page.context().close();
});

test("what is told comes into lines that a screen reader knows already", async () => {
  const { page } = await openSheet(browser, address);
  const pane = page.locator("#pane");
  // The last line of the pane, with nothing in it.
  await page.getByRole("button", { name: "Insert Weighed" }).waitFor();
  expect(await pane.locator("footer").ariaSnapshot()).toMatch(/^- status$/m);
  expect(await page.locator("main").ariaSnapshot()).toMatch(/^\s*- log "Messages"$/m);
  // With Working open, going through the sheet is heard: the canvas itself is silent.
  await part(page, "Working");
  await page.getByText("A1 of Start here holds").waitFor();
  await selectCell(page, "B18");
  await page.keyboard.press("Shift+F6");
  await page.keyboard.press("ArrowDown");
  await pane.getByRole("status").filter({ hasText: "B19 of Start here shows 3 g" }).waitFor();
  await page.context().close();
});
