/** npm run icons: draws taskpane/icons/mark.svg at every size that Excel, and a browser that installs the local sheet, ask for. */
import { readFileSync } from "node:fs";
import { launchBrowser } from "./launch";

const FOLDER = "taskpane/icons";
const SIZES = [16, 32, 64, 80, 128, 192, 512];

const svg = readFileSync(`${FOLDER}/mark.svg`, "utf8");
const browser = await launchBrowser();
for (const size of SIZES) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px}</style>${svg}`);
  await page.screenshot({ path: `${FOLDER}/icon-${size}.png`, omitBackground: true });
  await page.close();
}
await browser.close();
