/**
 * npm run release: checks that a release may be made, builds it, writes dist/release (the Excel add-in for any host,
 * and the local sheet), and tags it. --host https://sheets.example.org writes that address into the add-in; --dry does
 * all but the tag.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { dateOf, obstacles } from "./obstacles";
import { zipOf } from "./zip";

const OUT = "dist/release";
/** No host has such an address (RFC 2606): set-up.html in the zip writes one. */
const NO_HOST = "https://not-set-up.invalid";

const read = (path: string) => readFileSync(path, "utf8");
const git = (...words: string[]) => execFileSync("git", words, { encoding: "utf8" });
const linesOf = (text: string) => text.split("\n").filter(Boolean);

function stop(...why: string[]): never {
  for (const text of why) console.error(`not released: ${text}`);
  process.exit(1);
}

function run(command: string, ...words: string[]) {
  const shell = process.platform === "win32";
  if (spawnSync(command, words, { stdio: "inherit", shell }).status !== 0)
    stop(`${command} ${words.join(" ")} failed`);
}

const { values: options } = parseArgs({
  options: { host: { type: "string" }, dry: { type: "boolean", default: false } },
});
const { version } = JSON.parse(read("package.json")) as { version: string };
const changelog = read("CHANGELOG.md");
const why = obstacles({
  host: options.host,
  version,
  manifest: read("manifest.xml"),
  changelog,
  tags: linesOf(git("tag", "--list")),
  changed: linesOf(git("status", "--porcelain")).map((line) => line.slice(3)),
});
if (why.length > 0) stop(...why);

run("npm", "run", "ok");
run("npx", "webpack", "--env", `host=${options.host ?? NO_HOST}`);

rmSync(OUT, { recursive: true, force: true });
mkdirSync(OUT, { recursive: true });
const date = dateOf(version, changelog) ?? "";
for (const [folder, name] of [
  ["dist/excel", `mistwright-${version}-excel`],
  ["dist/localsheet", `mistwright-${version}-local-sheet`],
] as const) {
  const zip = zipOf(folder, name, date);
  writeFileSync(`${OUT}/${name}.zip`, zip);
  console.log(`${OUT}/${name}.zip: ${(zip.length / 1e6).toFixed(2)} MB`);
}

if (options.dry) console.log(`not tagged: v${version}, as --dry was given`);
else {
  git("tag", "--annotate", `v${version}`, "--message", `Mistwright ${version}`);
  console.log(`tagged v${version}; git push origin v${version} makes it known`);
}
