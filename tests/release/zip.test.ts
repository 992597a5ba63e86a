import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { afterAll, expect, test } from "vitest";
import { zipOf } from "./zip";

const folder = mkdtempSync(join(tmpdir(), "mistwright-zip-"));
afterAll(() => rmSync(folder, { recursive: true }));

test("a zip holds every file under one folder, and is the same twice", () => {
  mkdirSync(join(folder, "engine"));
  writeFileSync(join(folder, "index.html"), "<!doctype html>");
  writeFileSync(join(folder, "engine/part.js"), "1;");
  const zip = zipOf(folder, "mistwright-0.2.0-local-sheet", "2026-11-30");
  const files = Object.entries(unzipSync(zip)).map(([name, bytes]) => [name, strFromU8(bytes)]);
  expect(files).toEqual([
    ["mistwright-0.2.0-local-sheet/engine/part.js", "1;"],
    ["mistwright-0.2.0-local-sheet/index.html", "<!doctype html>"],
  ]);
  expect(zipOf(folder, "mistwright-0.2.0-local-sheet", "2026-11-30")).toEqual(zip);
});
