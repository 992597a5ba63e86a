import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readComments } from "../../functions/generate/comments";
import { metadata } from "../../functions/generate/metadata";

const FOLDER = "tests/functions/refusals";

// One folder for each thing that the build refuses: a src of its own, and the file and reason told.
describe("the build refuses", () => {
  test.each(readdirSync(FOLDER))("%s", (name) => {
    const { problems } = readComments(join(FOLDER, name, "src"));
    const told = problems.map(({ file, line, reason }) => `${file}:${line}: ${reason}`).join("\n");
    expect(told).toBe(readFileSync(join(FOLDER, name, "reason.txt"), "utf8").trim());
  });
});

test("what the refusal folders are made from is itself accepted", () => {
  const folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  mkdirSync(join(folder, "load"));
  const broken = readFileSync(join(FOLDER, "missing-example/src/load/oilfor.ts"), "utf8");
  const whole = broken.replace(" */", " * @example OILFOR(60, 5%) // => 3\n */");
  writeFileSync(join(folder, "load/oilfor.ts"), whole);
  const { entries, problems } = readComments(folder);
  expect(problems).toEqual([]);
  expect(entries).toHaveLength(1);
  expect(JSON.parse(metadata(entries)).functions[0].id).toBe("OILFOR");
  rmSync(folder, { recursive: true });
});
