/** The local sheet as it comes out of its zip: opened from a file, with no server. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { unzipSync } from "fflate";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import webpack from "webpack";
import { zipOf } from "../release/zip";
import { launchBrowser } from "./launch";
import { openSheet, ready, shown, typeInto, valueOf } from "./sheet";

const folder = mkdtempSync(join(tmpdir(), "mistwright-from-file-"));
// A space and a letter beyond ASCII, as in the folder of a person.
const unpacked = join(folder, "Téléchargements 2");
let browser: Browser;

async function built(): Promise<string> {
  const configs = await (await import("../../webpack.config.mjs")).default({});
  const config = configs.find(({ name }) => name === "localsheet");
  const path = join(folder, "built");
  const compiler = webpack({ ...config, output: { ...config?.output, path } });
  await new Promise<void>((done, fail) =>
    compiler?.run((error, stats) => {
      const problem = error ?? stats?.compilation.errors[0];
      if (problem) fail(problem);
      else done();
    }),
  );
  return path;
}

beforeAll(async () => {
  const zip = zipOf(await built(), "sheet", "2026-11-30");
  for (const [name, bytes] of Object.entries(unzipSync(zip))) {
    mkdirSync(dirname(join(unpacked, name)), { recursive: true });
    writeFileSync(join(unpacked, name), bytes);
  }
  browser = await launchBrowser();
}, 300_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

test("it works, part by part, asks nothing of a network, and keeps its work", async () => {
  const address = pathToFileURL(join(unpacked, "sheet/")).href;
  const { page, trouble } = await openSheet(browser, `${address}index.html`, {}, address);
  await typeInto(page, "A40", "=MIST.OILFOR(60,5%)");
  // By hand: 60 x 5 % = 3.
  expect(await valueOf(page, "A40")).toBe(3);
  await page.getByRole("button", { name: "Insert Materials" }).click();
  await page.getByText('Materials is on the new sheet "Materials"').waitFor();
  await page.getByRole("tab", { name: "Functions" }).click();
  await page.getByRole("searchbox").waitFor();
  await page.getByRole("tab", { name: "Hand over" }).click();
  await page.getByText("Kept in this browser").waitFor();
  await page.reload();
  await ready(page);
  await page.locator(".o-sheet", { hasText: "Materials" }).click();
  expect(await shown(page, "A1")).toBe("Materials");
  expect(trouble).toEqual([]);
});

test("the licences of what it ships lie beside it, with their texts", () => {
  const licences = readFileSync(join(unpacked, "sheet/licences.txt"), "utf8");
  // From memory: the first words of the licences' texts.
  for (const words of [
    "@odoo/o-spreadsheet, 19.3.7, LGPL-3.0-or-later",
    "GNU LESSER GENERAL PUBLIC LICENSE",
    "mathjs",
    "Apache License",
    "font-awesome, 4.7.0",
    "Permission is hereby granted, free of charge",
  ])
    expect(licences).toContain(words);
});
