// npm run package: src as a package of its own, for use without a sheet, in dist/package.
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const ROOT = new URL("../../", import.meta.url);
const here = (path) => fileURLToPath(new URL(path, ROOT));
const root = JSON.parse(readFileSync(here("package.json"), "utf8"));

/** The package's own package.json. */
const manifest = {
  name: root.name,
  version: root.version,
  description: "The arithmetic of a small home-fragrance workshop: plain functions, no spreadsheet",
  license: root.license,
  type: "module",
  sideEffects: false,
  exports: { ".": { types: "./lib/index.d.ts", default: "./lib/index.js" } },
  files: ["lib"],
  engines: root.engines,
};

/** JavaScript and declarations, both with the doc comments. */
function compile(folder) {
  const { options } = ts.parseJsonConfigFileContent(
    ts.readConfigFile(here("tsconfig.json"), ts.sys.readFile).config,
    ts.sys,
    here("."),
  );
  const program = ts.createProgram([here("src/index.ts")], {
    ...options,
    lib: ["lib.es2023.d.ts"],
    types: [],
    noEmit: false,
    noEmitOnError: true,
    declaration: true,
    rootDir: here("src"),
    outDir: join(folder, "lib"),
  });
  const problems = [...ts.getPreEmitDiagnostics(program), ...program.emit().diagnostics];
  if (problems.length === 0) return;
  const host = {
    getNewLine: () => "\n",
    getCurrentDirectory: () => here("."),
    getCanonicalFileName: (name) => name,
  };
  throw new Error(ts.formatDiagnostics(problems, host));
}

const folder = resolve(process.argv[2] ?? here("dist/package"));
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
compile(folder);
writeFileSync(join(folder, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);
cpSync(here("docs/package.md"), join(folder, "README.md"));
cpSync(here("LICENSE"), join(folder, "LICENSE"));
console.log(`the package is in ${folder}`);
