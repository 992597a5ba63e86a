/**
 * npm run pictures: the pictures of the guides, docs/pictures/*.png, of what stands in dist. Look at them before you
 * commit them; tests/browser/pictures.test.ts says when one is old.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { launchBrowser } from "./launch";
import { inFewColours } from "./small-png";
import { takePictures } from "./take-pictures";

const FOLDER = "docs/pictures";
/** A page of a guide loads quickly, also far from a city. */
const LARGEST_KB = 150;

function keep(name: string, taken: Buffer) {
  const path = `${FOLDER}/${name}`;
  const png = inFewColours(taken);
  writeFileSync(path, png);
  const size = png.length / 1000;
  console.log(`${path}: ${size.toFixed(0)} kB`);
  if (size > LARGEST_KB) throw new Error(`${path} is larger than ${LARGEST_KB} kB`);
}

mkdirSync(FOLDER, { recursive: true });
const browser = await launchBrowser();
try {
  const within = pathToFileURL("dist/localsheet/").href;
  const setUp = pathToFileURL("dist/excel/set-up.html").href;
  await takePictures(browser, { sheet: `${within}index.html`, within, setUp }, keep);
} finally {
  await browser.close();
}
