import { readFileSync, readdirSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { describe, expect, test } from "vitest";

/** Arrows run one way: each folder, and the folders that it may import from. */
const MAY_IMPORT: Record<string, string[]> = {
  src: ["src"],
  functions: ["src", "functions"],
  taskpane: ["src", "functions", "taskpane"],
  localsheet: ["src", "functions", "taskpane", "localsheet"],
};

/** Packages that each folder may use at run time; types of a host are no imports. */
const PACKAGES: Record<string, RegExp> = {
  // Distribution functions, and nothing else.
  src: /^jstat$/,
  functions:
    /^(node:.*|typescript|custom-functions-metadata|mathjs|jstat|fflate|@xmldom\/xmldom|@borgar\/fx\/xlsx)$/,
  taskpane: /^(zod\/mini|minisearch|mathjs|@borgar\/fx\/xlsx)$/,
  localsheet: /^(fflate|idb-keyval|@odoo\/o-spreadsheet|@borgar\/fx\/xlsx)$/,
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
  return [...text.matchAll(imports)].map((match) => match[1] ?? match[2] ?? match[3]);
}

describe.each(Object.keys(MAY_IMPORT))("%s", (folder) => {
  test.each(filesOf(folder))("%s", (path) => {
    for (const name of importsOf(path)) {
      if (!name.startsWith(".")) expect(name).toMatch(PACKAGES[folder]);
      else
        expect(MAY_IMPORT[folder]).toContain(
          relative(".", join(dirname(path), name)).split("/")[0],
        );
    }
  });
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
