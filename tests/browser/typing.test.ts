/** What a person types, by the keyboard of a real browser, into every input of every template. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { isDate, isPercentage } from "../../localsheet/typed";
import { drawingOf, placeOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { launchBrowser } from "./launch";
import { clickCell, keyInto, openSheet, shown, typeInto, valueOf } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** Spellings, and what each comes to. By hand; .05 and 0.05 as Microsoft's text has it (localsheet/typed.ts). */
const PERCENTAGES: [string, number][] = [
  ["5%", 0.05],
  ["6 %", 0.06],
  ["5", 0.05],
  [".06", 0.06],
  ["0.05", 0.05],
  ["5,5 %", 0.055],
  ["=7%", 0.07],
];
const MONEY: [string, number][] = [
  ["$46", 46],
  ["47.50", 47.5],
  ["1,046.00", 1046],
  ["46,25", 46.25],
];
// Serial numbers of dates count the days since 30 December 1899.
const day = (Date.UTC(2026, 10, 25) - Date.UTC(1899, 11, 30)) / 86_400_000;
const DATES: [string, number][] = [
  ["2026-11-25", day],
  ["11/26/2026", day + 1],
  ["27 Nov 2026", day + 2],
];

/** As people write in browsers of other languages; by hand. */
const ELSEWHERE: [locale: string, kind: string, spellings: [string, number][]][] = [
  [
    "de-DE",
    "percentage",
    [
      ["5,5 %", 0.055],
      ["6,25", 0.0625],
      ["0,07", 0.07],
      ["8%", 0.08],
    ],
  ],
  [
    "de-DE",
    "amount of money",
    [
      ["1.046,50", 1046.5],
      ["46,25 €", 46.25],
      ["47.50", 47.5],
    ],
  ],
  [
    "de-DE",
    "date",
    [
      ["25.11.2026", day],
      ["26. Nov. 2026", day + 1],
      ["05.12.2026", day + 10],
    ],
  ],
  [
    "fr-FR",
    "percentage",
    [
      ["5,5\u202f%", 0.055],
      ["6,25", 0.0625],
      [",07", 0.07],
    ],
  ],
  [
    "fr-FR",
    "amount of money",
    [
      ["1\u202f046,50", 1046.5],
      ["1 046,25 €", 1046.25],
    ],
  ],
  [
    "fr-FR",
    "date",
    [
      ["25/11/2026", day],
      ["26 novembre 2026", day + 1],
      ["5 déc. 2026", day + 10],
    ],
  ],
];

const isMoney = (format: string) => /^#,##0\.00/.test(format);
const KINDS: [string, (format: string) => boolean, [string, number][]][] = [
  ["percentage", isPercentage, PERCENTAGES],
  ["amount of money", isMoney, MONEY],
  ["date", isDate, DATES],
];

/** Every input of the kind; the lines of a list that grows are alike, so its first one stands for all. */
function inputsOf(
  template: (typeof templates)[number],
  fits: (format: string) => boolean,
  /** What is in the workbook already, which it draws from. */
  there: readonly (typeof templates)[number][] = [],
) {
  const others = plannedSheets(there.map((each) => ({ sheet: each.title, template: each })));
  const { cells, lists = [] } = drawingOf(template, true, others);
  const isLaterLine = (row: number, column: number) =>
    lists.some(
      (list) =>
        row > list.row + 1 &&
        row < list.row + list.rows &&
        column >= list.column &&
        column < list.column + list.columns,
    );
  return cells
    .filter(({ look, format }) => look === "input" && format && fits(format))
    .filter(({ row, column }) => !isLaterLine(row, column))
    .map(({ row, column }) => cellName(row, column));
}

async function insert(page: Page, title: string) {
  await page.getByRole("button", { name: `Insert ${title}`, exact: true }).click();
  await page.getByText(`${title} is on the new sheet`).waitFor();
}

describe("every spelling in every input of every template", () => {
  test.each(KINDS)("%s", { timeout: 240_000 }, async (kind, fits, spellings) => {
    const { page, trouble } = await openSheet(browser, address);
    const wrong: string[] = [];
    let typed = 0;
    const there: (typeof templates)[number][] = [];
    for (const template of templates) {
      const cells = inputsOf(template, fits, there);
      if (cells.length === 0) continue;
      await insert(page, template.title);
      there.push(template);
      for (const cell of cells) {
        for (const [spelling, value] of spellings) {
          await keyInto(page, cell, spelling);
          const got = await valueOf(page, cell);
          typed++;
          if (typeof got !== "number" || Math.abs(got - value) > 1e-12)
            wrong.push(`${template.title} ${cell}: ${spelling} is ${String(got)}`);
        }
      }
    }
    expect(wrong).toEqual([]);
    // At least one input of each kind, so that the test cannot pass by looking at none.
    expect(typed, kind).toBeGreaterThanOrEqual(spellings.length);
    expect(trouble).toEqual([]);
    await page.context().close();
  });
});

describe("the first input of each kind, in browsers of other languages", () => {
  test.each(ELSEWHERE)("%s, %s", async (locale, kind, spellings) => {
    const [, fits] = KINDS.find(([name]) => name === kind) as (typeof KINDS)[number];
    const template = templates.find((each) => inputsOf(each, fits).length > 0);
    const [cell] = inputsOf(template as (typeof templates)[number], fits);
    const { page, trouble } = await openSheet(browser, address, { locale });
    await insert(page, template?.title ?? "");
    for (const [spelling, value] of spellings) {
      await keyInto(page, cell, spelling);
      expect(await valueOf(page, cell), spelling).toBeCloseTo(value, 12);
    }
    expect(trouble).toEqual([]);
    await page.context().close();
  });
});

describe("typing", () => {
  test("in the formula bar as in the cell", async () => {
    const { page } = await openSheet(browser, address);
    for (const [spelling, value] of PERCENTAGES) {
      await clickCell(page, "B18");
      await page.locator(".o-topbar-composer .o-composer").click();
      await page.waitForTimeout(100);
      await page.keyboard.press("Control+A");
      await page.keyboard.type(spelling);
      await page.keyboard.press("Enter");
      expect(await valueOf(page, "B18"), spelling).toBeCloseTo(value, 12);
    }
    await page.context().close();
  });

  test("a load below 0.2 % is said back, and a fraction too; the next entry takes it away", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B18", "0.05%");
    await page.getByText("B18: 0.05 % was typed: is it 5 %?").waitFor();
    await typeInto(page, "B18", "0.05");
    await page.getByText("B18: 0.05 was read as 5 %").waitFor();
    await typeInto(page, "B18", "5");
    await page.locator(".doubt").waitFor({ state: "detached" });
    await page.context().close();
  });

  test("a refusal says what to type, and leaves the sheet the keyboard", async () => {
    const { page } = await openSheet(browser, address);
    const sizeRun = templates.find(({ title }) => title === "Size run") as Template;
    const [spare, of, density] = ["spare", "of", "density"].map((name) =>
      placeOf(sizeRun, name).replaceAll("$", ""),
    ) as [string, string, string];
    await insert(page, "Size run");
    await typeInto(page, spare, "500");
    await page
      .getByText(`${spare} takes a percentage from 0 % to 100 %. "500" is not one: type 5 %.`)
      .waitFor();
    await page.getByRole("button", { name: "Close" }).click();
    expect(await shown(page, spare)).toBe("2.0%");
    await typeInto(page, of, "total");
    await page.getByText(`${of} takes one of these words: finished, base.`).waitFor();
    await page.keyboard.press("Escape");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.type("0.9");
    await page.keyboard.press("Enter");
    expect(await shown(page, density)).toBe("0.900");
    await page.context().close();
  });

  test("a data sheet's range typed into one cell is told that it is two numbers; a pick is emptied", async () => {
    const { page } = await openSheet(browser, address);
    const title = "What is in it";
    const sheet = templates.find((each) => each.title === title) as Template;
    const [low, word] = ["ingredients.low1", "ingredients.word"].map(
      (name) => placeOf(sheet, name).replaceAll("$", "").split(":")[0],
    ) as [string, string];
    await insert(page, title);
    for (const [typed, said] of [
      ["10-20 %", "is a range"],
      ["0.5 to 1.5%", "is a range"],
      ["<5", "is one end of a range"],
      ["trace", "is not one: type 5 %"],
    ] as const) {
      await typeInto(page, low, typed);
      await page.getByText(`"${typed}" ${said}`).waitFor();
      await page.keyboard.press("Escape");
    }
    await clickCell(page, word);
    for (const key of ["F2", "Control+A", "Backspace", "Enter"]) await page.keyboard.press(key);
    expect(await shown(page, word)).toBe("");
    await typeInto(page, word, " ");
    expect(await shown(page, word)).toBe("");
    await page.context().close();
  });

  test("a name that is on no list is told where the list is", async () => {
    const { page } = await openSheet(browser, address);
    const [materials, recipes] = ["Materials", "Recipes"].map((name) =>
      templates.find(({ title }) => title === name),
    ) as [Template, Template];
    const first = (template: Template, name: string) =>
      placeOf(template, name).replaceAll("$", "").split(":")[0] ?? "";
    await page.getByLabel("Filled with the invented demo").uncheck();
    await insert(page, "Materials");
    await typeInto(page, first(materials, "materials.name"), "Kelp oil ");
    await insert(page, "Recipes");
    const cell = first(recipes, "recipes.material");
    // The space that was typed behind it is no part of the name.
    await typeInto(page, cell, "kelp oil");
    expect(await shown(page, cell)).toBe("kelp oil");
    await typeInto(page, cell, "Dulse oil");
    await page
      .getByText(`${cell} takes a name from the list on Materials. "Dulse oil" is not there`)
      .waitFor();
    await page.context().close();
  });

  test("a refusal in an empty cell leaves the sheet the keyboard, too", async () => {
    const { page } = await openSheet(browser, address);
    const recipes = templates.find(({ title }) => title === "Recipes") as Template;
    await page.getByLabel("Filled with the invented demo").uncheck();
    await insert(page, "Recipes");
    const [of = ""] = placeOf(recipes, "recipes.of").replaceAll("$", "").split(":");
    for (const close of ["Enter", "Escape", "the mouse"]) {
      await clickCell(page, of);
      await page.waitForTimeout(150);
      await page.keyboard.type("wax", { delay: 10 });
      await page.keyboard.press("Tab");
      await page.getByText(`${of} takes one of these words: finished, base.`).waitFor();
      if (close === "the mouse") await page.getByRole("button", { name: "Close" }).click();
      else await page.keyboard.press(close);
      // No hand types sooner.
      await page.waitForTimeout(150);
      await page.keyboard.type("base", { delay: 10 });
      await page.keyboard.press("Enter");
      expect(await shown(page, of), close).toBe("base");
      await clickCell(page, of);
      await page.keyboard.press("Delete");
    }
    await page.context().close();
  });

  test("where the browser's language has a decimal comma and the day first", async () => {
    const { page } = await openSheet(browser, address, { locale: "de-DE" });
    await typeInto(page, "B18", "5,5");
    expect(await valueOf(page, "B18")).toBeCloseTo(0.055, 12);
    await typeInto(page, "B17", "60,5");
    expect(await valueOf(page, "B17")).toBe(60.5);
    await typeInto(page, "E1", "05/11/2026");
    expect(await valueOf(page, "E1")).toBe(day - 20);
    await page.context().close();
  });

  test("after an insert the sheet has the keyboard, and Ctrl+Z takes the insert back", async () => {
    const { page } = await openSheet(browser, address);
    const sheets = () =>
      page.evaluate(() => globalThis.localSheet.model.getters.getSheetIds().length);
    await insert(page, "Size run");
    expect(await sheets()).toBe(2);
    await page.keyboard.press("Control+z");
    expect(await sheets()).toBe(1);
    await page.keyboard.press("Control+y");
    expect(await sheets()).toBe(2);
    await page.context().close();
  });
});

describe("the engine's words, plain and with a mend", () => {
  test.each([
    ['=1-"x"', "A number is needed here, and 'x' is words: type a number, or empty that cell."],
    ["=1+", "This formula cannot be read: look for a missing bracket, sign or quotation mark."],
    ["=SUMM(1)", 'There is no function "SUMM": look at its spelling'],
    ["=ROUND(1,2,3)", "ROUND takes at most 2 inputs, and has 3"],
    ["=ABS()", "ABS needs at least 1 inputs, and has 0"],
    ["=E1", "This formula leads back to its own cell"],
    ["=1/0", "This divides by zero or by an empty cell"],
    ["=Nowhere!A1", "There is no sheet Nowhere"],
  ])("%s", async (formula, words) => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "E1", formula);
    expect(await shown(page, "E1")).toContain(words);
    expect(await shown(page, "E1")).not.toMatch(/BAD_EXPR|FUNCTION_NAME|%\(|%s/);
    await page.context().close();
  });

  test("a sort that cannot be", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "E1", "=MIST.OILFOR(B17:B18,5%)");
    await page.evaluate(() => {
      const zone = { left: 4, right: 4, top: 0, bottom: 1 };
      globalThis.localSheet.model.selection.selectZone({ cell: { col: 4, row: 0 }, zone });
    });
    await page.getByText("Data", { exact: true }).click();
    await page.getByText("Sort range").hover();
    await page.getByText("Ascending").click();
    await page.getByText("These cells cannot be sorted: one of them holds an answer").waitFor();
    await page.context().close();
  });

  test("menus hold nothing that means nothing here", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByText("Insert", { exact: true }).first().click();
    await page.locator(".o-menu").getByText("Chart").waitFor();
    const words = await page.locator(".o-menu").allTextContents();
    expect(words.join(" ")).not.toMatch(/Pivot|Carousel|Image/i);
    await page.context().close();
  });
});

describe("on a phone, 390 px wide", () => {
  const phone = { viewport: { width: 390, height: 780 }, hasTouch: true };

  test("the pane and the sheet take turns, and a trial score can be typed", async () => {
    const { page } = await openSheet(browser, address, phone);
    const inSight = async () => [
      await page.locator("#sheet").isVisible(),
      await page.locator("#pane").isVisible(),
    ];
    expect(await inSight()).toEqual([true, false]);
    await page.getByRole("button", { name: "Pane", exact: true }).click();
    expect(await inSight()).toEqual([false, true]);
    await page.getByRole("button", { name: "Insert Spray trial log" }).click();
    await expect.poll(inSight).toEqual([true, false]);
    const log = templates.find(({ title }) => title === "Spray trial log");
    const scores = drawingOf(log as (typeof templates)[number], true).cells.filter(
      ({ look, content }) => look === "input" && typeof content === "number",
    );
    const last = scores[scores.length - 1];
    const cell = cellName(last.row, last.column);
    await typeInto(page, cell, "4");
    expect(await valueOf(page, cell)).toBe(4);
    await page.context().close();
  });
});

test("printing hides the page around the sheet", async () => {
  const { page } = await openSheet(browser, address);
  await page.emulateMedia({ media: "print" });
  for (const part of ["body > header", "#pane"])
    expect(await page.locator(part).isVisible(), part).toBe(false);
  expect(await page.locator("#sheet").isVisible()).toBe(true);
  await page.context().close();
});
