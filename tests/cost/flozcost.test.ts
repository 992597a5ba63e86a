import fc from "fast-check";
import { expect, test } from "vitest";
import { flozCost, turn } from "../../src/index";
import { VOLUME_UNITS } from "../../src/units";
import { refuses } from "../refuses";

test("a gallon is 128 fluid ounces, a pound is not 16", () => {
  // By hand: 1 US gal = 128 US fl oz by definition.
  expect(flozCost(128, 1, "gal")).toBeCloseTo(1, 12);
  expect(flozCost(64, 1, "gal", undefined, 64)).toBeCloseTo(1, 12);
  refuses(
    () => flozCost(16, 1, "lb"),
    "density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
  );
  expect(flozCost(16, 1, "lb", 0.85)).not.toBeCloseTo(1, 1);
});

test("the same pack costs the same in any unit of volume", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 500, noNaN: true }),
      fc.constantFrom(...VOLUME_UNITS),
      (price, unit) => {
        const size = turn(5, "L", unit);
        const [a, b] = [flozCost(price, size, unit), flozCost(price, 5, "L")];
        expect(Math.abs(a / b - 1)).toBeLessThan(1e-12);
      },
    ),
  );
});

test("a pack in one text is the same pack", () => {
  // By hand: half a gallon is 64 fl oz; 4 of 250 mL are a litre.
  expect(flozCost(64, "1/2 gal jug")).toBeCloseTo(1, 12);
  expect(flozCost(10, "4 x 250 mL")).toBe(flozCost(10, 1, "L"));
  expect(flozCost(20, "1 lb", undefined, 0.85, 5, 0.1)).toBe(flozCost(20, 1, "lb", 0.85, 5, 0.1));
  refuses(
    () => flozCost(20, "32 oz"),
    "density is needed: oz is a weight and floz a volume; weigh a known volume to find it",
  );
  refuses(
    () => flozCost(20, "1 gal", "gal"),
    'size must be a number beside a unit, got "1 gal": leave the unit out',
  );
  refuses(() => flozCost(20, 1), "unit is blank");
  expect(() => flozCost(20, "1 lb or 16 fl oz")).toThrow("more than one size");
});

test("what is lost makes the rest dearer", () => {
  // By hand: a fifth lost, the rest costs a quarter more.
  expect(flozCost(128, 1, "gal", undefined, 0, 0.2)).toBeCloseTo(1.25, 12);
});

test("refusals", () => {
  refuses(() => flozCost(0, 1, "gal"), "price is blank or zero");
  refuses(() => flozCost(10, 0, "gal"), "size is blank or zero");
  refuses(() => flozCost(10, 1, ""), "unit is blank");
  refuses(() => flozCost(10, 1, "gal", undefined, -1), "freight must be zero or more, got -1");
  refuses(() => flozCost(10, 1, "gal", undefined, 0, 1), "loss must be below 100 %, got 100 %");
  refuses(
    () => flozCost(10, 1, "gal", undefined, 0, 2),
    "loss must be from 0 % to 100 %, got 200 %: type 2 %",
  );
});
