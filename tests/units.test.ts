import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import * as math from "mathjs";
import { describe, expect, test } from "vitest";
import { KINDS } from "../functions/catalog/kinds";
import { SPELLINGS } from "../src/data/spellings";
import { turn } from "../src/index";
import { UNIT_WORDS, VOLUME_UNITS, WEIGHT_UNITS, unitOf } from "../src/units";
import { PACK_UNITS } from "../taskpane/sheets/pack-units";
import { holdToPublished } from "./reference/hold";
import { refuses } from "./refuses";

describe("factors against GNU units, UCUM and NIST SP 811", () => {
  holdToPublished({
    U01: () => turn(1, "lb", "g"),
    U02: () => turn(1, "oz", "g"),
    U03: () => turn(1, "floz", "mL"),
    U04: () => turn(1, "impfloz", "mL"),
    U05: () => turn(1, "gal", "mL"),
    U06: () => turn(1, "impgal", "mL"),
    U07: () => turn(1, "tsp", "mL"),
    U08: () => turn(1, "tbsp", "mL"),
    U21: () => turn(1, "oz", "g"),
    U22: () => turn(1, "lb", "g"),
    U23: () => turn(1, "floz", "mL"),
    U24: () => turn(1, "impfloz", "mL"),
    U25: () => turn(1, "gal", "L"),
    U26: () => turn(1, "impgal", "L"),
    U27: () => turn(1, "tsp", "mL"),
    U28: () => turn(1, "tbsp", "mL"),
    U30: () => turn(1, "pt", "L"),
    U31: () => turn(1, "qt", "L"),
  });
});

test("weights agree with an outside table of units (mathjs 15)", () => {
  const theirs: Record<string, string> = { lb: "lbm", oz: "oz" };
  for (const from of WEIGHT_UNITS) {
    const outside = math.unit(1, theirs[from] ?? from).toNumber("g");
    expect(turn(1, from, "g") / outside).toBeCloseTo(1, 12);
  }
});

test("whole ratios are whole to the last digit (definitions of the units)", () => {
  expect(turn(1, "lb", "oz")).toBe(16);
  expect(turn(1, "gal", "floz")).toBe(128);
  expect(turn(1, "gal", "qt")).toBe(4);
  expect(turn(1, "qt", "pt")).toBe(2);
  expect(turn(1, "pt", "floz")).toBe(16);
  expect(turn(1, "floz", "tbsp")).toBe(2);
  expect(turn(1, "tbsp", "tsp")).toBe(3);
  expect(turn(1, "impgal", "impfloz")).toBe(160);
  expect(turn(3, "kg", "g")).toBe(3000);
  expect(turn(2, "L", "mL")).toBe(2000);
});

test("names are read without case and spaces; the list is closed", () => {
  expect(unitOf("unit", " Fl OZ ").name).toBe("floz");
  expect(unitOf("unit", "ML").name).toBe("mL");
  expect(unitOf("unit", "imp gal").name).toBe("impgal");
  refuses(
    () => unitOf("from", "cup"),
    `from must be a weight (${WEIGHT_UNITS.join(" ")}) or a volume ` +
      `(${VOLUME_UNITS.join(" ")}), got "cup"`,
  );
});

describe("other words for units", () => {
  // Common English spellings, and what each means in US trade; by hand.
  test.each([
    ["lbs", "lb"],
    ["Lbs.", "lb"],
    ["pounds", "lb"],
    ["ounces", "oz"],
    ["oz.", "oz"],
    ["fl. oz.", "floz"],
    ["Fl Ozs", "floz"],
    ["Fluid Ounces", "floz"],
    ["oz fl", "floz"],
    ["gallons", "gal"],
    ["Gal.", "gal"],
    ["imperial gallons", "impgal"],
    ["quarts", "qt"],
    ["pint", "pt"],
    ["Litres", "L"],
    ["liter", "L"],
    ["cc", "mL"],
    ["millilitres", "mL"],
    ["grams", "g"],
    ["kgs", "kg"],
    ["kilo", "kg"],
    ["Tablespoons", "tbsp"],
  ])("%s is %s", (word, name) => {
    expect(unitOf("unit", word).name).toBe(name);
  });

  test("an ounce is a weight, also where a liquid is meant", () => {
    expect(unitOf("unit", "ounces").measures).toBe("weight");
    refuses(
      () => turn(32, "ounces", "fluid ounces"),
      "density is needed: oz is a weight and floz a volume; weigh a known volume to find it",
    );
  });

  test.each(["gr", "t", "c", "#", "cup", "m", "fl", "fluid", "imp", "us", "dram", "s", "ton"])(
    "what may mean several things, or nothing here, is refused: %s",
    (word) => {
      expect(() => unitOf("unit", word)).toThrow(`got "${word}"`);
    },
  );

  test("no word stands for two units", () => {
    const said = [...WEIGHT_UNITS, ...VOLUME_UNITS].flatMap((name) =>
      [name, ...SPELLINGS[name]].map((word) => ({ name, word })),
    );
    for (const { name, word } of said) expect(unitOf("unit", word).name).toBe(name);
    // One and many of each; a doubling would leave fewer.
    expect(UNIT_WORDS.size).toBe(2 * said.length);
  });
});

describe("a unit is added in src/units.ts and nowhere else", () => {
  const names = [...WEIGHT_UNITS, ...VOLUME_UNITS];
  const written = spawnSync("git", ["ls-files"], { encoding: "utf8" })
    .stdout.split("\n")
    .filter((path) => /^(src|functions|taskpane|localsheet|docs)\/.*\.(ts|md|html)$/.test(path))
    .filter((path) => !/^docs\/(reference|sheets)\//.test(path) && existsSync(path));

  test.each(written)("%s has no list of units of its own", (path) => {
    const name = `["'\`]?(?:${names.join("|")})["'\`]?`;
    const list = new RegExp(`(?<![\\w-])${name}(?:(?:,? or |,\\s*| )${name}(?![\\w-])){2,}`);
    // What a demo types is no list of what there is.
    const text = readFileSync(path, "utf8").replace(/demo: \[[^\]]*\]/g, "");
    expect(list.exec(text)?.[0]).toBeUndefined();
  });

  test("the table of the reference, drop-downs and the texts of arguments follow", () => {
    const reference = readFileSync("docs/reference/README.md", "utf8");
    const rows = [...reference.matchAll(/^\| (\w+) \| [\d.e-]+ (?:g|mL) \| (.+) \|$/gm)];
    expect(rows.map(([, unit]) => unit)).toEqual(names);
    expect(rows.map(([, , also]) => also)).toEqual(names.map((unit) => SPELLINGS[unit].join(", ")));
    expect(PACK_UNITS).toEqual(names);
    for (const unit of names) expect(KINDS.unit.split(/,? /)).toContain(unit);
  });
});
