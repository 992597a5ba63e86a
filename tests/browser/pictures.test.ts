/** The pictures of the guides, taken anew, look as those that are committed. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { built } from "./build";
import { isPackaged, launchBrowser } from "./launch";
import { takePictures } from "./take-pictures";

const FOLDER = "docs/pictures";
/** Of 255: edges of letters and few colours differ by less. */
const SEEN = 64;
/** Of 1,000 pixels so many may differ: none do where nothing changed, and 0.8 where a line reads otherwise. */
const ALIKE = 0.1;

const folder = built("excel");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** Pixels of 1,000 that differ, or all where the sizes do; drawn by the browser, which reads all sorts of PNG. */
function difference(page: Page, pictures: Buffer[]): Promise<number> {
  const addresses = pictures.map((png) => `data:image/png;base64,${png.toString("base64")}`);
  return page.evaluate(
    async ([ours = "", other = "", seen]: [string, string, number]) => {
      const pixels = async (address: string) => {
        const image = new Image();
        image.src = address;
        await image.decode();
        const { width, height } = image;
        const context = new OffscreenCanvas(width, height).getContext("2d");
        context?.drawImage(image, 0, 0);
        return { width, bytes: context?.getImageData(0, 0, width, height).data ?? [] };
      };
      const [a, b] = [await pixels(ours), await pixels(other)];
      if (a.width !== b.width || a.bytes.length !== b.bytes.length) return 1000;
      let count = 0;
      for (let i = 0; i < a.bytes.length; i += 4) {
        const far = (channel: number) =>
          Math.abs((a.bytes[i + channel] ?? 0) - (b.bytes[i + channel] ?? 0));
        if (Math.max(far(0), far(1), far(2)) > seen) count++;
      }
      return (4000 * count) / a.bytes.length;
    },
    [addresses[0], addresses[1], SEEN] as [string, string, number],
  );
}

// Another browser has other letters.
test.skipIf(!isPackaged)(
  "no picture of the guides is old",
  async () => {
    const address = inject("address");
    const judge = await browser.newPage();
    const setUp = pathToFileURL(join(folder, "set-up.html")).href;
    // How far each is from the committed one at its best: a busy browser may be late with a letter, once.
    const off = new Map<string, number>();
    const old = () => [...off].filter(([, far]) => far > ALIKE).map(([name]) => name);
    for (let time = 0; time < 2 && (time === 0 || old().length > 0); time++)
      await takePictures(browser, { sheet: address, within: address, setUp }, async (name, png) => {
        const far = await difference(judge, [png, readFileSync(join(FOLDER, name))]);
        off.set(name, Math.min(far, off.get(name) ?? far));
      });
    expect(old(), "run npm run pictures").toEqual([]);
    expect([...off.keys()].sort()).toEqual(readdirSync(FOLDER).sort());
  },
  400_000,
);
