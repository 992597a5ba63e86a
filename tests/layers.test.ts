import { readFileSync, readdirSync, statSync } from "node:fs";
import { dirname, extname, join } from "node:path";
import { describe, expect, test } from "vitest";
import rooms from "./rooms.json";

/** Each room, and the rooms that it may import from; DEVELOPERS.md shows the same list. */
const MAY_IMPORT: Record<string, string[]> = rooms;

/** The topmost folder, as one room, or as its inner rooms. */
const HOUSES = ["src", "functions", "taskpane", "localsheet"] as const;

/** Packages that each folder may use at run time; types of a host are no imports. */
const PACKAGES: Record<(typeof HOUSES)[number], RegExp> = {
  // None at all.
  src: /^$/,
  functions:
    /^(node:.*|typescript|custom-functions-metadata|mathjs|fflate|@xmldom\/xmldom|@borgar\/fx\/xlsx)$/,
  taskpane: /^(zod\/mini|minisearch|mathjs|@borgar\/fx\/xlsx)$/,
  localsheet: /^(fflate|idb-keyval|serwist|@odoo\/o-spreadsheet|@borgar\/fx\/xlsx)$/,
};

function filesOf(folder: string): string[] {
  return readdirSync(folder)
    .map((name) => join(folder, name))
    .flatMap((path) =>
      statSync(path).isDirectory() ? filesOf(path) : path.endsWith(".ts") ? [path] : [],
    );
}

function importsOf(path: string): string[] {
  const text = readFileSync(path, "utf8");
  const imports =
    /^(?:import|export)\b[^;"]*?\bfrom "([^"]+)"|\bimport\("([^"]+)"\)|^import "([^"]+)"/gm;
  return [...text.matchAll(imports)].flatMap((match) => match.slice(1).filter(Boolean));
}

/** The room of a file, or of what it imports: the longest that its path begins with. */
function roomOf(path: string): string | undefined {
  const within = Object.keys(MAY_IMPORT).filter((room) => path.startsWith(`${room}/`));
  return within.sort((a, b) => b.length - a.length).at(0);
}

/** The files of the repository that a file imports, types counted; the text of one is no code. */
function filesImportedBy(path: string): string[] {
  return importsOf(path)
    .filter((name) => name.startsWith(".") && !name.endsWith("?source"))
    .map((name) => join(dirname(path), name));
}

describe.each(HOUSES)("%s", (house) => {
  test.each(filesOf(house))("%s", (path) => {
    const room = roomOf(path) ?? "no room";
    for (const imported of filesImportedBy(path))
      expect([room, ...(MAY_IMPORT[room] ?? [])], imported).toContain(roomOf(imported));
    // As Node asks for.
    for (const imported of filesImportedBy(path)) expect(extname(imported)).not.toBe("");
    const packages = importsOf(path).filter((name) => !name.startsWith("."));
    for (const name of packages) expect(name).toMatch(PACKAGES[house]);
  });
});

test("no files import each other in a circle, not even for a type", () => {
  const done = new Set<string>();
  const circleFrom = (path: string, way: string[]): string[] => {
    if (way.includes(path)) return [...way.slice(way.indexOf(path)), path];
    if (done.has(path) || !path.endsWith(".ts")) return [];
    done.add(path);
    for (const next of filesImportedBy(path)) {
      const circle = circleFrom(next, [...way, path]);
      if (circle.length > 0) return circle;
    }
    return [];
  };
  for (const path of HOUSES.flatMap(filesOf)) expect(circleFrom(path, [])).toEqual([]);
});

test("DEVELOPERS.md shows the rooms and their arrows", () => {
  const guide = readFileSync("DEVELOPERS.md", "utf8");
  const shown = [...guide.matchAll(/^(\S+) +<- (.+)$/gm)].map(([, room, from]) => [room, from]);
  const held = Object.entries(MAY_IMPORT).map(([room, from]) => [
    room,
    from.join(", ") || "nothing",
  ]);
  expect(shown).toEqual(held);
});

test("src is pure: no clock, chance, page, network or console", () => {
  for (const path of filesOf("src")) {
    const code = readFileSync(path, "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
    expect(code, path).not.toMatch(
      /\b(Date|Math\.random|document|window|fetch|console|process|globalThis)\b/,
    );
    expect(code, path).not.toMatch(/^(export )?(let|var) /m);
  }
});

test("only register.ts and the Excel entry know CustomFunctions", () => {
  const knowing = [...filesOf("src"), ...filesOf("functions"), ...filesOf("taskpane")].filter(
    (path) => {
      const code = readFileSync(path, "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
      return code.includes("CustomFunctions");
    },
  );
  expect(knowing.sort()).toEqual(["functions/bind/excel.ts"]);
});
