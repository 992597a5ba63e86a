/** No sentence of the engine's reaches a maker with its inner words: each of its texts is looked at. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect, test } from "vitest";
import { INNER } from "./inner-words.ts";
import { newModel } from "./load-engine.ts";

const { WORDS, plain } = await import("../../localsheet/words.ts");

/** All texts that the engine may show: it marks each with _t("..."). */
const source = readFileSync(createRequire(import.meta.url).resolve("@odoo/o-spreadsheet"), "utf8");
const texts = [
  ...new Set(
    [...source.matchAll(/\b_t\(\s*("(?:[^"\\]|\\.)*")/g)].map(
      // A backslash that JSON does not know stands for nothing.
      ([, text = ""]) => JSON.parse(text.replaceAll(/\\(?!["\\nt])/g, "")) as string,
    ),
  ),
];

/** What the templates of its page say, between marks and in titles. */
const page = readFileSync(
  createRequire(import.meta.url).resolve("@odoo/o-spreadsheet/dist/o_spreadsheet.xml"),
  "utf8",
);
const inPages = [
  ...page.matchAll(/>([^<>{}]*[a-z][^<>{}]*)</gi),
  ...page.matchAll(/(?:title|placeholder|label|\.translate)="([^"{]+)"/g),
].map(([, text = ""]) => text.replaceAll(/\s+/g, " ").trim());

/** What is hidden from the menus (see menus.ts), and from the list of functions. */
const OUT_OF_SIGHT = /pivot|carousel|measure|for patterns and highlights/i;

test("the engine's texts are found, all of them", () => {
  // Counted in the pinned version; a new version is a reason to look at what is new.
  expect(texts.length).toBe(1901);
  expect(source.match(/\b_t\((?!\s*")/g) ?? []).toEqual([]);
});

test("none of them says an inner word, but for what is out of sight", () => {
  const inSight = [...texts, ...inPages].filter((text) => !OUT_OF_SIGHT.test(text));
  const said = inSight.map((text) => plain(text));
  expect(said.filter((text) => INNER.test(text))).toEqual([]);
});

test("the places of a sentence stay, so that a name or a number still stands in it", () => {
  const places = (text: string): string[] => [...(text.match(/%s|%\(\w+\)s/g) ?? [])];
  const lost = texts.filter((text) => {
    const kept = places(plain(text));
    return kept.some((place) => !places(text).includes(place));
  });
  expect(lost).toEqual([]);
});

test("every sentence that we replace is one of the engine's", () => {
  const known = new Set([...texts, ...inPages]);
  expect(Object.keys(WORDS).filter((text) => !known.has(text))).toEqual([]);
});

test("functions that are offered while one types are told in plain words, pivots and signs not at all", () => {
  const { functionRegistry } = globalThis.o_spreadsheet.registries;
  const offered = functionRegistry.getKeys().filter((name) => !functionRegistry.get(name).hidden);
  expect(offered.filter((name) => /^(PIVOT|MINUS$|UMINUS$|EQ$)/.test(name))).toEqual([]);
  expect(offered.length).toBeGreaterThan(300);
  const ofEngine = offered.filter((name) => !name.startsWith("MIST."));
  const told = ofEngine.flatMap((name) => {
    const { description, args } = functionRegistry.get(name);
    return [description, ...args.map((arg) => arg.description)].map(String);
  });
  expect(told.filter((text) => INNER.test(text))).toEqual([]);
});

test("a sheet gets no name that its file cannot hold", () => {
  const model = newModel({ sheets: [{ id: "s", name: "One" }] });
  const renamed = (newName: string) =>
    model.dispatch("RENAME_SHEET", { sheetId: "s", oldName: "One", newName }).reasons;
  // Microsoft, "Rename a worksheet": at most 31 characters, and not History.
  for (const name of ["x".repeat(32), "History", "constructor"])
    expect(renamed(name)).toEqual(["ForbiddenCharactersInSheetName"]);
  expect(model.getters.getDuplicateSheetName("A sheet with quite a long name")).toHaveLength(31);
  expect(renamed("x".repeat(31))).toEqual([]);
});
