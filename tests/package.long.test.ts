/** The package of src, as somebody gets it who has nothing else of ours: packed, installed, used. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import webpack from "webpack";
import { catalog } from "../functions/catalog/catalog";

const folder = mkdtempSync(join(tmpdir(), "mistwright-package-"));
const project = join(folder, "project");
/** What is in the tarball. */
let packed: string[] = [];

function run(command: string, args: string[], cwd = project): string {
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, encoding: "utf8" });
  expect(status, `${command} ${args.join(" ")}\n${stdout}\n${stderr}`).toBe(0);
  return stdout;
}

function write(name: string, text: string) {
  writeFileSync(join(project, name), text);
}

beforeAll(() => {
  const built = join(folder, "built");
  run("node", ["functions/generate/package.mjs", built], ".");
  const pack = ["pack", "--json", "--pack-destination", folder];
  const [tarball] = JSON.parse(run("npm", pack, built)) as [
    { filename: string; files: { path: string }[] },
  ];
  packed = tarball.files.map(({ path }) => path);
  mkdirSync(project);
  write("package.json", '{ "private": true, "type": "module" }');
  // Without the network: the package depends on nothing.
  const install = ["install", "--offline", "--no-audit", "--no-fund", "--install-links"];
  run("npm", [...install, join(folder, tarball.filename)]);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true }));

test("it holds modules, declarations, a README and the licence, and nothing of a page or a sheet", () => {
  const other = packed.filter((path) => !/^lib\/[\w/-]+\.(js|d\.ts)$/.test(path));
  expect(other.sort()).toEqual(["LICENSE", "README.md", "package.json"]);
  const rooms = new Set(packed.map((path) => /^lib\/(\w+)\//.exec(path)?.[1]));
  expect([...rooms].sort()).toEqual(
    ["blend", "cost", "data", "limits", "load", "measure", "spirit", "trial", undefined].sort(),
  );
});

test("plain Node imports every function of the catalog, and CalcError", () => {
  write("use.js", 'import * as mist from "mistwright";\nconsole.log(Object.keys(mist).join(" "));');
  const names = ["CalcError", ...catalog.map(({ name }) => name)];
  expect(run("node", ["use.js"]).trim().split(" ").sort()).toEqual(names.sort());
});

test("the example of its README gives what its comments say", () => {
  const readme = readFileSync(join(project, "node_modules/mistwright/README.md"), "utf8");
  const code = /```js\n([\s\S]*?)```/.exec(readme)?.[1] ?? "";
  const shown = code.replace(/^(\w+\(.*\)); \/\/ ([\d.]+).*$/gm, "console.log($1 === $2);");
  write("readme.js", shown);
  // By hand: 60 x 5 % = 3. The pound: NIST SP 811. The error's text: src/errors.ts.
  expect(run("node", ["readme.js"])).toBe(
    "true\ntrue\nload must be from 0 % to 100 %, got 500 %: type 5 %\n",
  );
});

test("its types hold, and refuse a wrong use", () => {
  const tsc = resolve("node_modules/typescript/bin/tsc");
  const strict = ["--noEmit", "--strict", "--target", "es2022"];
  const check = (resolution: string, module: string) =>
    run("node", [tsc, ...strict, "--moduleResolution", resolution, "--module", module, "use.ts"]);
  write(
    "use.ts",
    `import { type Cells, CalcError, oilFor, topLoad } from "mistwright";
const oil: number = oilFor(60, 0.05, "base");
const limits: Cells = topLoad([["room spray"]], [[0.02]]);
// @ts-expect-error: a load is a number.
oilFor(60, "5 %");
// @ts-expect-error: there are two bases.
oilFor(60, 0.05, "bases");
export { CalcError, limits, oil };`,
  );
  check("nodenext", "nodenext");
  check("bundler", "esnext");
});

test("doc comments come along, for an editor to show", () => {
  const types = readFileSync(join(project, "node_modules/mistwright/lib/load/oilfor.d.ts"), "utf8");
  expect(types).toContain("@param load (share)");
});

/** A program as webpack bundles it. */
async function bundled(program: string): Promise<string> {
  write("entry.js", program);
  const output = { path: join(project, "out"), filename: "out.js" };
  const compiler = webpack({ mode: "production", context: project, entry: "./entry.js", output });
  await new Promise<void>((done, fail) =>
    compiler?.run((error, stats) => {
      const problem = error ?? stats?.compilation.errors[0];
      if (problem) fail(problem);
      else done();
    }),
  );
  return readFileSync(join(project, "out/out.js"), "utf8");
}

test("a program that uses one function is bundled with no more than that", async () => {
  const one = await bundled('import { oilFor } from "mistwright"; console.log(oilFor(60, 0.05));');
  expect(one.length).toBeLessThan(3000);
  // A name that the compiler keeps, of a function on trials.
  expect(one).not.toContain("log1p");
  const all = await bundled('import * as mist from "mistwright"; console.log(mist);');
  // So that the word would be seen.
  expect(all).toContain("log1p");
});
