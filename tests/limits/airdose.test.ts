import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { airDose } from "../../src/index";
import { WEIGHT_UNITS } from "../../src/units";
import { refuses } from "../refuses";

describe("AIRDOSE", () => {
  // CDC, MMWR 43 RR-13 (1994), table S3-1: air changes an hour, minutes to clear 90, 99 and 99.9 %.
  test.each([
    [1, 138, 276, 414],
    [2, 69, 138, 207],
    [4, 35, 69, 104],
    [6, 23, 46, 69],
    [10, 14, 28, 41],
    [12, 12, 23, 35],
    [15, 9, 18, 28],
    [20, 7, 14, 21],
    [50, 3, 6, 8],
  ])("published: %i air changes clear in %i, %i and %i minutes (CDC)", (changes, ...minutes) => {
    minutes.forEach((minute, i) => {
      const left = (at: number) => airDose(1, "g", 1, "m3", changes, at / 60)[0][0];
      // The minutes are rounded to whole ones.
      expect(left(minute - 0.5)).toBeGreaterThanOrEqual(10 ** -(i + 1) * (1 - 1e-9));
      expect(left(minute + 0.5)).toBeLessThanOrEqual(10 ** -(i + 1) * (1 + 1e-9));
    });
  });

  test("the mean is that of the dose over the time (Simpson's rule)", () => {
    for (const [changes, hours] of [
      [0.5, 1],
      [2, 8],
      [1e-4, 0.01],
      [6, 3],
    ]) {
      const at = (t: number) => airDose(2, "g", 30, "m3", changes, t)[0][0];
      const n = 2000;
      const step = hours / n;
      let area = at(0) + at(hours);
      for (let i = 1; i < n; i++) area += (i % 2 ? 4 : 2) * at(i * step);
      const [[, mean]] = airDose(2, "g", 30, "m3", changes, hours);
      expect(mean).toBeCloseTo((area * step) / 3 / hours, 9);
    }
  });

  test("by hand: five strokes of 0.14 g in 20 m3 are 0.035 g/m3 at once", () => {
    const both = [expect.closeTo(0.035, 12), expect.closeTo(0.035, 12)];
    expect(airDose(0.7, "g", 20, "m3", 0.5, 0)[0]).toEqual(both);
    expect(airDose(700, "mg", 20, "m3", 0, 24)[0]).toEqual(both);
  });

  test("cubic feet: 1000 ft3 are 28.316846592 m3", () => {
    const feet = airDose(1, "g", 1000, "ft3", 1, 1)[0];
    const metres = airDose(1, "g", 28.316846592, "m3", 1, 1)[0];
    feet.forEach((dose, i) => expect(dose).toBeCloseTo(metres[i], 12));
  });

  test("a typed zero is a zero, a blank is not known", () => {
    expect(airDose(0, "g", 20, "m3", 1, 1)[0]).toEqual([0, 0]);
    refuses(() => airDose(BLANK, "g", 20, "m3", 1, 1), "weight is blank");
    refuses(() => airDose(1, "g", BLANK, "m3", 1, 1), "room is blank");
    refuses(() => airDose(1, "g", 0, "m3", 1, 1), "room is blank or zero");
    refuses(() => airDose(1, "g", 20, "m3", BLANK, 1), "airchanges is blank");
    refuses(() => airDose(1, "g", 20, "m3", 1, BLANK), "hours is blank");
    refuses(() => airDose(1, "g", 20, "" as never, 1, 1), "roomunit is blank");
    refuses(
      () => airDose(1, "mL", 20, "m3", 1, 1),
      `unit must be a unit of weight (${WEIGHT_UNITS.join(" ")}), got mL, a unit of volume`,
    );
    refuses(() => airDose(1, "g", 20, "m3", -1, 1), "airchanges must be zero or more, got -1");
  });
});
