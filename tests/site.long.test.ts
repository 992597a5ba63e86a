/** The site of the docs, built for a folder of a host: its pages, its links, its way through them, its search. */
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { DefaultTheme } from "vitepress";
import MiniSearch from "minisearch";
import { expect, test } from "vitest";
import { sidebar } from "../docs/.vitepress/sidebar";
import { catalog } from "../functions/catalog/catalog";
import { builtSite } from "./site";

const BASE = "/mistwright/";
const site = builtSite(BASE);

const filesIn = (folder: string, ending: string) =>
  readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) =>
    name.endsWith(ending),
  );
/** Every page of docs, by its name without an ending. */
const pages = filesIn("docs", ".md").map((name) => name.slice(0, -".md".length));
const html = (page: string) => readFileSync(join(site, `${page}.html`), "utf8");

const linksOf = (items: readonly DefaultTheme.SidebarItem[]): string[] =>
  items.flatMap(({ link, items: inner = [] }) => [...(link ? [link] : []), ...linksOf(inner)]);

test("every page of docs is in the way through the site, once", () => {
  const links = linksOf(sidebar).map((link) => (link === "/" ? "index" : link.slice(1)));
  expect(links.sort()).toEqual(pages.sort());
});

test("every page is built at the address of its help page, with its title", () => {
  for (const page of pages) {
    const title = /^# (.+)$/m.exec(readFileSync(`docs/${page}.md`, "utf8"))?.[1] ?? "";
    expect(html(page).match(/<h1/g), page).toHaveLength(1);
    expect(html(page)).toContain(`<h1 id=`);
    expect(html(page).replaceAll(/<\/?em>/g, "")).toContain(title.replaceAll(/[*`]/g, ""));
  }
});

test("links within the site lead to a page and a heading, or a picture, that are there", () => {
  for (const page of pages) {
    for (const [, path = "", hash] of html(page).matchAll(
      /<a[^>]* href="\/mistwright\/([^"#]*)(?:#([^"]+))?"/g,
    )) {
      if (path.endsWith(".png")) {
        expect(existsSync(join(site, path)), path).toBe(true);
        continue;
      }
      const to = path === "" ? "index" : path.replace(/\.html$/, "");
      expect(pages, `${page} links to ${path}`).toContain(to);
      if (hash) expect(html(to), `${page} links to ${path}#${hash}`).toContain(`id="${hash}"`);
    }
  }
});

test("every picture leads to itself, large, by a link that says so", () => {
  for (const page of pages) {
    const texts = readFileSync(`docs/${page}.md`, "utf8").matchAll(/!\[([^\]]*)\]/g);
    const links = html(page).matchAll(
      /<a class="enlarged" href="([^"]+)" aria-label="([^"]+)"><img src="\1"/g,
    );
    const names = [...links].map(([, , name = ""]) => name.replaceAll("&#39;", "'"));
    expect(names, page).toEqual([...texts].map(([, text]) => `Enlarge the picture: ${text}`));
  }
});

test("nothing is loaded from another host, and no font at all", () => {
  const loaded = /<(?:script|img|link)[^>]* (?:src|href)="(?!data:)([^"]+)"/g;
  for (const page of pages)
    for (const [, from] of html(page).matchAll(loaded)) expect(from).toMatch(/^\/mistwright\//);
  const styles = filesIn(site, ".css").map((name) => readFileSync(join(site, name), "utf8"));
  expect(styles.length).toBeGreaterThan(0);
  for (const style of styles) expect(style).not.toMatch(/@font-face|url\("?https?:/);
});

test("the search finds every function by its name, and some by everyday words", async () => {
  const [chunk = ""] = filesIn(site, ".js").filter((name) => name.includes("@localSearchIndex"));
  const { default: index } = (await import(pathToFileURL(join(site, chunk)).href)) as {
    default: string;
  };
  // As the site asks (its VPLocalSearchBox, and config.ts).
  const search = MiniSearch.loadJSON<{ title: string }>(index, {
    fields: ["title", "titles", "text"],
    storeFields: ["title", "titles"],
    searchOptions: { fuzzy: 0.2, prefix: true, boost: { title: 2, text: 2, titles: 1 } },
  });
  for (const { id } of catalog) {
    const [best] = search.search(`MIST.${id}`);
    expect(best?.title, id).toBe(`MIST.${id}`);
  }
  const found = (words: string) => search.search(words).map(({ title }) => title as string);
  expect(found("poured too much oil").slice(0, 3)).toContain("MIST.SETRIGHT");
  expect(found("how many bottles to break even").slice(0, 3)).toContain("MIST.EVENPOINT");
  expect(found("what should I charge").slice(0, 3)).toContain("MIST.ASKPRICE");
});
