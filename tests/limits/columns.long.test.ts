import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { alcoholVolume, safeLoad, sdsTighten, topLoad, vocShare } from "../../src/index";

/** Rows of a whole column in Excel. */
const ROWS = 1_048_576;

/** A whole column of which the first lines are filled. */
function column<T>(filled: T[], blank: T): T[][] {
  return Array.from({ length: ROWS }, (_, i) => [i < filled.length ? filled[i] : blank]);
}
const pair = (filled: number[][]) =>
  Array.from({ length: ROWS }, (_, i) => filled[i] ?? [BLANK, BLANK]);

/** Lines that are all filled: more than can be handed to one call, which is where spreading ends. */
const LINES = 200_000;
const each = <T>(of: (line: number) => T): T[][] =>
  Array.from({ length: LINES }, (_, i) => [of(i)]);

/** Long enough for a busy machine; nothing is timed. */
const PATIENCE = 120_000;

// Expected values by hand: those of the lines that are filled.
describe("a whole column, most of it blank", () => {
  test(
    "certificates",
    () => {
      const shares = column([0.5, 0.5], BLANK);
      expect(safeLoad(shares, column<number | string>([0.1, 0.04], ""))).toBeCloseTo(2 / 35, 12);
      expect(
        topLoad(
          column<number | string>(["skin", "VOC"], ""),
          column<number | string>([0.08, 0.05], ""),
        ),
      ).toEqual([[0.05, "VOC"]]);
    },
    PATIENCE,
  );

  test(
    "ranges",
    () => {
      const narrow = sdsTighten(column([0.6, 0.1], BLANK), column([0.8, 0.3], BLANK));
      expect(narrow).toHaveLength(ROWS);
      expect(narrow.slice(0, 3)).toEqual([
        [expect.closeTo(0.7, 12), 0.8],
        [expect.closeTo(0.2, 12), 0.3],
        [0, 0],
      ]);
      const shares = pair([
        [0.6, 0.8],
        [0.2, 0.4],
      ]);
      const flags = column<number | string>(["no", "yes"], "");
      expect(vocShare(shares, column([1, 0.5], BLANK), flags, 0.02)).toEqual([
        [expect.closeTo(0.79, 12), expect.closeTo(0.89, 12)],
      ]);
      const part = (share: number) => share / 0.8 / (share / 0.8 + 1 - share);
      expect(
        alcoholVolume(shares, column([0.8, 1], BLANK), column<number | string>(["yes", "no"], "")),
      ).toEqual([[expect.closeTo(part(0.6), 12), expect.closeTo(part(0.8), 12)]]);
    },
    PATIENCE,
  );
});

describe("long ranges, all of them filled", () => {
  const shares = each(() => 1 / LINES);

  test(
    "certificates",
    () => {
      expect(
        safeLoad(
          shares,
          each(() => 0.1),
        ),
      ).toBeCloseTo(0.1, 9);
      const [[least, label]] = topLoad(
        each((i) => `line ${i}`),
        each((i) => 0.5 + i / 1e7),
      );
      expect([least, label]).toEqual([0.5, "line 0"]);
    },
    PATIENCE,
  );

  test(
    "ranges",
    () => {
      const ranges = Array.from({ length: LINES }, (_, i) => [0.5 / LINES, (1 + (i % 7)) / LINES]);
      const lows = ranges.map(([low]) => [low]);
      const highs = ranges.map(([, high]) => [high]);
      expect(sdsTighten(lows, highs)[1]).toEqual(ranges[1]);
      const half = each((i) => (i % 1000) / 1000);
      const flags = each((i) => (i % 2 ? "yes" : "no"));
      const [[low, high]] = vocShare(ranges, half, flags, 0.02);
      expect(low).toBeLessThan(high);
      const [[least, most]] = alcoholVolume(
        ranges,
        each((i) => 0.8 + (i % 300) / 1000),
        flags,
      );
      expect(least).toBeLessThan(most);
    },
    PATIENCE,
  );

  test(
    "what is wrong in the last line is told by its cell",
    () => {
      const certificates = each<number | string>((i) => (i === LINES - 1 ? "" : 0.1));
      expect(() => safeLoad(shares, certificates)).toThrow(`limits, cell ${LINES}, is blank`);
      const one = each((i) => (i === LINES - 1 ? BLANK : 0));
      expect(() => vocShare(shares, one)).toThrow(`vocshares, cell ${LINES}, is blank`);
    },
    PATIENCE,
  );
});
