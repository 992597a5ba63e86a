import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { densityOf, dropRate, dropsFor, fillWeight, turn } from "../../src/index";
import { VOLUME_UNITS, WEIGHT_UNITS } from "../../src/units";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

const units = fc.constantFrom(...WEIGHT_UNITS, ...VOLUME_UNITS);
const amounts = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
const densities = fc.double({ min: 0.5, max: 2, noNaN: true });

test("TURN there and back", () => {
  fc.assert(
    fc.property(amounts, units, units, densities, (amount, from, to, density) => {
      const back = turn(turn(amount, from, to, density), to, from, density);
      expect(Math.abs(back - amount)).toBeLessThanOrEqual(1e-12 * amount);
    }),
  );
});

test("weight and volume never cross without a density", () => {
  refuses(
    () => turn(1, "lb", "floz"),
    "density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
  );
  refuses(
    () => turn(1, "floz", "lb"),
    "density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
  );
  // A zero that was typed is no density left out.
  refuses(() => turn(1, "g", "mL", 0), "density is blank or zero");
  refuses(() => turn(1, "g", "oz", 0), "density is blank or zero");
  fc.assert(
    fc.property(
      fc.constantFrom(...WEIGHT_UNITS),
      fc.constantFrom(...VOLUME_UNITS),
      (weight, volume) => {
        expect(() => turn(1, weight, volume)).toThrow(/density is needed/);
        expect(() => turn(1, volume, weight)).toThrow(/density is needed/);
      },
    ),
  );
});

describe("density and drops against published exercises", () => {
  holdToPublished({
    // 45 g at a density of 1.25 g/mL.
    A14: () => turn(45, "g", "mL", 1.25),
    A16: () => densityOf(8.5, "g", 10, "mL"),
    // 35 drops fill 2 mL: at 1 g/mL they weigh 2 g.
    P41: () => dropRate(35, 2, "g", 1),
    // GNU units' drop is 1/20 mL, so one drop at 20 drops per mL is 0.05 mL.
    U42: () => 1 / dropsFor(1, "mL", 20),
  });
});

test("drops counted and drops asked for agree", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 500 }),
      fc.double({ min: 0.1, max: 50, noNaN: true }),
      densities,
      (n, grams, d) => {
        expect(dropsFor(grams, "g", dropRate(n, grams, "g", d), d)).toBeCloseTo(n, 8);
      },
    ),
  );
});

test("a filled bottle has the density that it was filled by", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 100, noNaN: true }),
      fc.constantFrom(...VOLUME_UNITS),
      densities,
      (v, unit, d) => {
        const found = densityOf(fillWeight(v, unit, d), "g", v, unit);
        expect(Math.abs(found - d)).toBeLessThanOrEqual(1e-12 * d);
      },
    ),
  );
  // By hand: 2 % more than 85 g.
  expect(fillWeight(100, "mL", 0.85, 0.02)).toBeCloseTo(86.7, 12);
});

test("refusals", () => {
  const [weights, volumes] = [WEIGHT_UNITS, VOLUME_UNITS].map((names) => names.join(" "));
  refuses(
    () => turn(1, "cup", "mL"),
    `from must be a weight (${weights}) or a volume (${volumes}), got "cup"`,
  );
  refuses(() => turn(-1, "g", "oz"), "amount must be zero or more, got -1");
  refuses(
    () => densityOf(1, "floz", 1, "mL"),
    `weightunit must be a unit of weight (${weights}), got floz, a unit of volume`,
  );
  refuses(
    () => densityOf(1, "g", 1, "oz"),
    `volumeunit must be a unit of volume (${volumes}), got oz, a unit of weight`,
  );
  refuses(() => densityOf(0, "g", 1, "mL"), "weight is blank or zero");
  refuses(
    () => dropsFor(1, "g", 20),
    "density is needed: g is a weight and mL a volume; weigh a known volume to find it",
  );
  refuses(() => dropsFor(1, "mL", 0), "dropsperml is blank or zero");
  refuses(
    () => dropRate(20, 1, "mL", 0.9),
    `unit must be a unit of weight (${weights}), got mL, a unit of volume`,
  );
  refuses(() => dropRate(20, 1, "g", 0), "density is blank or zero");
  refuses(() => fillWeight(4, "floz", 0), "density is blank or zero");
  refuses(
    () => fillWeight(4, "oz", 0.9),
    `unit must be a unit of volume (${volumes}), got oz, a unit of weight`,
  );
  refuses(
    () => fillWeight(4, "floz", 0.9, 2),
    "overfill must be from 0 % to 100 %, got 200 %: type 2 %",
  );
  refuses(() => turn(1, "g", "mL", -1), "density must be zero or more, got -1");
});
