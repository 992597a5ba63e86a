import { existsSync, readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { helpPage } from "../functions/generate/pages.mjs";

const guides = ["docs", "docs/reference", "docs/sheets"].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith(".md"))
    .map((name) => join(folder, name)),
);

describe("the guides as pages", () => {
  test.each(guides)(
    "%s has its title, its tables, pictures that are there and links that lead somewhere",
    (path) => {
      const markdown = readFileSync(path, "utf8");
      const html = helpPage(markdown);
      const title = /^# (.+)$/m.exec(markdown)?.[1] ?? "";
      expect(title).not.toBe("");
      expect(html).toMatch(/<title>[^<]+ - Mistwright<\/title>/);
      expect(html.match(/<h1/g)).toHaveLength(1);
      expect((html.match(/<table/g) ?? []).length).toBe((markdown.match(/^\|-/gm) ?? []).length);
      expect(html).not.toContain("<script");
      for (const [, href] of html.matchAll(/<a href="([^"]+)"/g)) {
        if (/^https:/.test(href)) continue;
        expect(href).toMatch(/\.html($|#)/);
        const guide = join(dirname(path), href.replace(/\.html.*/, ".md"));
        expect(existsSync(guide), `${path} links to ${href}`).toBe(true);
      }
      for (const [, src] of html.matchAll(/<img src="([^"]+)"/g))
        expect(existsSync(join(dirname(path), src)), `${path} shows ${src}`).toBe(true);
    },
  );
});
