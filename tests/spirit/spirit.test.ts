import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  spiritByVolume,
  spiritByWeight,
  spiritCut,
  spiritDensity,
  spiritMarry,
  turn,
} from "../../src/index";
import { VOLUME_UNITS } from "../../src/units";
import { published, rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

/** 60 degrees Fahrenheit, at which United States tables tell volumes. */
const F60 = 140 / 9;

/** Every printed density: "mass % = 30; t = 20 C" or "ABV 20C = 2 %; t = 20 C", in the row's unit. */
const densities = rowsOf("ethanol density").flatMap(({ id, inputs }) => {
  const match = /^(mass %|ABV 20C) = (\d+)(?: %)?; t = (-?\d+) C$/.exec(inputs);
  if (!match) return [];
  const [, measure, percent, celsius] = match;
  const by = measure === "mass %" ? "weight" : "volume";
  // Rows E1xx and E2xx print kg/m3, E3xx and E4xx g/mL.
  const scale = /^E[12]/.test(id) ? 1000 : 1;
  const strength = Number(percent) / 100;
  return [[id, () => spiritDensity(strength, by, Number(celsius)) * scale] as const];
});

describe("densities against OIML, OIV, the Bureau of Standards and Perry", () => {
  test("the table is read", () => {
    expect(densities.length).toBeGreaterThanOrEqual(49);
    expect(new Set(densities.map(([id]) => id.slice(0, 2)))).toEqual(
      new Set(["E1", "E2", "E3", "E4"]),
    );
  });

  holdToPublished(Object.fromEntries(densities));
});

/** Air's weight on a United States gallon scale, as 27 CFR 21.161 tells water's weight in air (E613). */
function gallonInAir(byWeight: number): number {
  const pounds = (p: number) =>
    turn(spiritDensity(p, "weight", F60) * turn(1, "gal", "mL"), "g", "lb");
  // What the air carries of a gallon is the same whatever is in it; brass weights 8.4 g/mL displace little.
  const carriedOfWater = pounds(0) - published("E613").expected;
  const brass = 8.4;
  const water = spiritDensity(0, "weight", F60);
  const air = carriedOfWater / (1 - water / brass);
  return pounds(byWeight) - air * (1 - spiritDensity(byWeight, "weight", F60) / brass);
}

/** Apparent specific gravity in air at 25 degrees over water at 25, air 0.0012 g/mL (common value). */
function gravityInAir(abvAtF60: number): number {
  const density = (p: number) => spiritDensity(p, "weight", 25) - 0.0012;
  return density(spiritByWeight(abvAtF60, F60)) / density(0);
}

describe("strengths against USP and the United States gauging tables, at 60 F", () => {
  const usp = rowsOf("ABV<->mass%").filter(({ id }) => /^E50\da$/.test(id));
  const percentOf = (inputs: string) => Number(/= (\d+) %/.exec(inputs)?.[1]) / 100;
  holdToPublished(
    Object.fromEntries(
      usp.map(({ id, inputs }) => [id, () => spiritByWeight(percentOf(inputs), F60) * 100]),
    ),
  );

  const gravities = rowsOf("ethanol density").filter(({ id }) => /^E50\dc$/.test(id));
  holdToPublished(
    Object.fromEntries(
      gravities.map(({ id, inputs }) => [id, () => gravityInAir(percentOf(inputs))]),
    ),
  );

  holdToPublished({
    // 190 and 200 proof weighed in air: wine gallons and proof gallons in a pound.
    E610: () => 1 / gallonInAir(spiritByWeight(0.95, F60)),
    E611: () => 1.9 / gallonInAir(spiritByWeight(0.95, F60)),
    E612: () => 2 / gallonInAir(1),
    // Parts of water in 100 volumes: what is needed beside the pure alcohol.
    E601: () => waterIn(0.955),
    E603: () => waterIn(0.56),
    D01: () => spiritCut(100, "gal", 0.56, 0.5, F60)[0][0],
    D03: () => spiritCut(100, "gal", 0.955, 0.94, F60)[0][0],
    D12: () => 40 * spiritDensity(1),
    D07: () => spiritMarry(40, 1, 60, 0)[0][0],
    D08: () => spiritMarry(50, 1, 50, 0)[0][0],
    D21: () => spiritCut(1000, "mL", 0.95, 0.7)[0][0],
    D23: () => spiritCut(1000, "mL", 0.96, 0.4)[0][0],
    D25: () => spiritCut(1000, "mL", 0.95, 0.6)[0][0],
    D05: () => spiritMarry(500, 0.95, 500, 0, 25)[0][0],
    R10: () => spiritDensity(0) * 1000,
    R13: () => spiritDensity(1) * 1000,
    R14: () => spiritDensity(1, "weight", 25) * 1000,
  });
});

/** Volumes of water that, with the pure alcohol, make 100 volumes at 60 F. */
function waterIn(abv: number): number {
  const mixture = 100 * spiritDensity(spiritByWeight(abv, F60), "weight", F60);
  const alcohol = 100 * abv * spiritDensity(1, "weight", F60);
  return (mixture - alcohol) / spiritDensity(0, "weight", F60);
}

const shares = fc.double({ min: 0, max: 1, noNaN: true });
const strengths = fc.double({ min: 0.01, max: 1, noNaN: true });
const warm = fc.double({ min: 0, max: 40, noNaN: true });

describe("laws", () => {
  test("the inverse gives the strength back to 1e-9", () => {
    fc.assert(
      fc.property(shares, warm, (abv, celsius) => {
        expect(Math.abs(spiritByVolume(spiritByWeight(abv, celsius), celsius) - abv)).toBeLessThan(
          1e-9,
        );
      }),
    );
  });

  test("stronger is lighter", () => {
    fc.assert(
      fc.property(shares, shares, (a, b) => {
        fc.pre(Math.abs(a - b) > 1e-6);
        expect(spiritDensity(Math.max(a, b))).toBeLessThan(spiritDensity(Math.min(a, b)));
      }),
    );
  });

  test("ethanol is conserved in a cut", () => {
    fc.assert(
      fc.property(strengths, strengths, warm, (a, b, celsius) => {
        const [abv, target] = [Math.max(a, b), Math.min(a, b)];
        const [[water, after]] = spiritCut(100, "mL", abv, target, celsius);
        expect(after * target).toBeCloseTo(100 * abv, 8);
        expect(water).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  test("strong alcohol and water shrink when they meet", () => {
    const strong = fc.double({ min: 0.5, max: 1, noNaN: true });
    fc.assert(
      fc.property(strong, fc.double({ min: 1, max: 300, noNaN: true }), (abv, water) => {
        expect(spiritMarry(100, abv, water, 0)[0][0]).toBeLessThan(100 + water);
      }),
    );
  });

  test("a cut is a marriage with water", () => {
    fc.assert(
      fc.property(strengths, strengths, warm, (a, b, celsius) => {
        const [abv, target] = [Math.max(a, b), Math.min(a, b)];
        const [[water, after]] = spiritCut(100, "mL", abv, target, celsius);
        const [[volume, strength]] = spiritMarry(100, abv, Math.max(0, water), 0, celsius);
        expect(volume).toBeCloseTo(after, 6);
        expect(strength).toBeCloseTo(target, 9);
      }),
    );
  });
});

describe("refusals", () => {
  test("out of the formula's range", () => {
    refuses(
      () => spiritDensity(0.7, "volume", 60),
      "celsius must be from -20 to 40 degrees Celsius, got 60",
    );
    refuses(
      () => spiritDensity(0.7, "volume", -20.5),
      "celsius must be from -20 to 40 degrees Celsius, got -20.5",
    );
    refuses(() => spiritDensity(70), "strength must be from 0 % to 100 %, got 7000 %: type 70 %");
    refuses(
      () => spiritDensity(0.7, "mass" as never),
      'by must be "volume" or "weight", got "mass"',
    );
  });

  test("a mixture that has begun to freeze", () => {
    // Engineering ToolBox: 20 % by volume freezes at -9 C, water at 0 C.
    refuses(
      () => spiritDensity(0.2, "volume", -10),
      "celsius must be -9 degrees Celsius or more, where this mixture begins to freeze, got -10",
    );
    refuses(
      () => spiritDensity(0, "volume", -1),
      "celsius must be 0 degrees Celsius or more, where this mixture begins to freeze, got -1",
    );
    expect(spiritDensity(0.2, "volume", -8)).toBeGreaterThan(0.97);
    expect(spiritDensity(0.5, "volume", -20)).toBeGreaterThan(0.94);
    refuses(
      () => spiritCut(100, "mL", 0.95, 0.7, -5),
      "celsius must be 0 degrees Celsius or more, where this mixture begins to freeze, got -5",
    );
  });

  test("zero is a temperature, not the default", () => {
    // OIML R 22, row E123 of the table: 90 % by weight at 0 C is 834.95 kg/m3.
    expect(spiritDensity(0.9, "weight", 0)).toBeCloseTo(0.83495, 5);
  });

  test("water makes nothing stronger", () => {
    refuses(() => spiritCut(100, "mL", 0.7, 0.95), "targetabv must be at most 70 %, got 95 %");
    refuses(() => spiritCut(0, "mL", 0.7, 0.5), "volume is blank or zero");
    refuses(
      () => spiritCut(100, "g", 0.7, 0.5),
      `unit must be a unit of volume (${VOLUME_UNITS.join(" ")}), got g, a unit of weight`,
    );
    refuses(() => spiritMarry(0, 0.7, 0, 0.5), "volumea and volumeb together is blank or zero");
    expect(spiritCut(100, "mL", 0.7, 0.7)).toEqual([[0, 100]]);
  });
});

test("a trace of alcohol is by weight what it is by volume, times its density over that of water", () => {
  // By hand: in so much water nothing shrinks. 789.24 and 998.20 kg/m3 at 20 C are those of OIML R 22.
  const traces = [1e-300, 1e-12, 1e-6];
  for (const trace of traces) expect(spiritByWeight(trace) / trace).toBeCloseTo(789.24 / 998.2, 4);
  expect([spiritByWeight(0), spiritByWeight(1)]).toEqual([0, 1]);
});
