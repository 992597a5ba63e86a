/**
 * LibreOffice as the partner's program: opens a workbook without our functions, works every cell out anew and
 * saves it. Without hard recalculation it would only show the values that the file brings.
 */
import { execFileSync, spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const PLACES = [
  process.env.MISTWRIGHT_LIBREOFFICE,
  "/usr/bin/soffice",
  "/usr/bin/libreoffice",
  "/Applications/LibreOffice.app/Contents/MacOS/soffice",
  "C:\\Program Files\\LibreOffice\\program\\soffice.exe",
];

/** The program, or undefined where this machine has none. */
export const libreOffice = PLACES.find((path) => path && existsSync(path));

/** Zero is "always recalculate" for workbooks of Excel's format. */
const ALWAYS = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`;

/** The workbook after LibreOffice has opened, recalculated and saved it. */
export function recalculated(bytes: Uint8Array): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  try {
    const profile = join(folder, "profile");
    mkdirSync(join(profile, "user"), { recursive: true });
    writeFileSync(join(profile, "user", "registrymodifications.xcu"), ALWAYS);
    writeFileSync(join(folder, "book.xlsx"), bytes);
    const out = join(folder, "out");
    execFileSync(
      libreOffice as string,
      [
        `-env:UserInstallation=${pathToFileURL(profile).href}`,
        "--headless",
        "--convert-to",
        "xlsx",
        "--outdir",
        out,
        join(folder, "book.xlsx"),
      ],
      { stdio: "pipe", timeout: 120_000 },
    );
    return new Uint8Array(readFileSync(join(out, "book.xlsx")));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The names of the files that LibreOffice opens and makes text of, each with something in it. */
export function openedAll(files: Record<string, Uint8Array>): string[] {
  const folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  const out = join(folder, "out");
  try {
    const paths = Object.entries(files).map(([name, bytes]) => {
      writeFileSync(join(folder, `${name}.xlsx`), bytes);
      return join(folder, `${name}.xlsx`);
    });
    const profile = `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`;
    const order = ["--headless", "--convert-to", "fods", "--outdir", out];
    execFileSync(libreOffice as string, [profile, ...order, ...paths], {
      stdio: "pipe",
      timeout: 300_000,
    });
    const isFilled = (file: string) =>
      readFileSync(join(out, file), "utf8").includes("<table:table-cell");
    return readdirSync(out)
      .filter(isFilled)
      .map((file) => file.replace(/\.fods$/, ""))
      .sort();
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A word on paper, and how tall it is in points. */
export interface PrintedWord {
  text: string;
  height: number;
}

/** Columns are as wide as the letters of Arial ask for: with another font, paper is not that of Excel. */
const hasArial = /Arial|Arimo|Liberation Sans/.test(
  spawnSync("fc-match", ["Arial"], { encoding: "utf8" }).stdout ?? "",
);

/** Whether this machine can read what LibreOffice prints: pdftotext, of poppler-utils, and letters like Arial's. */
export const canReadPaper = hasArial && spawnSync("pdftotext", ["-v"]).error === undefined;

/** What LibreOffice prints of each file, page by page, word by word. */
export function printed(files: Record<string, Uint8Array>): Record<string, PrintedWord[][]> {
  const folder = mkdtempSync(join(tmpdir(), "mistwright-"));
  try {
    const paths = Object.entries(files).map(([name, bytes]) => {
      writeFileSync(join(folder, `${name}.xlsx`), bytes);
      return join(folder, `${name}.xlsx`);
    });
    const profile = `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`;
    const order = ["--headless", "--convert-to", "pdf", "--outdir", folder];
    execFileSync(libreOffice as string, [profile, ...order, ...paths], {
      stdio: "pipe",
      timeout: 300_000,
    });
    return Object.fromEntries(
      Object.keys(files).map((name) => [name, pagesOf(join(folder, `${name}.pdf`))]),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function pagesOf(path: string): PrintedWord[][] {
  const text = execFileSync("pdftotext", ["-bbox", path, "-"], { encoding: "utf8" });
  const word = /<word [^>]*yMin="([\d.]+)"[^>]*yMax="([\d.]+)">([^<]*)</g;
  return text
    .split("<page ")
    .slice(1)
    .map((page) =>
      [...page.matchAll(word)].map(([, top, bottom, said = ""]) => {
        return { text: said, height: Number(bottom) - Number(top) };
      }),
    );
}
