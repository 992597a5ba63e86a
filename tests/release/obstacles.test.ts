import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type State, dateOf, obstacles } from "./obstacles";

/** A repository that may be released. */
const READY: State = {
  host: "https://sheets.example.org/mist",
  version: "0.2.0",
  manifest: "<Version>0.2.0.0</Version>",
  changelog: "# Changes\n\n## 0.2.0 - 2026-11-30\n\n- New.\n\n## 0.1.0 - 2026-11-25\n",
  tags: ["v0.1.0"],
  changed: [],
};

test("a repository that is ready meets no obstacle", () => {
  expect(obstacles(READY)).toEqual([]);
  expect(obstacles({ ...READY, host: undefined })).toEqual([]);
});

describe.each([
  ["http", { host: "http://sheets.example.org" }, 'https alone, got "http://sheets.example.org"'],
  ["no address", { host: "sheets.example.org" }, "begins with https://"],
  ["an address with a question", { host: "https://example.org/?a=1" }, "has no ? and no #"],
  [
    "uncommitted files",
    { changed: ["README.md"] },
    "commit these first, or put them away: README.md",
  ],
  ["a version that is out", { tags: ["v0.2.0"] }, "v0.2.0 is tagged already"],
  [
    "another version in the manifest",
    { manifest: "<Version>0.1.0.0</Version>" },
    "make it 0.2.0.0",
  ],
  [
    "changes without a version",
    { changelog: READY.changelog.replace("## 0.2.0", "## Unreleased\n\n- More.\n\n## 0.2.0") },
    'CHANGELOG.md begins with "Unreleased"',
  ],
  ["a version without a date", { changelog: "## 0.2.0\n" }, 'begins with "0.2.0"'],
  ["no such day", { changelog: "## 0.2.0 - 2026-13-30\n" }, "and the date"],
] as const)("%s", (_, change, says) => {
  test("is the one obstacle, and is told with what to do", () => {
    const why = obstacles({ ...READY, ...change });
    expect(why).toHaveLength(1);
    expect(why[0]).toContain(says);
  });
});

test("all obstacles are told at once", () => {
  expect(obstacles({ ...READY, host: "http://a", changed: ["a"], tags: ["v0.2.0"] })).toHaveLength(
    3,
  );
});

test("every version of our changelog has its day", () => {
  const changelog = readFileSync("CHANGELOG.md", "utf8");
  const versions = [...changelog.matchAll(/^## (\d\S*)/gm)].map(([, version]) => version ?? "");
  expect(versions.length).toBeGreaterThan(0);
  for (const version of versions) expect(dateOf(version, changelog), version).not.toBeNull();
});
