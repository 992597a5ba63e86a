/**
 * npm run generate: writes catalog.json, functions.json, src/index.ts, the list of templates and
 * docs/reference/. With --check it writes nothing and fails when a file is stale.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import type { SourceEntry } from "../catalog/entry.ts";
import { readComments } from "./comments.ts";
import { ROOT, put } from "./files.ts";
import { CODE_HEADER, PAGE_HEADER } from "./headers.ts";
import { boundList, lateList } from "./list.ts";
import { metadata } from "./metadata.ts";
import { declarations } from "./script.ts";

const REFERENCE = "docs/reference";

/** Every generated file of the repository, path to text. */
export async function generatedFiles(
  entries: readonly SourceEntry[],
  templates: readonly string[],
) {
  // Only now: the pages run the functions, and a refusal must be told even where those do not load.
  const { referencePages } = await import("./reference.ts");
  const files = new Map<string, string>([
    ["functions/catalog/catalog.json", `${JSON.stringify(entries, withoutFile, 2)}\n`],
    ["functions/bind/list.ts", boundList(entries)],
    ["functions/bind/late-list.ts", lateList(entries)],
    ["functions/functions.json", metadata(entries)],
    ["functions/script/declarations.js", declarations(entries)],
    ["src/index.ts", sourceIndex(entries)],
    ["taskpane/templates/index.ts", templateIndex(templates)],
  ]);
  for (const [name, text] of referencePages(entries)) files.set(`${REFERENCE}/${name}`, text);
  return files;
}

/** Where an entry comes from is of no use to a host. */
function withoutFile(key: string, value: unknown): unknown {
  return key === "file" ? undefined : value;
}

function sourceIndex(entries: readonly SourceEntry[]): string {
  const lines = entries.map(({ name, file }) => `export { ${name} } from "./${file}";`);
  const shared = [
    'export { CalcError } from "./errors.ts";',
    'export type { Cell, Cells } from "./cells.ts";',
  ];
  return [CODE_HEADER + shared.join("\n"), ...lines, ""].join("\n");
}

/** A template file is named after its title, and exports `template`. */
function templateIndex(names: readonly string[]): string {
  const camel = (name: string) =>
    name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
  return [
    `${CODE_HEADER}import type { Template } from "../sheets/template.ts";`,
    ...names.map((name) => `import { template as ${camel(name)} } from "./${name}.ts";`),
    "",
    `export const templates: Template[] = [${names.map(camel).join(", ")}];`,
    "",
  ].join("\n");
}

function templateNames(): string[] {
  return readdirSync(join(ROOT, "taskpane/templates"))
    .filter((name) => name.endsWith(".ts") && name !== "index.ts")
    .map((name) => name.slice(0, -3))
    .sort();
}

async function main() {
  const { values: options } = parseArgs({
    options: { check: { type: "boolean" }, src: { type: "string", default: join(ROOT, "src") } },
  });
  const { entries, problems } = readComments(options.src);
  if (problems.length > 0) {
    for (const { file, line, reason } of problems) console.error(`src/${file}:${line}: ${reason}`);
    process.exit(1);
  }
  const files = await generatedFiles(entries, templateNames());
  const pages = { folder: REFERENCE, header: PAGE_HEADER };
  try {
    console.log(`${entries.length} functions: ${put(files, pages, options.check ?? false)}`);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await main();
