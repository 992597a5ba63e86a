/** A whole column, A:A, where a list is asked for: 1,048,576 cells, few or all of them filled. */
import { describe, expect, test, vi } from "vitest";
import { BLANK, number } from "../src/errors";
import { cellsOf, list } from "../src/lists";
import {
  blendDensity,
  blendOf,
  bottleCost,
  fadeHalf,
  fillCheck,
  landed,
  packPlan,
  sizeRun,
  spraysIn,
} from "../src/index";
import { refuses } from "./refuses";

const ROWS = 1_048_576;

/** Not a limit on speed: others may be at work on the machine. */
vi.setConfig({ testTimeout: 300_000 });

/** A column with these cells at its head, and the rest alike. */
function column(rest: number, ...head: number[]): number[][] {
  const cells = new Array<number[]>(ROWS);
  for (let i = 0; i < ROWS; i++) cells[i] = [i < head.length ? head[i] : rest];
  return cells;
}

describe("few cells filled", () => {
  test("the answer is that of the few", () => {
    expect(blendOf(column(BLANK, 20, 25), column(BLANK, 0.95, 0.5))).toBeCloseTo(0.7, 12);
    expect(blendDensity(column(BLANK, 85, 15), column(BLANK, 0.85, 1))).toBeCloseTo(100 / 115, 12);
    expect(bottleCost(100, column(BLANK, 0.95, 0.05), column(BLANK, 0.01, 0.08))).toBeCloseTo(
      1.35,
      12,
    );
    const lines = landed(column(BLANK, 10, 20), column(BLANK, 2, 1), 10);
    expect([lines.length, ...lines.slice(0, 3).flat()]).toEqual([ROWS, 25, 25, 0]);
    const plan = packPlan(7, column(BLANK, 1, 4), column(BLANK, 2, 7));
    expect([plan.length, ...plan.slice(0, 3).flat()]).toEqual([ROWS, 3, 1, 0]);
    const grid = sizeRun(column(BLANK, 0.95, 0.05), [[60, 120]]);
    expect([grid.length, ...grid.slice(0, 3)]).toEqual([ROWS, [57, 114], [3, 6], [0, 0]]);
  });

  test("fills, weighings and scores are the few that are there", () => {
    const eu = (fills: (number | string)[][], batch?: number) =>
      fillCheck(fills, "mL", 100, "mL", "EU", undefined, undefined, batch);
    const fills = [101, BLANK, 102];
    expect(eu(column(BLANK, ...fills, 100.5))).toEqual(eu([[101], [102], [100.5]]));
    const sprays = spraysIn(column(BLANK, BLANK, 0.13, BLANK, 0.14, 0.15), "g", 100, "g");
    expect(sprays).toEqual(spraysIn([[0.13], [0.14], [0.15]], "g", 100, "g"));
    expect(fadeHalf(column(BLANK, 0, 2, 4, 8), column(BLANK, 8, 5, 4, 1))).toEqual(
      fadeHalf([[0], [2], [4], [8]], [[8], [5], [4], [1]]),
    );
  });

  test("a stray cell far below is told by its place", () => {
    const stray = column(BLANK, 20, 25);
    stray[ROWS - 1] = [3];
    refuses(() => blendOf(stray, column(BLANK, 0.95, 0.5)), `values, cell ${ROWS}, is blank`);
    refuses(() => packPlan(7, stray, column(BLANK, 2, 7)), `prices, cell ${ROWS}, is blank`);
    refuses(() => landed(column(BLANK, 1, 2), stray, 7), `prices, cell ${ROWS}, is blank`);
    const short = stray.slice(1);
    refuses(
      () => blendOf(stray, short),
      `values must have as many cells as amounts, got ${ROWS - 1} and ${ROWS}`,
    );
  });
});

describe("every cell filled", () => {
  test("sums of a million lines", () => {
    expect(blendOf(column(2), column(0.7))).toBeCloseTo(0.7, 9);
    expect(blendDensity(column(2), column(0.8))).toBeCloseTo(0.8, 9);
    // By hand: 2^20 lines of 1 with freight of 2^20, which each shares alike.
    expect(landed(column(1), column(1), ROWS)[ROWS - 1][0]).toBeCloseTo(2, 9);
    // Shares of 2^-20 each are a whole.
    expect(bottleCost(100, column(1 / ROWS), column(0.02))).toBeCloseTo(2, 9);
    expect(sizeRun(column(1 / ROWS), [[ROWS]])[ROWS - 1]).toEqual([1]);
  });

  test("a million fills, and a million weighings", () => {
    const answer = fillCheck(column(101), "mL", 100, "mL", "EU", undefined, undefined, ROWS);
    expect(answer[0][5]).toBe("kept by these");
    // By hand: 0.13 and 0.15 by turns are 0.14 on average.
    const weighed = Array.from({ length: ROWS }, (_, i) => [i % 2 ? 0.13 : 0.15]);
    expect(spraysIn(weighed, "g", 100, "g")[0][3]).toBeCloseTo(0.14, 9);
  });

  test("what no one can have meant is refused in words", () => {
    refuses(
      () => packPlan(7, column(1), column(2)),
      `sizes must hold at most 1000 packs on offer, got ${ROWS}`,
    );
    refuses(
      () => sizeRun(column(1 / ROWS), column(60)),
      "shares and fills must be shorter: the answer would have 1099511627780 cells",
    );
  });
});

test("a cell's name is there when an error asks for it", () => {
  const cells = cellsOf("hours", column(1));
  expect([cells.length, cells[ROWS - 1].name]).toEqual([ROWS, `hours, cell ${ROWS},`]);
  refuses(() => list("hours", column(1, 1, BLANK), number), "hours, cell 2, is blank");
  expect(cellsOf("hours", [[1]])[0]).toMatchObject({ name: "hours", cell: 1 });
});
