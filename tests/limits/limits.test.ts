import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Cells, largeLimits } from "../../src/cells";
import { BLANK } from "../../src/errors";
import {
  alcoholVolume,
  safeLoad,
  sdsTighten,
  spiritByWeight,
  spiritDensity,
  topLoad,
  vocShare,
} from "../../src/index";
import { rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";
import { columns, composition, uniform } from "./compositions";

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
    // By hand: 1 / (0.5 / 0.1 + 0.5 / 1).
    expect(safeLoad([[0.5], [0.5]], [[0.1], ["Not Limited"]])).toBeCloseTo(1 / 5.5, 15);
    expect(safeLoad([[0.5], [0.5]], [[0.1], [1]])).toBeCloseTo(1 / 5.5, 15);
    expect(safeLoad([[0.5], [0.5]], [[0.1], ["NOT APPROVED"]])).toBe(0);
    // By hand: 1 / (0.5 + 0.5 / 0.08).
    expect(safeLoad([[0.5], [0.5]], [["100%"], ["8 %"]])).toBeCloseTo(1 / 6.75, 15);
    expect(safeLoad([[1]], [["not limited"]])).toBe(1);
    // An oil that is not in the blend needs no certificate.
    for (const none of [0, BLANK]) expect(safeLoad([[1], [none]], [[0.05], [""]])).toBe(0.05);
  });

  test("not limited is a limit of 100 %: 1 % of a substance in such an oil is still 1 %", () => {
    // By hand: a substance bounded at 1 %, 10 % of oil A and 1 % of oil B. At 20 % it would be 1.1 %.
    const load = safeLoad([[0.5], [0.5]], [[0.1], ["not limited"]]);
    expect(load * (0.5 * 0.1 + 0.5 * 0.01)).toBeCloseTo(0.01, 15);
  });

  test("no substance exceeds its bound, whatever is in the oils (counter-examples searched)", () => {
    const part = (max: number) => uniform(0, max);
    const blends = fc
      .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 6 }))
      .chain(([oils, substances]) => {
        const many = <T>(of: fc.Arbitrary<T>, length: number) =>
          fc.array(of, { minLength: length, maxLength: length });
        return fc.record({
          bounds: many(uniform(1e-5, 0.2), substances),
          // Concentrations of an oil, most of them about the bounds, so that many oils are not limited.
          oils: many(many(fc.oneof(part(0.01), part(1), fc.constant(0)), substances), oils),
          shares: many(uniform(0.01, 1), oils),
        });
      });
    let unlimited = 0;
    fc.assert(
      fc.property(blends, ({ bounds, oils, shares }) => {
        // A certificate: the least bound over concentration; of 100 % and above it says "not limited".
        const limits = oils.map((oil) => Math.min(...oil.map((has, i) => bounds[i] / has)));
        const said = limits.map((limit) => (limit >= 1 ? "not limited" : limit));
        const whole = shares.reduce((a, b) => a + b, 0);
        const parts = shares.map((share) => share / whole);
        const load = safeLoad([parts], [said]);
        if (said.includes("not limited") && said.some((each) => each !== "not limited"))
          unlimited++;
        bounds.forEach((bound, i) => {
          const inProduct = oils.reduce((sum, oil, j) => sum + load * parts[j] * oil[i], 0);
          expect(inProduct).toBeLessThanOrEqual(bound * (1 + 1e-9));
        });
      }),
      { numRuns: 2000 },
    );
    expect(unlimited).toBeGreaterThan(100);
  });

  test("a limit typed as a number above 50 % is said back in words", () => {
    expect(largeLimits("limits", [[0.1], [0.98], ["not limited"], [1], [0.5]])).toBe(
      "cell 2: limit 98 %; cell 4: limit 100 %",
    );
    expect(largeLimits("limits", [[0.0098], ["98 %"], [""]])).toBe("none is above 50 %");
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

  test("a blank line is no part; one of the two blank is not known", () => {
    expect(sdsTighten([[0.5], [0.3], [BLANK]], [[0.8], [0.4], [BLANK]])).toEqual([
      [expect.closeTo(0.6, 12), expect.closeTo(0.7, 12)],
      [expect.closeTo(0.3, 12), expect.closeTo(0.4, 12)],
      [0, 0],
    ]);
    refuses(() => sdsTighten([[0.5], [BLANK]], [[0.8], [0.5]]), "lows, cell 2, is blank");
    refuses(() => sdsTighten([[0.5], [0.2]], [[BLANK], [0.5]]), "highs, cell 1, is blank");
    refuses(
      () => sdsTighten([[0.5], [0.2]], [[0.8]]),
      "highs must have as many cells as lows, got 1 and 2",
    );
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
  const oil = [["no"], ["yes"], ["no"], ["no"]];
  holdToPublished({
    voc_calc_1: () => vocShare(parts, voc, oil, 0.02)[0][0] * 100,
    voc_calc_2: () => vocShare(parts, voc, oil, 0.0025)[0][0] * 100,
    voc_calc_3: () => vocShare([[0.2], [0.015], [0.05], [0.735]], voc, oil, 0.02)[0][0] * 100,
  });

  test("the exemption waives the first points of fragrance, never a part of the alcohol", () => {
    const product = [[0.18], [0.03], [0.79]];
    const flags = [["no"], ["yes"], ["no"]];
    const counted = (ofOil: number) => vocShare(product, [[1], [ofOil], [0]], flags, 0.02);
    // By hand (40 CFR 59.203(e)): the third point keeps its half; an oil without VOC waives nothing.
    expect(counted(0.5)[0][0]).toBeCloseTo(0.185, 15);
    expect(counted(0)[0][0]).toBeCloseTo(0.18, 15);
    expect(counted(1)[0][0]).toBeCloseTo(0.19, 15);
  });

  test("of unlike oils those with least VOC are waived first; of a range, either", () => {
    const product = [[0.9], [0.02], [0.01], [0.07]];
    const flags = [["no"], ["yes"], ["yes"], ["no"]];
    const points = [[0], [1], [0.2], [1]];
    // By hand: 2 % of oil and 7 % of alcohol, and 1 % of the leaner oil; of 1.5 % the leaner goes first.
    const all = 0.02 + 0.01 * 0.2 + 0.07;
    expect(vocShare(product, points, flags, 0.015)).toEqual([
      [expect.closeTo(all - 0.01 * 0.2 - 0.005, 15)],
    ]);
    const known = points.map(([each]) => [each, each]);
    expect(vocShare(product, known, flags, 0.015)).toEqual([
      [expect.closeTo(all - 0.015, 15), expect.closeTo(all - 0.01 * 0.2 - 0.005, 15)],
    ]);
  });

  test("any composition within the ranges counts between the two ends (by simulation)", () => {
    fc.assert(
      fc.property(composition, fc.constantFrom(0.01, 0.05, 0.3), (product, exempt) => {
        const { lows, highs, vocLows, vocHighs, counts } = product;
        const flags = counts.map((each) => [each ? "yes" : "no"]);
        const both = columns(vocLows, vocHighs);
        const [[low, high]] = vocShare(columns(lows, highs), both, flags, exempt);
        // Between the lows and the highs, so that they sum to 100 %.
        const [least, most] = [lows, highs].map((list) => list.reduce((a, b) => a + b, 0));
        const by = (1 - least) / (most - least);
        const shares = lows.map((from, i) => from + by * (highs[i] - from));
        const middle = vocLows.map((from, i) => (from + vocHighs[i]) / 2);
        // Waived as they come, the first lines first.
        let left = exempt;
        const counted = shares.reduce((sum, share, i) => {
          const waived = counts[i] ? Math.min(left, share) : 0;
          left -= waived;
          return sum + (share - waived) * middle[i];
        }, 0);
        expect(counted).toBeGreaterThanOrEqual(low - 1e-9);
        expect(counted).toBeLessThanOrEqual(high + 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  test("the estimate by volume reads low, by as much as its comment and the guide say (OIML R 22)", () => {
    const gapAt = (byVolume: number) => {
      const byWeight = spiritByWeight(byVolume);
      const [water, ethanol] = [0, 1].map((each) => spiritDensity(each, "weight"));
      const additive = alcoholVolume(
        [[byWeight], [1 - byWeight]],
        [[ethanol], [water]],
        [["yes"], ["no"]],
      )[0][0];
      return byVolume - additive;
    };
    const told = readFileSync("docs/limits.md", "utf8").match(/\| [\d.]+ % \| [\d.]+ points? \|/g);
    expect(told?.length).toBeGreaterThan(7);
    for (const line of told ?? []) {
      const [, strength, points] = /\| ([\d.]+) % \| ([\d.]+) points? \|/.exec(line) ?? [];
      expect((gapAt(Number(strength) / 100) * 100).toFixed(2), line).toBe(points);
    }
    const gaps = Array.from({ length: 999 }, (_, i) => gapAt((i + 1) / 1000));
    expect(Math.max(...gaps)).toBeGreaterThan(0.0225);
    expect(Math.max(...gaps)).toBeLessThan(0.023);
    expect(Math.min(...gaps)).toBeGreaterThan(-1e-6);
    // So a reading of 23.5 % is 24 %, and what reads above 24 % is above it.
    expect(0.24 - gapAt(0.24)).toBeCloseTo(0.235, 4);
    expect(gapAt(0.24)).toBeCloseTo(0.005, 4);
  });

  test("yes and no, and lines with nothing in them", () => {
    const one = (word: string | number) =>
      alcoholVolume([[0.5], [0.5], [0]], [[0.8], [1], [0]], [[word], ["no"], [""]])[0][0];
    const expected = 0.5 / 0.8 / (0.5 / 0.8 + 0.5);
    for (const word of ["yes", "YES", 1, "1", "TRUE"]) expect(one(word)).toBeCloseTo(expected, 12);
    for (const word of ["no", "No ", "FALSE"]) expect(one(word)).toBe(0);
    for (const word of ["", " ", 0])
      refuses(() => one(word), "line 1 of isalcohol is blank: type yes or no");
    refuses(() => one("some"), 'line 1 of isalcohol must be yes or no, got "some"');
    // A wholly blank line stays no part, as a blank comes and as a zero.
    const rest = [[0.8], [1], [BLANK]];
    for (const none of [0, BLANK])
      expect(
        alcoholVolume([[0.5], [0.5], [none]], rest, [["yes"], ["no"], [""]])[0][0],
      ).toBeCloseTo(expected, 12);
  });

  test("what is blank beside a share is an error that names the cell", () => {
    const two = [[0.5], [0.5], [BLANK]];
    const flags: Cells = [["yes"], ["no"], [""]];
    expect(vocShare(two, [[1], [0], [BLANK]], flags, 0.02)[0][0]).toBeCloseTo(0.48, 15);
    refuses(() => vocShare(two, [[1], [BLANK], [BLANK]]), "vocshares, cell 2, is blank");
    refuses(() => vocShare(two, [[BLANK], [0], [0]]), "vocshares, cell 1, is blank");
    const range = [
      [1, 1],
      [0, BLANK],
      [BLANK, BLANK],
    ];
    refuses(() => vocShare(two, range), "high of vocshares, cell 2, is blank");
    refuses(
      () => vocShare(two, [[1], [0], [0]], [["yes"], [""], [""]], 0.02),
      "line 2 of fragrance is blank: type yes or no",
    );
    refuses(
      () => vocShare(two, [[1], [0], [0]], [["yes"], [0], [""]], 0.02),
      "line 2 of fragrance is blank: type yes or no",
    );
    refuses(
      () =>
        vocShare(
          [
            [0.5, 1],
            [BLANK, 0.5],
            [BLANK, BLANK],
          ],
          [[1], [0], [0]],
        ),
      "low of shares, cell 2, is blank",
    );
    refuses(
      () => alcoholVolume([[0.5], [0.5]], [[0.8], [BLANK]], [["yes"], ["no"]]),
      "densities, cell 2, is blank",
    );
  });

  test("fragrance is told line by line", () => {
    const lines = "a cell for each line of shares, yes for the lines that are fragrance";
    refuses(
      () => vocShare(parts, voc, undefined, 0.02),
      `fragrance is needed with exempt: ${lines}`,
    );
    for (const exempt of [undefined, 0.02])
      refuses(
        () => vocShare(parts, voc, [[0.03]], exempt),
        `fragrance must be yes or no, ${lines}, got 3 %`,
      );
    refuses(
      () => vocShare(parts, voc, [[0]], 0.02),
      `fragrance must be yes or no, ${lines}, got 0 %`,
    );
    refuses(
      () => vocShare(parts, voc, [["yes"], ["no"]], 0.02),
      "fragrance must have as many cells as shares, got 2 and 4",
    );
    // Without an exemption nothing is waived.
    expect(vocShare(parts, voc)).toEqual([[expect.closeTo(0.23, 15)]]);
    expect(vocShare(parts, voc, oil)).toEqual([[expect.closeTo(0.23, 15)]]);
    expect(vocShare([[1]], [[0.5]], [[1]], 0.02)).toEqual([[expect.closeTo(0.49, 15)]]);
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
      () => alcoholVolume([[0.5], [0.5]], [[0.8], [0]], [["yes"], ["no"]]),
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
