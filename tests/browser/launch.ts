/**
 * Starts a headless Chromium: the one named by MISTWRIGHT_BROWSER, else one that is installed, else, on
 * x64 Linux, the one that the registry package @sparticuz/chromium carries.
 */
import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/microsoft-edge",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** No look-ups of the browser's own. */
const QUIET = [
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-gpu",
];

/** True where the browser is that of the package, with fonts of its own: its pictures are alike on every machine. */
export const isPackaged =
  !process.env.MISTWRIGHT_BROWSER && process.platform === "linux" && process.arch === "x64";

export async function launchBrowser(): Promise<Browser> {
  const named = process.env.MISTWRIGHT_BROWSER;
  if (named && !existsSync(named)) throw new Error(`MISTWRIGHT_BROWSER names no file: ${named}`);
  if (isPackaged) return packaged();
  const path = named ?? INSTALLED.find(existsSync);
  if (!path) {
    throw new Error(
      "No browser was found. Install Chrome, Edge or Chromium, or set MISTWRIGHT_BROWSER to the path " +
        "of one, then run the tests again.",
    );
  }
  return start(path, []);
}

async function packaged(): Promise<Browser> {
  // Set before the import, it makes the package use its own copies of the libraries a bare system lacks.
  process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs22.x";
  const { default: shipped } = await import("@sparticuz/chromium");
  // Its own list also turns web security off, which these tests must not. It runs without a sandbox, as a
  // container has none to offer; the only page it is shown is ours.
  const wanted = [
    "--no-sandbox",
    "--no-zygote",
    "--headless='shell'",
    "--font-render-hinting=none",
  ];
  return start(
    await shipped.executablePath(),
    shipped.args.filter((flag) => wanted.includes(flag) || flag.startsWith("--use-")),
  );
}

function start(executablePath: string, args: string[]): Promise<Browser> {
  const root = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  return chromium.launch({ executablePath, args: [...args, ...QUIET, ...root] });
}
