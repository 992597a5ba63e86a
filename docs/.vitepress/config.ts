/**
 * npm run site: the guides, the sheets and the reference as a site in dist/site, with a search of its own.
 * `npm run site -- --base /help/` makes it for a folder of a host; without it, for a host's topmost address.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitepress";
import { enlargeable } from "./enlargeable.ts";
import { ALL_FUNCTIONS, ALL_SHEETS, sidebar } from "./sidebar.ts";
import { withWords } from "./words.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const mark = readFileSync(here("../../taskpane/icons/mark.svg"), "utf8");
const icon = `data:image/svg+xml,${encodeURIComponent(mark)}`;

/** The page asks nobody but its own host. */
const POLICY = [
  "default-src 'self'",
  "script-src 'self' 'unsafe-inline'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data:",
].join("; ");

export default defineConfig({
  lang: "en",
  title: "Mistwright",
  description: "Worksheet functions and costing sheets for a small home-fragrance workshop",
  outDir: here("../../dist/site"),
  cacheDir: here("../../node_modules/.cache/vitepress"),
  head: [
    ["meta", { "http-equiv": "Content-Security-Policy", content: POLICY }],
    ["link", { rel: "icon", href: icon }],
  ],
  // Braces in the guides are grids of a sheet, not attributes of an element.
  markdown: { attrs: { disable: true }, config: enlargeable },
  vue: { template: { transformAssetUrls: { Enlarged: ["src"] } } },
  themeConfig: {
    logo: icon,
    nav: [
      { text: "First batch", link: "/first-batch" },
      { text: "Sheets", link: ALL_SHEETS },
      { text: "Functions", link: ALL_FUNCTIONS },
    ],
    sidebar,
    outline: [2, 3],
    search: {
      provider: "local",
      options: {
        _render: (source, env, markdown) => markdown.render(withWords(source), env),
        // What a page says counts, not only how it is named: makers ask in words of their own.
        miniSearch: { searchOptions: { boost: { title: 2, text: 2, titles: 1 } } },
      },
    },
  },
});
