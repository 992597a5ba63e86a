import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { fillCheck } from "../../src/index";
import { normal } from "../chance";
import { refuses } from "../refuses";

const column = (values: (number | string)[]) => values.map((value) => [value]);
const eu = (fills: (number | string)[], stated: number, batch?: number) =>
  fillCheck(column(fills), "mL", stated, "mL", "EU", undefined, undefined, batch)[0];
const word = (answer: unknown[]) => answer[5];

describe("FILLCHECK: the allowed error of the EU", () => {
  // gov.uk, Packaged goods (seen in the text): percents are rounded up to a tenth of a gram or millilitre.
  test.each([
    [5, 0.5],
    [30, 2.7],
    [50, 4.5],
    [75, 4.5],
    [100, 4.5],
    [118, 5.4],
    [150, 6.8],
    [200, 9],
    [250, 9],
    [400, 12],
    [500, 15],
    [750, 15],
    [1000, 15],
    [2000, 30],
    [10000, 150],
  ])("of %f mL is %f mL", (stated, error) => {
    const over = [stated * 1.01, stated * 1.02];
    expect(stated - (eu(over, stated)[2] as number)).toBeCloseTo(error, 9);
  });

  test("in another unit it is the same", () => {
    const fills = column([4.1, 4.2]);
    const [answer] = fillCheck(fills, "floz", 4, "floz", "EU");
    // 4 fl oz are 118.294 mL, 4.5 % of them 5.323, rounded up 5.4.
    expect((4 - (answer[2] as number)) * 29.5735295625).toBeCloseTo(5.4, 9);
  });

  test("outside the table", () => {
    refuses(() => eu([4, 4.1], 4), "stated must be from 5 to 10000 mL for the EU, got 4 mL");
    refuses(
      () => fillCheck(column([11, 12]), "kg", 11, "kg", "EU"),
      "stated must be from 5 to 10000 g for the EU, got 11000 g",
    );
  });
});

describe("FILLCHECK: the average of a sample", () => {
  // SI 2006/659, schedule 2, 4.5 and 4.6, and 76/211/EEC, annex II 2.3.3 (seen in the text).
  test.each([
    [20, 0.64],
    [30, 0.503],
    [50, 0.379],
  ])("of %i may be %f standard deviations below", (count, factor) => {
    const apart = 2 * Math.sqrt((count - 1) / count);
    const fills = Array.from({ length: count }, (_, i) => 100 + (i % 2 ? apart : -apart));
    const needed = eu(fills, 100)[1] as number;
    expect((100 - needed) / 2).toBeCloseTo(factor, 3);
  });

  // NIST Handbook 133, table 2-1 (from memory): sample correction factors.
  test.each([
    [2, 8.985],
    [12, 0.635],
    [24, 0.422],
    [48, 0.29],
  ])("in the US of %i may be %f", (count, factor) => {
    const apart = 2 * Math.sqrt((count - 1) / count);
    const fills = Array.from({ length: count }, (_, i) => 100 + (i % 2 ? apart : -apart));
    const [answer] = fillCheck(column(fills), "mL", 100, "mL", "US", undefined, 6);
    expect((100 - (answer[1] as number)) / 2).toBeCloseTo(factor, 3);
  });

  test("a batch that lies just at what is stated is called too low in 0.5 % of samples", () => {
    const draw = normal(1976);
    const trials = 8000;
    let low = 0;
    for (let i = 0; i < trials; i++) {
      const fills = Array.from({ length: 30 }, () => draw(100, 1));
      if (word(eu(fills, 100)) === "not kept: the average is too low") low++;
    }
    // 40 of 8000 expected, with a standard deviation of 6.3.
    expect(low).toBeGreaterThan(20);
    expect(low).toBeLessThan(62);
  });

  test("of a batch that was weighed whole it may not be low at all", () => {
    const fills = [99.6, 99.9, 100.2, 100, 100.1];
    expect(eu(fills, 100)[1]).toBeLessThan(99.53);
    expect(word(eu(fills, 100))).toBe("undecided: the average is low, by no more than chance");
    expect(eu(fills, 100, 5)[1]).toBe(100);
    expect(word(eu(fills, 100, 5))).toBe("not kept: the average is too low");
    expect(word(eu([100, 100, 100], 100, 3))).toBe("kept by these");
    expect(word(eu([100.4], 100, 1))).toBe("kept by these");
  });

  test("published: 12 packs of 454 g, allowed 9 g, are within both (Minitab, Net content limits)", () => {
    const packs = [452, 453, 453, 454, 454, 454, 455, 455, 455, 456, 456, 457];
    const [answer] = fillCheck(column(packs), "g", 454, "g", "US", undefined, 9);
    expect(answer[0]).toBe(454.5);
    expect(answer.slice(2)).toEqual([445, 0, 0, "kept by these"]);
  });
});

describe("FILLCHECK: bottles that are short", () => {
  // Enough in the others that the average is never the question.
  const withShort = (count: number, short: number) =>
    Array.from({ length: count }, (_, i) => (i < short ? 95 : 103));
  const said = (count: number, short: number) => word(eu(withShort(count, short), 100));
  const SHORT = "not kept: too many short";
  const MORE = "undecided: some are short, weigh more";

  // 76/211/EEC, annex II 2.2.1 and 2.2.2 (seen in the text): sample, accepted, rejected.
  test.each([
    [20, 1, 2],
    [30, 1, 3],
    [50, 2, 5],
    [80, 4, 7],
    [100, 6, 7],
    [160, 8, 9],
  ])("of %i, %i pass and %i do not", (count, accept, reject) => {
    for (let short = 0; short <= accept; short++) expect(said(count, short)).toBe("kept by these");
    for (let short = accept + 1; short < reject; short++) expect(said(count, short)).toBe(MORE);
    expect(said(count, reject)).toBe(SHORT);
  });

  test("between plans the stricter holds: as many may pass as of the next smaller sample", () => {
    expect([0, 1, 2].map((short) => said(12, short))).toEqual(["kept by these", MORE, SHORT]);
    expect([1, 2, 4, 5].map((short) => said(45, short))).toEqual([
      "kept by these",
      MORE,
      MORE,
      SHORT,
    ]);
    expect([8, 9].map((short) => said(300, short))).toEqual(["kept by these", MORE]);
  });

  test("of a batch weighed whole 5 % may be short (SI 2006/659, schedule 2, 3.6, seen)", () => {
    const said = (count: number, short: number) => word(eu(withShort(count, short), 100, count));
    expect([said(40, 2), said(40, 3), said(19, 1)]).toEqual(["kept by these", SHORT, SHORT]);
  });

  test("a batch under 100 is weighed whole (76/211/EEC, annex II 2.1.3, seen)", () => {
    const fills = withShort(12, 0);
    expect(word(eu(fills, 100, 60))).toBe("undecided: weigh all of so small a batch");
    expect(word(eu(fills, 100, 100))).toBe("kept by these");
  });

  test("none below twice the allowed error (76/211/EEC, annex I 1.3, seen)", () => {
    expect(eu([90.9, ...Array<number>(79).fill(103)], 100).slice(3)).toEqual([
      1,
      1,
      "not kept: below twice the allowed error",
    ]);
    expect(eu([91, ...Array<number>(79).fill(103)], 100).slice(3)).toEqual([1, 0, "kept by these"]);
  });

  test("a fill just at the bound is not short", () => {
    expect(eu([95.5, 103, 104], 100)[3]).toBe(0);
    // 95.5 mL of a liquid of 0.87 g/mL, which no binary number is.
    const grams = column([95.5 * 0.87, 90, 91]);
    expect(fillCheck(grams, "g", 100, "mL", "EU", 0.87)[0][3]).toBe(0);
  });

  test("US: none beyond the allowed variation, one of 48 (from memory)", () => {
    const us = (count: number, short: number) =>
      word(fillCheck(column(withShort(count, short)), "mL", 100, "mL", "US", undefined, 4.9)[0]);
    expect([us(12, 0), us(12, 1), us(24, 1)]).toEqual(["kept by these", SHORT, SHORT]);
    expect([us(48, 1), us(48, 2)]).toEqual(["kept by these", SHORT]);
  });
});

describe("FILLCHECK: plausible and wrong", () => {
  test("bottles weighed with their glass are not called full", () => {
    const gross = fillCheck(column([171, 172, 171.5]), "g", 100, "mL", "EU", 0.9)[0];
    expect(word(gross)).toBe("undecided: far above what is stated, without the bottle?");
  });

  test("grams are not millilitres", () => {
    refuses(
      () => fillCheck(column([91, 92]), "g", 100, "mL", "EU"),
      "density is needed: g is a weight and mL a volume; weigh a known volume to find it",
    );
    const [answer] = fillCheck(column([90, 90.9]), "g", 100, "mL", "EU", 0.9);
    expect(answer[0]).toBeCloseTo(100.5, 9);
  });

  test("refusals", () => {
    const fine = column([101, 102]);
    refuses(
      () => fillCheck(fine, "mL", 100, "mL", "US"),
      "allowed is needed for the US: look the maximum allowable variation up in NIST Handbook 133",
    );
    refuses(
      () => fillCheck(fine, "mL", 100, "mL", "US", undefined, 100),
      "allowed must be below stated, 100, got 100",
    );
    refuses(
      () => fillCheck(fine, "mL", 100, "mL", "Canada" as never),
      'rule must be "EU" or "US", got "Canada"',
    );
    refuses(() => fillCheck(fine, "mL", BLANK, "mL", "EU"), "stated is blank");
    refuses(() => eu([101, 0, 102], 100), "fills, cell 2, is blank or zero");
    refuses(() => eu([101], 100), "fills must hold 2 or more, got 1");
    refuses(
      () => eu([101, 102, 103], 100, 2),
      "batch must be a whole number, at least the 3 fills, got 2",
    );
  });
});
