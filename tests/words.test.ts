import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const HOUSES = ["src", "functions", "taskpane", "localsheet"];

/** Types by name, each with the files that export one of that name. */
function exportedTypes(): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const house of HOUSES)
    for (const name of readdirSync(house, { recursive: true, encoding: "utf8" })) {
      if (!name.endsWith(".ts")) continue;
      const path = join(house, name);
      for (const [, word = ""] of readFileSync(path, "utf8").matchAll(
        /^export (?:abstract )?(?:type|interface|class|enum) (\w+)/gm,
      ))
        found.set(word, [...(found.get(word) ?? []), path]);
    }
  return found;
}

test("a type's name means one thing in all rooms", () => {
  const types = exportedTypes();
  expect(types.size).toBeGreaterThan(100);
  expect([...types].filter(([, files]) => files.length > 1)).toEqual([]);
});
