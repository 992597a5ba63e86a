/** A folder as a zip: the same bytes for the same files, whenever it is made. */
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { zipSync } from "fflate";

/** Everything in the folder; `under` is the one folder that comes out of the zip. */
export function zipOf(folder: string, under: string, date: string): Uint8Array {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));
  const files = names
    .sort()
    .map((name) => [
      `${under}/${name.replaceAll("\\", "/")}`,
      new Uint8Array(readFileSync(join(folder, name))),
    ]);
  // Zips keep local time: noon is the same day everywhere.
  return zipSync(Object.fromEntries(files), { level: 9, mtime: new Date(`${date}T12:00:00`) });
}
