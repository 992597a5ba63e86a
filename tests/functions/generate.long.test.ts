/** npm run generate, run as a contributor runs it. */
import { readFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { expect, test } from "vitest";

const FOLDER = "tests/functions/refusals";

test("npm run generate stops on a refusal, tells the file and the reason, and writes nothing", () => {
  const before = readFileSync("functions/catalog/catalog.json", "utf8");
  const src = join(FOLDER, "missing-param/src");
  const run = spawnSync("npx", ["tsx", "functions/generate/generate.ts", "--src", src], {
    encoding: "utf8",
  });
  expect(run.status).toBe(1);
  expect(run.stderr).toContain("load/oilfor.ts:17: @param load is missing");
  expect(readFileSync("functions/catalog/catalog.json", "utf8")).toBe(before);
});
