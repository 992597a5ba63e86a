import { readFileSync } from "node:fs";
import { strFromU8, unzipSync } from "fflate";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { areaOf, drawingOf } from "../../taskpane/sheets/drawing";
import { placesOf } from "../../taskpane/sheets/lay";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { richParts, zipped } from "../files/foreign-book";
import { launchBrowser } from "./launch";
import { clickCell, openSheet, ready, shown, spotOf, typeInto } from "./sheet";

const address = inject("address");

const comparison = templates.find(({ title }) => title === "Base comparison") as Template;
/** Where the first line and the answer of Base comparison stand. */
const [PRICE, FLOZ, BEST] = ["packs.price", "packs.floz", "best"].map((name) => {
  const place = placesOf(comparison.parts).get(name);
  return cellName(place?.row ?? -1, place?.column ?? -1);
}) as [string, string, string];
const sizeRun = templates.find(({ title }) => title === "Size run") as Template;
/** A cell of Size run: of the first size, and of those right of it. */
const runAt = (name: string, line = 0, across = 0) => {
  const place = placesOf(sizeRun.parts).get(name);
  return cellName((place?.row ?? -1) + line, (place?.column ?? -1) + across);
};
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

describe("the main job, as a newcomer does it", () => {
  test("quotes to landed cost to what to weigh, nothing sent anywhere", async () => {
    const { page, trouble } = await openSheet(browser, address);
    expect(await shown(page, "A1")).toBe("Larkfield Mist House");
    expect(await shown(page, "B19")).toBe("3");

    await page.getByRole("button", { name: "Insert Base comparison" }).click();
    await page.getByText('Base comparison is on the new sheet "Base comparison".').waitFor();
    // Before a cell further right is looked at, and the picture goes out of sight.
    await page.locator(".o-figure canvas").waitFor();
    expect(await shown(page, FLOZ)).toBe("0.482");
    expect(await shown(page, BEST)).toBe("Drovers Dry");
    await typeInto(page, PRICE, "30");
    // By hand: (30 + 14.5) / (128 x 0.98).
    expect(await shown(page, FLOZ)).toBe((44.5 / (128 * 0.98)).toFixed(3));
    expect(await shown(page, BEST)).toBe("Alder Clear");

    await page.getByRole("button", { name: "Insert Size run" }).click();
    await page.getByText('Size run is on the new sheet "Size run".').waitFor();
    const weights = await Promise.all(
      [0, 1, 2, 3].map((across) => shown(page, runAt("liquids.grams", 0, across))),
    );
    // By hand: 95 % of 12, 24, 12 and 6 bottles of 2, 4, 8 and 16 fl oz at 0.87 g/mL, 2 % over.
    const fill = 29.5735295625 * 0.87 * 1.02 * 0.95;
    expect(weights).toEqual([24, 96, 96, 96].map((ounces) => comma(ounces * fill)));
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("formulas typed into cells: units, ranges, blanks, errors", async () => {
    const { page, trouble } = await openSheet(browser, address);
    await typeInto(page, "E1", "60");
    await typeInto(page, "E2", "120");
    await typeInto(page, "F1", "=MIST.OILFOR(E1:E4,5%)");
    expect(await Promise.all(["F1", "F2", "F3"].map((name) => shown(page, name)))).toEqual([
      "3",
      "6",
      "",
    ]);
    await typeInto(page, "G1", "=MIST.OILFOR(60,5)");
    expect(await shown(page, "G1")).toBe(
      "#VALUE! load must be from 0 % to 100 %, got 500 %: type 5 %",
    );
    await typeInto(page, "G2", '=MIST.TURN(1,"lb","floz")');
    expect(await shown(page, "G2")).toMatch(
      /^#VALUE! density is needed: lb is a weight and floz a volume/,
    );
    await typeInto(page, "G3", '=MIST.TURN(1," LB ","oz")');
    expect(await shown(page, "G3")).toBe("16");
    await typeInto(page, "G4", "=MIST.OILFOR(1/0,5%)");
    expect(await shown(page, "G4")).toMatch(/^#DIV\/0!/);
    await typeInto(page, "G5", "=MIST.OILFOR(H8,H9)");
    expect(await shown(page, "G5")).toBe("");
    expect(trouble).toEqual([]);

    const { x, y } = await spotOf(page, "G1");
    await page.mouse.move(x, y);
    await page.getByText("load must be from 0 % to 100 %, got 500 %: type 5 %").waitFor();
    await page.context().close();
  });

  test("a percent cell takes 5 for 5 %, and a word that is not on the list is refused", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("button", { name: "Insert Size run" }).click();
    await page.getByText("Size run is on the new sheet").waitFor();
    await typeInto(page, runAt("spare"), "5");
    expect(await shown(page, runAt("spare"))).toBe("5.0%");
    await typeInto(page, runAt("of"), "total");
    expect(await shown(page, runAt("of"))).toBe("finished");
    await page.context().close();
  });

  test("an insert over a filled cell is refused, and names it", async () => {
    const { page } = await openSheet(browser, address);
    await clickCell(page, "B3");
    await page.getByLabel("At the selected cell").check();
    await page.getByRole("button", { name: "Insert Base comparison" }).click();
    await page
      .getByText(
        `Nothing was inserted: Base comparison needs ${areaOf(drawingOf(comparison, true), 2, 1)} empty, and B5 is filled.`,
      )
      .waitFor();
    expect(await shown(page, "B5")).toBe("Base");
    await page.context().close();
  });

  test("a function is found by need, and its example put in a cell", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("tab", { name: "Functions" }).click();
    await page.getByLabel("What do you need?").fill("poured too much oil");
    const first = page.locator(".functions details").first();
    expect(await first.locator("summary code").textContent()).toBe("MIST.SETRIGHT");
    await first.locator("summary").click();
    const line = first.locator(".working li", { hasText: "poured: all that was poured" });
    expect(await line.locator("code").textContent()).toBe("= oil + base");
    await clickCell(page, "E20");
    await first.getByRole("button", { name: "Put the example in the selected cell" }).click();
    await page.getByText('=MIST.SETRIGHT(4, 57, 5%) is in E20 of "Start here".').waitFor();
    expect([await shown(page, "E20"), await shown(page, "F20")]).toEqual(["0", "19"]);
    await page.context().close();
  });
});

describe("the work is kept", () => {
  test("over a reload, even one right after a keystroke", async () => {
    const { page } = await openSheet(browser, address);
    await page.getByRole("button", { name: "Insert Base comparison" }).click();
    await page.getByText("is on the new sheet").waitFor();
    await typeInto(page, PRICE, "30");
    await page.reload();
    await ready(page);
    await page.getByText("Base comparison", { exact: true }).first().click();
    expect(await shown(page, PRICE)).toBe("30.00");
    expect(await shown(page, BEST)).toBe("Alder Clear");
    await page.context().close();
  });

  test("as .xlsx, and opens again from it", async () => {
    const { page, trouble } = await openSheet(browser, address);
    for (const name of ["Base comparison", "Size run"]) {
      await page.getByRole("button", { name: `Insert ${name}` }).click();
      await page.getByText(`${name} is on the new sheet`).waitFor();
    }
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save .xlsx" }).click(),
    ]);
    const path = await download.path();
    const parts = unzipSync(readFileSync(path));
    const formulas = Object.keys(parts)
      .filter((name) => name.startsWith("xl/worksheets/sheet"))
      .flatMap((name) => strFromU8(parts[name]).match(/<f\b[^>]*>[^<]*<\/f>/g) ?? []);
    expect(formulas.join("\n")).toContain("_xldudf_MIST_FLOZCOST($K");
    expect(formulas.join("\n")).not.toContain("MIST.");
    expect(Object.keys(parts).filter((name) => name.startsWith("xl/charts/chart"))).toHaveLength(1);

    await page.getByRole("button", { name: "Start anew" }).click();
    await page.getByRole("button", { name: "The demo" }).click();
    await page.waitForEvent("load");
    await ready(page);
    // The list of sheets comes a moment after the pane.
    await page.getByRole("button", { name: "Insert Size run" }).waitFor();
    expect(await page.getByText("Size run", { exact: true }).count()).toBe(1);
    await page.locator("#file").setInputFiles({
      name: "mine.xlsx",
      mimeType: "application/octet-stream",
      buffer: readFileSync(path),
    });
    await page.getByText("mine.xlsx takes the place of the workbook on the screen.").waitFor();
    await page.getByRole("button", { name: "Go on" }).click();
    await page.waitForEvent("load");
    await ready(page);
    await page.locator(".o-sheet", { hasText: "Size run" }).click();
    const oil = runAt("liquids.grams", 1, 3);
    expect(await shown(page, runAt("sizes.fill"))).toBe("52.5");
    expect(await shown(page, oil)).toBe("100.78");
    await typeInto(page, runAt("sizes.count", 0, 3), "12");
    // By hand: 4 % of 12 bottles of 16 fl oz at 0.87 g/mL, 2 % over.
    expect(await shown(page, oil)).toBe(comma(0.04 * 12 * 16 * 29.5735295625 * 0.87 * 1.02));
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("what is on the screen can be saved before it is replaced", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B17", "90");
    await page.getByRole("button", { name: "Start anew" }).click();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save this one first" }).click(),
    ]);
    const parts = unzipSync(readFileSync(await download.path()));
    expect(strFromU8(parts["xl/worksheets/sheet0.xml"])).toContain("<v>90</v>");
    await page.getByRole("button", { name: "The demo" }).click();
    await page.waitForEvent("load");
    await ready(page);
    await page.waitForFunction(() => {
      const { model } = globalThis.localSheet ?? {};
      return model?.getters.getEvaluatedCell({ sheetId: "start", col: 1, row: 16 }).value === 60;
    });
    await page.context().close();
  });

  test("cancelled, nothing is replaced", async () => {
    const { page } = await openSheet(browser, address);
    await typeInto(page, "B17", "90");
    await page.getByRole("button", { name: "Start anew" }).click();
    await page.keyboard.press("Escape");
    // What takes its place would come with a reload, now or with the next one.
    await page.waitForTimeout(1000);
    expect(await shown(page, "B17")).toBe("90");
    await page.reload();
    await ready(page);
    expect(await shown(page, "B17")).toBe("90");
    await page.context().close();
  });

  test("a file of another program is saved under its name, the rest of it as it was", async () => {
    const { page, trouble } = await openSheet(browser, address);
    const buffer = Buffer.from(zipped(richParts()));
    await page
      .locator("#file")
      .setInputFiles({ name: "oils.xlsx", mimeType: "application/octet-stream", buffer });
    await page.getByText("oils.xlsx takes the place of the workbook on the screen.").waitFor();
    await page.getByRole("button", { name: "Go on" }).click();
    await page.waitForEvent("load");
    await ready(page);
    await typeInto(page, "B3", "20");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save .xlsx" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("oils.xlsx");
    const [was, is] = [unzipSync(buffer), unzipSync(readFileSync(await download.path()))];
    const other = Object.keys(was).filter((path) => strFromU8(was[path]) !== strFromU8(is[path]));
    expect(other).toEqual(["xl/worksheets/sheet1.xml"]);
    // By hand: 10 and 20.
    expect(strFromU8(is["xl/worksheets/sheet1.xml"])).toContain("<f>SUM(B2:B3)</f><v>30</v>");
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test("a file that is no workbook is refused, and the work stays", async () => {
    const { page } = await openSheet(browser, address);
    const buffer = Buffer.from("price,46");
    await page.locator("#file").setInputFiles({ name: "a.xlsx", mimeType: "text/csv", buffer });
    const said = page.getByText("This is a text file (.csv or the like), not a workbook");
    await said.waitFor();
    // It stays until it is closed, and nothing was replaced.
    await page.waitForTimeout(1000);
    expect(await said.isVisible()).toBe(true);
    await page.getByRole("button", { name: "Close" }).click();
    await said.waitFor({ state: "hidden" });
    expect(await shown(page, "A1")).toBe("Larkfield Mist House");
    await page.context().close();
  });
});

function comma(value: number): string {
  return value.toFixed(2).replace(/\B(?=(\d{3})+\.)/g, ",");
}
