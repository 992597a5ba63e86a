/** The add-in's files for the address that serves it. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { at, refusalOf } from "../../taskpane/set-up/address";

const FILES = ["manifest.xml", "functions/functions.json"].map((name): [string, string] => [
  name,
  readFileSync(name, "utf8"),
]);

test.each(FILES)("%s has the address wherever it had ours, and no other", (_, text) => {
  for (const address of ["https://sheets.example.org/mist", "https://sheets.example.org/mist/"]) {
    const there = at(address, text);
    expect(there).not.toContain("localhost");
    expect(there).toContain("https://sheets.example.org/mist/help/");
    expect(there).not.toContain("mist//");
  }
});

test.each([
  ["http://sheets.example.org", "https alone"],
  ["sheets.example.org", "begins with https://"],
  ["", "begins with https://"],
  ["https://example.org/?a=1", "no ? and no #"],
  ["https://example.org/set-up.html", "not of a file"],
])("%s is refused", (address, why) => {
  expect(refusalOf(address)).toContain(why);
});

test.each(["https://sheets.example.org", "https://example.org/v1.2/", "https://localhost:3000"])(
  "%s is taken",
  (address) => {
    expect(refusalOf(address)).toBeNull();
  },
);
