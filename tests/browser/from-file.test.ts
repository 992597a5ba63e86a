/** The local sheet as it comes out of its zip: opened from a file with no server, and put on a host. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { unzipSync } from "fflate";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { zipOf } from "../release/zip";
import { foundByAxe } from "./axe";
import { buildInto } from "./build";
import { launchBrowser } from "./launch";
import { openSheet, ready, shown, typeInto, valueOf } from "./sheet";

const folder = mkdtempSync(join(tmpdir(), "mistwright-from-file-"));
// A space and a letter beyond ASCII, as in the folder of a person.
const unpacked = join(folder, "Téléchargements 2");
let browser: Browser;

async function built(): Promise<string> {
  const path = join(folder, "built");
  await buildInto(path, "localsheet");
  return path;
}

beforeAll(async () => {
  const zip = zipOf(await built(), "sheet", "2026-11-30");
  for (const [name, bytes] of Object.entries(unzipSync(zip))) {
    mkdirSync(dirname(join(unpacked, name)), { recursive: true });
    writeFileSync(join(unpacked, name), bytes);
  }
  browser = await launchBrowser();
}, 600_000);

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

const TYPES: Record<string, string> = {
  html: "text/html",
  js: "text/javascript",
  css: "text/css",
  webmanifest: "application/manifest+json",
  png: "image/png",
  woff2: "font/woff2",
};

/** Any static host, under a folder of its own. */
async function host(folder: string) {
  const server = createServer((request, response) => {
    const path = decodeURIComponent((request.url ?? "").replace(/^\/sheet\/|\?.*$/g, ""));
    try {
      const bytes = readFileSync(join(folder, path || "index.html"));
      const type = TYPES[path.split(".").at(-1) || "html"] ?? "text/plain";
      response.writeHead(200, { "Content-Type": type }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((listens) => server.listen(0, "localhost", listens));
  const { port } = server.address() as AddressInfo;
  const stop = () => {
    server.closeAllConnections();
    return new Promise((stopped) => server.close(stopped));
  };
  return { address: `http://localhost:${port}/sheet/`, stop };
}

test("on a host it opens again without a network, and says when a newer version is there", async () => {
  const folder = join(unpacked, "sheet");
  const { address, stop } = await host(folder);
  const { page, trouble } = await openSheet(browser, address);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await typeInto(page, "A40", "7");

  const change = (name: string, from: RegExp, to: string) => {
    const text = readFileSync(join(folder, name), "utf8");
    expect(text).toMatch(from);
    writeFileSync(join(folder, name), text.replace(from, to));
  };
  change("index.html", /Mistwright local sheet<\/title>/, "Newer</title>");
  change("worker.js", /(?<='index\.html','revision':')[^']*/, "newer");
  await page.reload();
  await ready(page);
  expect(await page.title()).toBe("Mistwright local sheet");
  await page.getByRole("button", { name: "Use it now" }).waitFor();
  expect(await foundByAxe(page)).toEqual([]);
  await page.getByRole("button", { name: "Use it now" }).click();
  await page.waitForFunction(() => document.title === "Newer");
  await ready(page);
  expect(await valueOf(page, "A40")).toBe(7);

  expect(trouble).toEqual([]);

  await stop();
  await page.reload();
  await ready(page);
  // A part that was not loaded before, and the workbook.
  await page.getByRole("button", { name: "Insert Materials" }).click();
  await page.getByText('Materials is on the new sheet "Materials"').waitFor();
  await page.locator(".o-sheet", { hasText: "Start here" }).click();
  expect(await valueOf(page, "A40")).toBe(7);
  // The browser still looks for a newer version, in vain.
  expect(trouble.filter((text) => !text.includes("ERR_CONNECTION_REFUSED"))).toEqual([]);
});

test("it can be installed: its icons have the sizes that it says", async () => {
  const folder = join(unpacked, "sheet");
  const { icons } = JSON.parse(readFileSync(join(folder, "app.webmanifest"), "utf8")) as {
    icons: { src: string; sizes: string }[];
  };
  for (const { src, sizes } of icons) {
    // A PNG's width stands at byte 16: ISO/IEC 15948, 11.2.2.
    const width = readFileSync(join(folder, src)).readUInt32BE(16);
    expect(`${width}x${width}`).toBe(sizes);
  }
  // Browsers ask for these two before they install a page.
  expect(icons.map(({ sizes }) => sizes)).toEqual(["192x192", "512x512"]);
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
