import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  alcoholVolume,
  safeLoad,
  sdsTighten,
  spiritByVolume,
  topLoad,
  vocShare,
} from "../../src/index";
import { solve } from "../linear";
import { rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

describe("SAFELOAD", () => {
  holdToPublished({
    ifra_blend_max: () => safeLoad([[0.5, 0.5]], [[0.1, 0.04]]) * 100,
    // 3 % and 2 % of oil are 5 % of a blend of 60 and 40: four fifths of what is allowed.
    ifra_blend_safe: () => 0.05 / safeLoad([[0.6, 0.4]], [[0.1, 0.04]]),
  });

  test("at the load it allows, the oils use up their limits and no more", () => {
    const oils = fc.array(
      fc.tuple(
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.double({ min: 0.001, max: 0.99, noNaN: true }),
      ),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(oils, (blend) => {
        const whole = blend.reduce((sum, [part]) => sum + part, 0);
        const shares = blend.map(([part]) => part / whole);
        const load = safeLoad([shares], [blend.map(([, limit]) => limit)]);
        const used = shares.reduce((sum, share, i) => sum + (share * load) / blend[i][1], 0);
        if (load < 1) expect(used).toBeCloseTo(1, 9);
        else expect(used).toBeLessThanOrEqual(1 + 1e-9);
      }),
    );
  });

  test("the words of certificates (two 51st-amendment certificates: number, Not Approved, Not Limited, 100%)", () => {
    expect(safeLoad([[0.5], [0.5]], [[0.1], ["Not Limited"]])).toBe(0.2);
    expect(safeLoad([[0.5], [0.5]], [[0.1], ["NOT APPROVED"]])).toBe(0);
    expect(safeLoad([[0.5], [0.5]], [["100%"], ["8 %"]])).toBeCloseTo(0.16, 12);
    expect(safeLoad([[1]], [["not limited"]])).toBe(1);
    // An oil that is not in the blend needs no certificate.
    expect(safeLoad([[1], [0]], [[0.05], [""]])).toBe(0.05);
  });

  test("refusals", () => {
    const blank = 'limits, cell 2, is blank: type a percent, "not limited" or "not approved"';
    refuses(() => safeLoad([[0.5], [0.5]], [[0.1], [""]]), blank);
    refuses(() => safeLoad([[0.5], [0.5]], [[0.1], [0]]), blank);
    refuses(
      () => safeLoad([[0.5], [0.5]], [[0.1], [4]]),
      "limits, cell 2, must be from 0 % to 100 %, got 400 %: type 4 %",
    );
    refuses(
      () => safeLoad([[0.5], [0.5]], [[0.1], ["ask"]]),
      'limits, cell 2, must be a percent, "not limited" or "not approved", got "ask"',
    );
    refuses(
      () => safeLoad([[0.5], [0.4]], [[0.1], [0.1]]),
      "shares must sum to 100 % within 0.1 %, got 90 %",
    );
  });
});

describe("TOPLOAD", () => {
  test("the lowest, and which", () => {
    expect(topLoad([["skin"], ["supplier"], ["VOC"]], [[0.08], [0.05], ["not limited"]])).toEqual([
      [0.05, "supplier"],
    ]);
    expect(topLoad([["skin"], ["supplier"]], [[0.05], [0.05]])).toEqual([
      [0.05, "skin and supplier"],
    ]);
    expect(topLoad([["skin"], ["VOC"]], [["not approved"], [0.05]])).toEqual([[0, "skin"]]);
    expect(topLoad([["skin"]], [["not limited"]])).toEqual([[1, "not limited"]]);
    expect(topLoad([["skin"], [""]], [[0.05], [""]])).toEqual([[0.05, "skin"]]);
  });

  test("refusals", () => {
    refuses(
      () => topLoad([["skin"], ["VOC"]], [[0.05], [""]]),
      'limits, cell 2, is blank: type a percent, "not limited" or "not approved"',
    );
    refuses(() => topLoad([[""]], [[""]]), "labels and limits must hold a line");
    refuses(
      () => topLoad([["a"], ["b"]], [[0.05]]),
      "limits must have as many cells as labels, got 1 and 2",
    );
  });
});

/** A composition known as ranges: something to widen on either side of real shares. */
const composition = fc
  .array(
    fc.tuple(
      fc.double({ min: 0.02, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      fc.double({ min: 0, max: 0.3, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0.7, max: 1.3, noNaN: true }),
    ),
    { minLength: 2, maxLength: 8 },
  )
  .map((lines) => {
    const whole = lines.reduce((sum, [part]) => sum + part, 0);
    // Six decimals, as a sheet would hold, and so that the solver reads just what we do.
    const six = (value: number) => Number(value.toFixed(6));
    const floor = (value: number) => six(Math.floor(value * 1e6) / 1e6);
    return {
      lows: lines.map(([part, below]) => floor(Math.max(0, part / whole - below))),
      highs: lines.map(([part, , above]) => six(Math.min(1, part / whole + above + 1e-6))),
      vocLows: lines.map(([, , , a, b]) => six(Math.min(a, b))),
      vocHighs: lines.map(([, , , a, b]) => six(Math.max(a, b))),
      densities: lines.map(([, , , , , density]) => six(density)),
      counts: lines.map(([, , , a]) => a > 0.5),
    };
  });

const columns = (...lists: number[][]) => lists[0].map((_, i) => lists.map((list) => list[i]));

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

  test("ALCOHOLVOLUME (Charnes and Cooper's form of the linear-fractional programme)", () => {
    fc.assert(
      fc.property(composition, ({ lows, highs, densities, counts }) => {
        const flags = counts.map((each) => [each ? 1 : 0]);
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

describe("SDSTIGHTEN", () => {
  test("the ranges that the law prescribes stay what they are where nothing narrows them", () => {
    const ranges = rowsOf("SDS ranges").filter(({ id }) => /^range_[a-m]$/.test(id));
    expect(ranges).toHaveLength(13);
    for (const { expected } of ranges) {
      const [low, high] = expected.split("-").map((percent) => Number(percent) / 100);
      const [[from, to]] = sdsTighten([[low], [0]], [[high], [1]]);
      expect([from, to]).toEqual([low, high]);
    }
  });

  test("by hand: 60-80, 10-30 and 1-5 leave at least 65 for the first", () => {
    const [[low, high]] = sdsTighten([[0.6], [0.1], [0.01]], [[0.8], [0.3], [0.05]]);
    expect([low, high]).toEqual([1 - 0.35, 0.8].map((each) => expect.closeTo(each, 12)));
  });

  test("rows come back as rows; ranges that cannot be are told with their sums", () => {
    expect(sdsTighten([[0.6, 0.1]], [[0.9, 0.3]])).toEqual([
      [expect.closeTo(0.7, 12), expect.closeTo(0.1, 12)],
      [expect.closeTo(0.9, 12), expect.closeTo(0.3, 12)],
    ]);
    refuses(
      () => sdsTighten([[0.6], [0.5]], [[0.8], [0.6]]),
      "lows and highs must be able to sum to 100 %: the lows sum to 110 %, the highs to 140 %",
    );
    refuses(
      () => sdsTighten([[0.1], [0.2]], [[0.3], [0.4]]),
      "lows and highs must be able to sum to 100 %: the lows sum to 30 %, the highs to 70 %",
    );
    refuses(
      () => sdsTighten([[0.5], [0.2]], [[0.3], [0.9]]),
      "highs, line 1, must have a high of at least 50 %, got 30 %",
    );
  });
});

describe("VOC and alcohol", () => {
  const parts = [[0.2], [0.03], [0.05], [0.72]];
  const voc = [[1], [1], [0], [0]];
  holdToPublished({
    voc_calc_1: () => vocShare(parts, voc, 0.03, 0.02)[0][0] * 100,
    voc_calc_2: () => vocShare(parts, voc, 0.03, 0.0025)[0][0] * 100,
    voc_calc_3: () => vocShare([[0.2], [0.015], [0.05], [0.735]], voc, 0.015, 0.02)[0][0] * 100,
  });

  test("the estimate by volume reads low by up to 2.3 points, as its comment says", () => {
    const gaps = Array.from({ length: 99 }, (_, i) => {
      const byWeight = (i + 1) / 100;
      const additive = alcoholVolume(
        [[byWeight], [1 - byWeight]],
        [[0.78924], [0.9982]],
        [["yes"], ["no"]],
      )[0][0];
      return spiritByVolume(byWeight) - additive;
    });
    expect(Math.max(...gaps)).toBeGreaterThan(0.0225);
    expect(Math.max(...gaps)).toBeLessThan(0.0235);
    expect(Math.min(...gaps)).toBeGreaterThan(-1e-4);
  });

  test("yes and no, and lines with nothing in them", () => {
    const one = (word: string | number) =>
      alcoholVolume([[0.5], [0.5], [0]], [[0.8], [1], [0]], [[word], ["no"], [""]])[0][0];
    const expected = 0.5 / 0.8 / (0.5 / 0.8 + 0.5);
    for (const word of ["yes", "YES", 1, "1", "TRUE"]) expect(one(word)).toBeCloseTo(expected, 12);
    for (const word of ["no", 0, "", "FALSE"]) expect(one(word)).toBe(0);
    refuses(() => one("some"), 'isalcohol, cell 1, must be yes or no, got "some"');
  });

  test("refusals", () => {
    refuses(
      () => vocShare([[0.5], [0.4]], [[1], [0]]),
      "shares must sum to 100 % within 0.1 %, got 90 %",
    );
    refuses(
      () => vocShare([[0.5], [0.5]], [[1]]),
      "vocshares must have as many lines as shares, got 1 and 2",
    );
    refuses(
      () =>
        vocShare(
          [
            [0.5, 0.6],
            [0.6, 0.7],
          ],
          [[1], [0]],
        ),
      "shares must be able to sum to 100 %: the lows sum to 110 %, the highs to 130 %",
    );
    refuses(
      () => alcoholVolume([[0.5], [0.5]], [[0.8], [0]], [[1], [0]]),
      "densities, cell 2, is blank or zero",
    );
    refuses(
      () =>
        vocShare(
          [
            [0.5, 0.5, 0.1],
            [0.5, 0.5, 0.1],
            [0, 0, 0],
          ],
          [[1], [0]],
        ),
      "shares must be one column, or two (low and high), got 3 x 3 cells",
    );
  });
});
