import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { vocRoom } from "../../src/index";
import { solve } from "../linear";
import { refuses } from "../refuses";

/** VOC of the product, from the definition. */
const vocAt = (load: number, base: number, oil: number, exempt: number) =>
  (1 - load) * base + Math.max(0, load - exempt) * oil;

const part = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);
const exemption = fc.constantFrom(0, 0.0025, 0.02, 0.1);

describe("VOCROOM", () => {
  test("by hand: a third point of fragrance keeps its VOC part, the base all of its own", () => {
    // Ethanol 18 % of the product, oil 3 % of it, half of the oil VOC: 18 + 0.5 = 18.5 %.
    expect(vocAt(0.03, 0.18 / 0.97, 0.5, 0.02)).toBeCloseTo(0.185, 12);
    const [[low, high, word]] = vocRoom(0.185, 0.18 / 0.97, 0.5, 0.02);
    expect(high).toBeCloseTo(0.03, 12);
    expect(low).toBeCloseTo(1 - 0.185 / (0.18 / 0.97), 12);
    expect(word).toBe("from the lowest to the highest");
  });

  test("at the ends the VOC is at the limit, between them within, beyond them above", () => {
    let [ends, none] = [0, 0];
    fc.assert(
      fc.property(part, part, part, exemption, (limit, base, oil, exempt) => {
        const [[low, high]] = vocRoom(limit, base, oil, exempt);
        const voc = (load: number) => vocAt(load, base, oil, exempt);
        const grid = Array.from({ length: 201 }, (_, i) => i / 200);
        if (typeof low === "string") {
          expect([...grid, exempt].every((load) => voc(load) > limit)).toBe(true);
          none++;
          return;
        }
        if (low > 0) expect(voc(low)).toBeCloseTo(limit, 9);
        if ((high as number) < 1) expect(voc(high as number)).toBeCloseTo(limit, 9);
        const top = high as number;
        const outside = grid.filter((load) => load < low - 1e-6 || load > top + 1e-6);
        const inside = grid.filter((load) => load >= low && load <= top);
        expect(outside.every((load) => voc(load) > limit)).toBe(true);
        expect(inside.every((load) => voc(load) <= limit + 1e-9)).toBe(true);
        ends++;
      }),
      { numRuns: 3000 },
    );
    expect(Math.min(ends, none)).toBeGreaterThan(300);
  }, 20_000);

  test("a linear-programming solver finds the same ends", () => {
    fc.assert(
      fc.property(part, part, part, exemption, (limit, base, oil, exempt) => {
        const [[low, high]] = vocRoom(limit, base, oil, exempt);
        // Load, what of it is counted (load - exempt or more), and a one.
        const programme = {
          worth: [1, 0, 0],
          equal: [{ factors: [0, 0, 1], to: 1 }],
          least: [
            [-1, 1, exempt],
            [base, -oil, limit - base],
          ],
          lows: [0, 0, 0],
          highs: [1, 1, 1],
        };
        if (typeof low === "string") {
          expect(() => solve("Maximize", programme)).toThrow("HiGHS: Infeasible");
        } else {
          // Where VOC hardly changes with the load, an end moves far for a rounding error.
          fc.pre(base === oil || Math.abs(base - oil) > 0.01);
          expect(low).toBeCloseTo(solve("Minimize", programme), 6);
          expect(high).toBeCloseTo(solve("Maximize", programme), 6);
        }
      }),
      { numRuns: 300 },
    );
  }, 20_000);

  test("the words", () => {
    const said = (...args: Parameters<typeof vocRoom>) => vocRoom(...args)[0];
    expect(said(0.18, 0.1, 0.1)).toEqual([0, 1, "any load keeps it"]);
    expect(said(0.18, 0.1, 0.9)[2]).toBe("up to the highest");
    // More oil lowers the VOC: at 5 % the product is above the limit.
    expect(said(0.18, 0.2, 0.1)).toEqual([expect.closeTo(0.2, 12), 1, "from the lowest up"]);
    expect(said(0.18, 0.4, 0.9)).toEqual(["none", "none", "no load keeps it"]);
    expect(said(0.18, 0.18, 0.9)[0]).toBe(0);
    // At 2 % of oil alone the product is just at the limit.
    expect(said(0.196, 0.2, 0.5, 0.02).slice(0, 2)).toEqual([
      expect.closeTo(0.02, 9),
      expect.closeTo(0.02, 9),
    ]);
  });

  test("a base that is known only as a range", () => {
    const said = (...args: Parameters<typeof vocRoom>) => vocRoom(...args)[0];
    const sure = said(0.18, 0.17, 0.5, 0.02);
    expect(said(0.18, 0.17, 0.5, 0.02, 0.17)).toEqual(sure);
    expect(said(0.18, 0.17, 0.5, 0.02, 0.1)).toEqual([
      ...sure.slice(0, 2),
      "up to the highest; beyond that the base decides",
    ]);
    expect(said(0.18, 0.1, 0.1, 0, 0.05)[2]).toBe("any load keeps it");
    expect(said(0.18, 0.4, 0.9, 0, 0.1)).toEqual([
      "none",
      "none",
      "no load surely keeps it: the base decides",
    ]);
    expect(said(0.18, 0.4, 0.9, 0, 0.3)[2]).toBe("no load keeps it");
    refuses(() => vocRoom(0.18, 0.2, 0.5, 0, 0.3), "least must be at most base, 20 %, got 30 %");
  });

  test("a typed zero is a zero, a blank is not known", () => {
    expect(vocRoom(0, 0, 0)[0]).toEqual([0, 1, "any load keeps it"]);
    expect(vocRoom(0.18, 0.2, 0.5, 0, 0)[0][2]).toBe("no load surely keeps it: the base decides");
    refuses(() => vocRoom(BLANK, 0.1, 0.9), "limit is blank");
    refuses(() => vocRoom(0.18, BLANK, 0.9), "base is blank");
    refuses(() => vocRoom(0.18, 0.1, BLANK), "oil is blank");
    refuses(() => vocRoom(18, 0.1, 0.9), "limit must be from 0 % to 100 %, got 1800 %: type 18 %");
  });
});
