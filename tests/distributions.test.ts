import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { chiSquareTail, studentReach } from "../src/distributions";

const DEGREES = [1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 7, 10, 13.5, 20, 29, 50, 99, 400, 2500];

describe("Student's t", () => {
  // scipy.stats 1.17.1, t.ppf.
  test.each([
    [0.975, 1, 12.706204736174694],
    [0.975, 2, 4.302652729749462],
    [0.975, 2.5, 3.5746548420036817],
    [0.995, 4, 4.604094871349992],
    [0.975, 28, 2.0484071417952454],
    [0.975, 999_999, 1.9599663568164791],
    [0.6, 3.5, 0.27326545405577973],
  ])("chance %f with %f degrees of freedom is %f", (chance, degrees, t) => {
    expect(Math.abs(studentReach(chance, degrees) / t - 1)).toBeLessThan(1e-12);
  });

  // By hand: the t of one degree is the tangent of an angle, and that of two a root.
  test.each([0.51, 0.75, 0.9, 0.975, 0.999, 0.99999])("chance %f in closed form", (chance) => {
    const apart = 2 * chance - 1;
    const ofOne = Math.tan((Math.PI / 2) * apart);
    const ofTwo = apart * Math.sqrt(2 / (1 - apart ** 2));
    expect(Math.abs(studentReach(chance, 1) / ofOne - 1)).toBeLessThan(1e-10);
    expect(Math.abs(studentReach(chance, 2) / ofTwo - 1)).toBeLessThan(1e-10);
  });

  test("a chance of one half is reached at zero", () => {
    expect(studentReach(0.5, 3)).toBe(0);
  });

  test("jstat has the same to the digits that it is good for, at 1,700 points", () => {
    for (const degrees of DEGREES) {
      for (let i = 0; i < 100; i++) {
        const chance = 0.5 + 0.4995 * ((i + 0.5) / 100);
        const theirs = jstat.studentt.inv(chance, degrees);
        expect(Math.abs(studentReach(chance, degrees) / theirs - 1)).toBeLessThan(1e-6);
      }
    }
  });
});

describe("chi-square", () => {
  // scipy.stats 1.17.1, chi2.sf.
  test.each([
    [0, 3, 1],
    [6.5, 2, 0.03877420783172202],
    [3.84, 1, 0.05004352124870519],
    [20, 7, 0.005569683072945574],
    [100, 29, 9.783455552333214e-10],
    [10_000, 9999, 0.4952983945386835],
    [80, 2, 4.248354255291595e-18],
    [500, 4, 6.69966744100855e-107],
  ])("%f or more with %i degrees of freedom has the chance %f", (chi, degrees, chance) => {
    expect(Math.abs(chiSquareTail(chi, degrees) / chance - 1)).toBeLessThan(1e-11);
  });

  test("jstat has the same to the digits that it is good for, at 2,000 points", () => {
    for (const degrees of [1, 2, 3, 4, 5, 9, 19, 29, 100, 400]) {
      for (let i = 0; i < 200; i++) {
        const chi = degrees * 3 * (i / 200);
        const theirs = 1 - jstat.chisquare.cdf(chi, degrees);
        expect(Math.abs(chiSquareTail(chi, degrees) - theirs)).toBeLessThan(1e-9);
      }
    }
  });
});
