/** Generated files: written where they are stale, or only looked at. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of the repository. */
export const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** A folder of nothing but generated pages: those that open with the header and are not made any more go. */
export interface Pages {
  folder: string;
  header: string;
}

/** Writes what is stale; with `check` it fails instead. Says what it did, or found. */
export function put(files: Map<string, string>, pages: Pages, check: boolean): string {
  const stale = [...files].filter(([path, text]) => !has(join(ROOT, path), text));
  const extra = leftovers(files, pages);
  if (check) {
    const wrong = [...stale.map(([path]) => path), ...extra];
    if (wrong.length === 0) return `${files.size} files are current`;
    const lines = wrong.map((path) => `stale: ${path}`);
    throw new Error([...lines, "run npm run generate and commit what it writes"].join("\n"));
  }
  for (const [path, text] of stale) {
    mkdirSync(dirname(join(ROOT, path)), { recursive: true });
    writeFileSync(join(ROOT, path), text);
  }
  for (const path of extra) rmSync(join(ROOT, path));
  return `${stale.length} files written, ${extra.length} removed`;
}

function has(path: string, text: string): boolean {
  return existsSync(path) && readFileSync(path, "utf8") === text;
}

/** Pages of what is no longer there. */
function leftovers(files: Map<string, string>, { folder, header }: Pages): string[] {
  if (!existsSync(join(ROOT, folder))) return [];
  return readdirSync(join(ROOT, folder))
    .map((name) => `${folder}/${name}`)
    .filter(
      (path) => !files.has(path) && readFileSync(join(ROOT, path), "utf8").startsWith(header),
    );
}
