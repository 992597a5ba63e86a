/** LibreOffice opens every file that we write. Without it the test is skipped, and says so. */
import { expect, test } from "vitest";
import { allFiles } from "../localsheet/all-files";
import { libreOffice, openedAll } from "./libreoffice";

if (!libreOffice) console.warn("No LibreOffice was found: it has not opened our files.");

test.skipIf(!libreOffice)(
  "LibreOffice opens them all",
  async () => {
    const files = await allFiles();
    expect(openedAll(files)).toEqual(Object.keys(files).sort());
  },
  400_000,
);
