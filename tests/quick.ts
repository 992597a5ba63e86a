/** The last step of npm run quick: the unit tests in the folders that mirror what changed since the last commit. */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const git = (...words: string[]) => execFileSync("git", words, { encoding: "utf8" }).split("\n");
const changed = [
  ...git("diff", "--name-only", "HEAD"),
  ...git("ls-files", "--others", "--exclude-standard"),
];

/** src/load/oilfor.ts has its tests in tests/load, functions/files/... in tests/files or tests/functions. */
function testsOf(path: string): string[] {
  if (path.endsWith(".test.ts")) return [path];
  const [house, room] = path.split("/");
  // A file of the top folder, and the line that ends git's list.
  if (!room) return [];
  return [`tests/${room}/`, `tests/${house}/`].filter((folder) => existsSync(folder)).slice(0, 1);
}

const wanted = new Set(changed.flatMap(testsOf));
console.log(
  wanted.size > 0 ? `Tests: ${[...wanted].join(", ")}` : "Nothing changed that has tests.",
);
if (wanted.size > 0) {
  const words = ["vitest", "run", "--project", "unit", "tests/layers.test.ts", ...wanted];
  process.exitCode = spawnSync("npx", words, { stdio: "inherit" }).status ?? 1;
}
