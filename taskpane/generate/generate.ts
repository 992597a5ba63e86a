/**
 * The second half of npm run generate: a page of each template, in docs/sheets/. With --check it writes
 * nothing and fails when a page is stale.
 */
import { put } from "../../functions/generate/files.ts";
import { templates } from "../templates/index.ts";
import { HEADER, sheetPages } from "./sheet-pages.ts";

const FOLDER = "docs/sheets";

const pages = [...sheetPages(templates)].map(([name, text]): [string, string] => [
  `${FOLDER}/${name}`,
  text,
]);
try {
  const check = process.argv.includes("--check");
  const did = put(new Map(pages), { folder: FOLDER, header: HEADER }, check);
  console.log(`${templates.length} sheets: ${did}`);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
