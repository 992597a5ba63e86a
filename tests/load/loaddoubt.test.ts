import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { loadDoubt, loadSpan } from "../../src/index";
import { uniform } from "../chance";
import { refuses } from "../refuses";

type Basis = "finished" | "base";
const loadOf = (oil: number, base: number, basis: Basis) =>
  oil / (basis === "finished" ? oil + base : base);

/** Loads that such readings can mean, each reading anywhere within half a step (JCGM 101). */
function simulated(oil: number, base: number, step: number, basis: Basis, readings: number) {
  const draw = uniform(100 + readings);
  const off = () => {
    let sum = 0;
    for (let i = 0; i < readings; i++) sum += (draw() - 0.5) * step;
    return sum;
  };
  return Array.from({ length: 40_000 }, () =>
    loadOf(Math.max(0, oil + off()), base + off(), basis),
  );
}

describe("LOADDOUBT", () => {
  test("GUM F.2.2.1 (from memory): a step of a digital display gives 0.29 of it", () => {
    // Of a load of no oil only the oil's reading is uncertain: u = 0.29 x step / base.
    const [[, doubt]] = loadDoubt(0, 100, 1, "base");
    expect((doubt * 100).toFixed(2)).toBe("0.29");
  });

  test("by hand: 3 g in 57 g on a scale of 0.1 g", () => {
    const u = 0.1 / (2 * Math.sqrt(3));
    // Slopes: base / (oil + base)^2 and oil / (oil + base)^2.
    const doubt = Math.sqrt(((57 / 3600) * u) ** 2 + ((3 / 3600) * u) ** 2);
    const [answer] = loadDoubt(3, 57, 0.1);
    expect(answer[1]).toBeCloseTo(doubt, 15);
    expect(answer).toEqual([0.05, answer[1], 0.05 - 2 * answer[1], 0.05 + 2 * answer[1]]);
    // A tare taken off by subtraction: twice the variance.
    expect(loadDoubt(3, 57, 0.1, "finished", 2)[0][1] ** 2).toBeCloseTo(2 * doubt ** 2, 15);
  });

  test.each([
    [3, 57, 0.1, "finished", 1],
    [3, 57, 0.1, "base", 2],
    [30, 30, 0.1, "finished", 2],
    [1, 9, 1, "finished", 1],
    [0.4, 7.6, 0.1, "base", 4],
  ] as const)("Monte Carlo: %f and %f, step %f, of the %s, %i readings", (...call) => {
    const [oil, base, step, basis, readings] = call;
    const [[load, doubt, low, high]] = loadDoubt(oil, base, step, basis, readings);
    const loads = simulated(oil, base, step, basis, readings);
    const mean = loads.reduce((a, b) => a + b, 0) / loads.length;
    const spread = Math.sqrt(loads.reduce((a, b) => a + (b - mean) ** 2, 0) / loads.length);
    expect(Math.abs(mean / load - 1)).toBeLessThan(0.015);
    expect(Math.abs(spread / doubt - 1)).toBeLessThan(0.03);
    expect(
      loads.filter((each) => low <= each && each <= high).length / loads.length,
    ).toBeGreaterThan(0.95);
  });

  test("down to the least base that is not refused, low and high take in 95 %", () => {
    for (const basis of ["finished", "base"] as const) {
      for (const readings of [1, 2, 4]) {
        const base = 5 * Math.sqrt(readings);
        for (const oil of [0.5, 1, 3, 5, 10, 50]) {
          const [[, , low, high]] = loadDoubt(oil, base, 1, basis, readings);
          const loads = simulated(oil, base, 1, basis, readings);
          const held = loads.filter((each) => low <= each && each <= high).length / loads.length;
          expect(held, `${oil} of ${base}, ${basis}, ${readings}`).toBeGreaterThan(0.949);
        }
      }
    }
  });

  test("beside LOADSPAN: a little oil reaches beyond it, as its comment says; much does not", () => {
    const [[, , low, high]] = loadDoubt(3, 57, 0.1);
    const [[least, most]] = loadSpan(3, 57, 0.1);
    expect([low < least, high > most]).toEqual([true, true]);
    const wide = loadDoubt(30, 30, 0.1)[0];
    const worst = loadSpan(30, 30, 0.1)[0];
    expect([wide[2] > worst[0], wide[3] < worst[1]]).toEqual([true, true]);
  });

  test("never below nothing; a typed zero is a zero, a blank is not known", () => {
    expect(loadDoubt(0, 50, 0.1)[0][2]).toBe(0);
    refuses(() => loadDoubt(BLANK, 57, 0.1), "oil is blank");
    refuses(() => loadDoubt(3, BLANK, 0.1), "base is blank");
    refuses(() => loadDoubt(3, 57, BLANK), "readability is blank");
    refuses(() => loadDoubt(3, 57, 0), "readability is blank or zero");
    refuses(() => loadDoubt(0, 0, 0.1), "oil and base together is blank or zero");
    refuses(() => loadDoubt(3, 57, 0.1, "finished", 0), "readings is blank or zero");
    refuses(
      () => loadDoubt(3, 57, 0.1, "finished", 1.5),
      "readings must be a whole number, got 1.5",
    );
    refuses(
      () => loadDoubt(1, 4, 1),
      "base must be 5 or more for a step of 1, got 4: weigh more, or take LOADSPAN",
    );
    expect(loadDoubt(0.1, 0.5, 0.1)[0][0]).toBeCloseTo(1 / 6, 12);
  });
});
