/**
 * The parts of an .xlsx file, or one plain sentence why there are none. What a file says of its own
 * size is looked at before anything is unpacked: a megabyte can say that it holds a gigabyte.
 */
import { strFromU8, unzipSync } from "fflate";
import { Refusal } from "./refusal.ts";

export type Parts = Record<string, Uint8Array>;

/** Unpacked, in bytes: far above any workbook of a workshop, far below what stops a page. */
const MOST_BYTES = 300 * 2 ** 20;
const MOST_PARTS = 20_000;
/**
 * XML of a workbook packs ten to thirty times smaller; the densest packing there is comes to a
 * thousand.
 */
const MOST_PACKED = 400;
const SMALL = 10 * 2 ** 20;

const ZIP = [0x50, 0x4b];
const COMPOUND = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

export function unpack(bytes: Uint8Array): Parts {
  if (!startsWith(bytes, ZIP)) throw new Refusal(whatElse(bytes));
  let total = 0;
  let count = 0;
  let parts: Parts;
  try {
    parts = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        total += originalSize;
        count += 1;
        if (total > MOST_BYTES || count > MOST_PARTS || isBomb(total, bytes.length))
          throw new Refusal(
            `This file unpacks to far more than a workbook holds (it is stopped at ${Math.round(total / 2 ** 20)} MB): ` +
              "it was not opened. Ask whoever sent it for another copy.",
          );
        return !name.endsWith("/");
      },
    });
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(
      "This file is damaged: it could not be unzipped. Fetch it again, or open it in the program that made it and save a copy.",
    );
  }
  return plainPaths(parts);
}

function isBomb(total: number, packed: number): boolean {
  return total > SMALL && total > packed * MOST_PACKED;
}

/** Some programs write paths with backslashes, or from the root. */
function plainPaths(parts: Parts): Parts {
  const entries = Object.entries(parts).map(([path, part]): [string, Uint8Array] => [
    path.replaceAll("\\", "/").replace(/^\/+/, ""),
    part,
  ]);
  return Object.fromEntries(entries);
}

function startsWith(bytes: Uint8Array, opening: number[]): boolean {
  return opening.every((byte, i) => bytes[i] === byte);
}

/** What a file is that is no zip. */
function whatElse(bytes: Uint8Array): string {
  if (bytes.length === 0) return "This file is empty: there is nothing to open.";
  if (startsWith(bytes, COMPOUND)) return inCompound(bytes);
  const opening = strFromU8(bytes.subarray(0, 2000), true);
  if (/^%PDF/.test(opening))
    return "This is a PDF, not a workbook: open the .xlsx it was printed from.";
  if (/^\s*(<!doctype html|<html)/i.test(opening))
    return "This is a web page, not a workbook: open it in a spreadsheet program and save it as .xlsx first.";
  if (/^(\uFEFF|\u00EF\u00BB\u00BF)?\s*<\?xml|<Workbook/.test(opening))
    return "This is an XML file, not an .xlsx workbook: open it in a spreadsheet program and save it as .xlsx first.";
  // eslint-disable-next-line no-control-regex -- bytes that no text has
  if (!/[\u0000-\u0008]/.test(opening))
    return "This is a text file (.csv or the like), not a workbook: open it in a spreadsheet program and save it as .xlsx first.";
  return "This is not an .xlsx workbook: open it in the program that made it and save it as .xlsx first.";
}

/** Microsoft's older container holds old workbooks, and new ones under a password. */
function inCompound(bytes: Uint8Array): string {
  const names = strFromU8(bytes, true);
  const wide = (word: string) => Array.from(word, (letter) => `${letter}\0`).join("");
  if (names.includes(wide("EncryptedPackage")))
    return "This workbook is locked with a password: open it in Excel, take the password off, and save it as .xlsx first.";
  return "This is a workbook of the older kind (.xls): open it in a spreadsheet program and save it as .xlsx first.";
}

/** What a zip is that holds no workbook. */
export function refuseOther(parts: Parts): void {
  const kind = parts["mimetype"] ? strFromU8(parts["mimetype"]) : "";
  if (/opendocument\.spreadsheet/.test(kind))
    throw new Refusal(
      "This is an OpenDocument sheet (.ods): open it in LibreOffice and save it as .xlsx first.",
    );
  if (kind) throw new Refusal("This is a document of another kind, not an .xlsx workbook.");
  const paths = Object.keys(parts);
  if (paths.some((path) => /^xl\/workbook\.bin$/i.test(path)))
    throw new Refusal(
      "This is a binary workbook (.xlsb): open it in Excel and save it as .xlsx first.",
    );
  if (paths.some((path) => path.startsWith("word/")))
    throw new Refusal("This is a Word document, not a workbook.");
  if (paths.some((path) => path.startsWith("ppt/")))
    throw new Refusal("This is a PowerPoint presentation, not a workbook.");
  if (paths.some((path) => /\.numbers$|^Index\/.*\.iwa$/.test(path)))
    throw new Refusal("This is a workbook of Apple's Numbers: export it as .xlsx first.");
}
