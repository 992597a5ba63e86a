/** What axe, and a screen reader's tree, say of a page as it stands. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const script = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const OPTIONS = {
  runOnly: {
    type: "tag",
    values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
  },
  // Not among those that run by themselves.
  rules: { "target-size": { enabled: true } },
} as const;

/**
 * What axe finds to mend on the whole page. The engine's own element is left out: its grid is a canvas, and its
 * toolbars and menus have no roles; it is shipped as its makers' unmodified file.
 */
export async function foundByAxe(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(script);
  return page.evaluate(async (options) => {
    const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
    const { violations } = await axe.run({ exclude: [".o-spreadsheet"] }, options as object);
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`,
    );
  }, OPTIONS);
}

const CONTROL =
  /- (button|textbox|searchbox|combobox|checkbox|radio|tab|tabpanel)\b( ".*?[^\\]")?/g;

/** Controls of a part that have no name in the screen reader's tree, or one that another of their kind has. */
export async function namelessOrTwice(page: Page, part: string): Promise<string[]> {
  const tree = await page.locator(part).ariaSnapshot();
  const controls = [...tree.matchAll(CONTROL)].map(([whole, , name]) => ({ whole, name }));
  if (controls.length === 0) throw new Error(`no control was read in ${part}`);
  return controls
    .filter(({ whole, name }, i) => !name || controls.findIndex((c) => c.whole === whole) < i)
    .map(({ whole }) => whole);
}
