/** Ranges of what is not known exactly, held against a linear-programming solver. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { alcoholVolume, sdsTighten, vocShare } from "../../src/index";
import { solve } from "../linear";
import { columns, composition } from "./compositions";

/**
 * VOC less what is waived, in the shares and what is waived of each; the last variable is what is left of the
 * exemption. For the most: all fragrance is waived, or the whole exemption is.
 */
function withExemption(
  { lows, highs, counts }: { lows: number[]; highs: number[]; counts: boolean[] },
  exempt: number,
  voc: number[],
  isAll?: boolean,
) {
  const n = lows.length;
  const row = (...places: [number, number][]) => {
    const factors = Array<number>(2 * n + 1).fill(0);
    for (const [place, factor] of places) factors[place] = factor;
    return factors;
  };
  const every = (from: number): [number, number][] => lows.map((_, i) => [from + i, 1]);
  const notMore = lows.map((_, i) => row([i, 1], [n + i, -1]));
  return {
    worth: [...voc, ...voc.map((part) => -part), 0],
    equal: [
      { factors: row(...every(0)), to: 1 },
      { factors: row(...every(n), [2 * n, 1]), to: exempt },
      ...(isAll ? lows.flatMap((_, i) => (counts[i] ? [{ factors: notMore[i], to: 0 }] : [])) : []),
    ],
    least: notMore,
    lows: [...lows, ...Array<number>(n + 1).fill(0)],
    highs: [...highs, ...counts.map((each) => (each ? 1 : 0)), isAll === false ? 0 : exempt],
  };
}

describe("ranges against a linear-programming solver", () => {
  test("SDSTIGHTEN", () => {
    fc.assert(
      fc.property(composition, ({ lows, highs }) => {
        const narrow = sdsTighten(columns(lows), columns(highs));
        const equal = [{ factors: lows.map(() => 1), to: 1 }];
        narrow.forEach(([low, high], i) => {
          const worth = lows.map((_, j) => (i === j ? 1 : 0));
          expect(low).toBeCloseTo(solve("Minimize", { worth, equal, lows, highs }), 7);
          expect(high).toBeCloseTo(solve("Maximize", { worth, equal, lows, highs }), 7);
        });
      }),
      { numRuns: 60 },
    );
  });

  test("VOCSHARE", () => {
    fc.assert(
      fc.property(composition, ({ lows, highs, vocLows, vocHighs }) => {
        const [[low, high]] = vocShare(columns(lows, highs), columns(vocLows, vocHighs));
        const equal = [{ factors: lows.map(() => 1), to: 1 }];
        expect(low).toBeCloseTo(solve("Minimize", { worth: vocLows, equal, lows, highs }), 7);
        expect(high).toBeCloseTo(solve("Maximize", { worth: vocHighs, equal, lows, highs }), 7);
      }),
      { numRuns: 150 },
    );
  });

  test("VOCSHARE with an exemption", () => {
    let binding = 0;
    fc.assert(
      fc.property(composition, fc.constantFrom(0.0025, 0.02, 0.1, 0.4), (product, exempt) => {
        const { lows, highs, vocLows, vocHighs, counts } = product;
        const flags = counts.map((each) => [each ? "yes" : "no"]);
        const voc = columns(vocLows, vocHighs);
        const [[low, high]] = vocShare(columns(lows, highs), voc, flags, exempt);
        expect(low).toBeCloseTo(solve("Minimize", withExemption(product, exempt, vocLows)), 7);
        // No programme by itself: either all fragrance is waived, or just so much of it.
        const ways = [false, true].map((isAll) => {
          try {
            return solve("Maximize", withExemption(product, exempt, vocHighs, isAll));
          } catch {
            return Number.NEGATIVE_INFINITY;
          }
        });
        expect(high).toBeCloseTo(Math.max(...ways), 7);
        if (ways[0] > Number.NEGATIVE_INFINITY && counts.includes(true)) binding++;
      }),
      { numRuns: 300 },
    );
    expect(binding).toBeGreaterThan(100);
  });

  test("ALCOHOLVOLUME (Charnes and Cooper's form of the linear-fractional programme)", () => {
    fc.assert(
      fc.property(composition, ({ lows, highs, densities, counts }) => {
        const flags = counts.map((each) => [each ? 1 : "no"]);
        const [[low, high]] = alcoholVolume(columns(lows, highs), columns(densities), flags);
        // y = t x share, with the volume held at 1; the last variable is t.
        const n = lows.length;
        const volumes = [...densities.map((density) => 1 / density), 0];
        const unit = (i: number, sign: number, t: number) => [
          ...lows.map((_, j) => (i === j ? sign : 0)),
          t,
        ];
        const programme = {
          worth: volumes.map((volume, i) => (counts[i] ? volume : 0)),
          equal: [
            { factors: volumes, to: 1 },
            { factors: [...lows.map(() => 1), -1], to: 0 },
          ],
          least: lows.flatMap((from, i) => [unit(i, 1, -from), unit(i, -1, highs[i])]),
          lows: Array(n + 1).fill(0),
          highs: Array(n + 1).fill(1000),
        };
        expect(low).toBeCloseTo(solve("Minimize", programme), 6);
        expect(high).toBeCloseTo(solve("Maximize", programme), 6);
      }),
      { numRuns: 150 },
    );
  });
});
