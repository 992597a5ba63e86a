/** Builds the site of the docs as `npm run site` does, before the tests of a file, for a folder of a host. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect } from "vitest";

/** The folder that the site is built into; it is taken away after the tests. */
export function builtSite(base: string): string {
  const site = mkdtempSync(join(tmpdir(), "mistwright-site-"));
  beforeAll(() => {
    // A link to a page that is not there makes it fail.
    const vitepress = resolve("node_modules/vitepress/bin/vitepress.js");
    const build = [vitepress, "build", "docs", "--outDir", site, "--base", base];
    const { status, stdout, stderr } = spawnSync("node", build, { encoding: "utf8" });
    expect(status, stdout + stderr).toBe(0);
  }, 240_000);
  afterAll(() => rmSync(site, { recursive: true }));
  return site;
}
