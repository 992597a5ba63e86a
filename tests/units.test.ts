import * as math from "mathjs";
import { describe, expect, test } from "vitest";
import { turn } from "../src/index";
import { VOLUME_UNITS, WEIGHT_UNITS, unitOf } from "../src/units";
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
  expect([...WEIGHT_UNITS, ...VOLUME_UNITS]).toHaveLength(15);
  refuses(
    () => unitOf("from", "cup"),
    "from must be a weight (mg g kg oz lb) or a volume " +
      '(mL L tsp tbsp floz pt qt gal impfloz impgal), got "cup"',
  );
});
