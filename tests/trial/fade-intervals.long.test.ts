/** Intervals of the fade, held by simulation and by other ways to the same. */
import { describe, expect, test } from "vitest";
import { fadeHalf, lastsFor } from "../../src/index";
import type { Cell } from "../../src/cells";
import { fitFade } from "../../src/trial/fade";
import { marksOf } from "../../src/trial/marks";
import { uniform } from "../chance";
import { LIVES, LOG_HOURS, normal, scored } from "./noise";

const column = (values: (number | string)[]) => values.map((value) => [value]);
const HOURS = [0, 1, 2, 4, 6, 8];

/** True where a number lies in an interval whose ends may be words. */
function holds([, low, high]: Cell[], truth: number): boolean {
  const from = typeof low === "number" ? low : low === "no lower end" ? 0 : Number(low.slice(5));
  const to =
    typeof high === "number" ? high : /^under/.test(high) ? Number(high.slice(6)) : Infinity;
  return from <= truth && truth <= to;
}

const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];

describe("the half-life of whole scores on the log's own hours", () => {
  // What 600 noses would write down that smell a curve from 9, and err by half a point or more.
  for (const [life, scatter] of LIVES.flatMap((each) => [
    [each, 0.5],
    [each, 0.8],
  ])) {
    test(`of ${life} h, noise ${scatter}: 91 to 99 intervals of 100 hold the truth, the middle is near it`, () => {
      const noise = normal(1000 * life + 10 * scatter);
      const rows = Array.from({ length: 600 }, () => {
        const scores = scored(LOG_HOURS, 9, life, scatter, noise);
        return fadeHalf([LOG_HOURS], [scores])[0];
      });
      const inside = rows.filter((row) => holds(row, life)).length / rows.length;
      expect(inside).toBeGreaterThanOrEqual(0.91);
      expect(inside).toBeLessThanOrEqual(0.99);
      const lives = rows.map(([each]) => (typeof each === "number" ? each : Infinity));
      expect(Math.abs(median(lives) / life - 1)).toBeLessThan(0.05);
    });
  }

  test("where the nose errs less than the rounding, they hold it too", () => {
    // Rounding alone would make intervals that hold the truth in 72 of 100 rows (noise 0.2, 4 h).
    const noise = normal(20);
    const rows = Array.from({ length: 1000 }, () => scored(LOG_HOURS, 9, 4, 0.2, noise));
    const inside = rows.filter((row) => holds(fadeHalf([LOG_HOURS], [row])[0], 4));
    expect(inside.length).toBeGreaterThanOrEqual(910);
  });
});

describe("the hours until a floor", () => {
  test.each(LIVES)("of whole scores with a half-life of %s h: 91 of 100 hold it", (life) => {
    const noise = normal(77 + life);
    const truth = life * Math.log2(9 / 2);
    const inside = Array.from({ length: 600 }, () => {
      const scores = scored(LOG_HOURS, 9, life, 0.6, noise);
      return holds(lastsFor([LOG_HOURS], [scores], 2, 1)[0], truth);
    }).filter(Boolean);
    expect(inside.length / 600).toBeGreaterThanOrEqual(0.91);
  });

  test.each([0.1, 0.5])(
    "of readings that err by the part (%s), by their logarithms: 95",
    (part) => {
      const noise = normal(5);
      const inside = Array.from({ length: 3000 }, () => {
        const scores = HOURS.map((hour) => 8 * 2 ** (-hour / 4) * Math.exp(part * noise()));
        // Where the fitted start is below the floor there is no answer to hold.
        try {
          return holds(lastsFor(column(HOURS), column(scores), 1)[0], 12);
        } catch {
          return false;
        }
      }).filter(Boolean);
      expect(inside.length / 3000).toBeGreaterThan(0.935);
      expect(inside.length / 3000).toBeLessThan(0.965);
    },
  );

  test("logs: an interval holds just the hours of the falling lines that the data allow", () => {
    // Another way to the same: lines of all slopes and levels within the ellipse of Student's t.
    const next = uniform(31);
    let unbounded = 0;
    for (let round = 0; round < 1500; round++) {
      const hours = HOURS.slice(0, 3 + Math.floor(4 * next()));
      const scores = hours.map(() => 1 + Math.floor(9 * next()));
      const floor = 0.5 + 9 * next();
      const row = answer(hours, scores, floor, "logs");
      if (!row) continue;
      if (row.some((cell) => cell === "no upper end")) unbounded++;
      const [low, high] = linesThrough(hours, scores, floor);
      if (typeof row[1] === "number") expect(close(row[1], Math.max(0, low))).toBe(true);
      else expect(low === -Infinity || low > hours[hours.length - 1]).toBe(true);
      if (typeof row[2] === "number") expect(close(row[2], high)).toBe(true);
      else if (typeof row[0] === "number") expect(high).toBe(Infinity);
    }
    expect(unbounded).toBeGreaterThan(300);
  });

  test("scores: at an end, the best curve that is at the floor just then leaves what it may", () => {
    // Another way to the same: the hour is held, and the rate that leaves least is searched for.
    const noise = normal(63);
    let ends = 0;
    for (let round = 0; round < 60; round++) {
      const row = scored(LOG_HOURS, 8, LIVES[round % 5], 1, noise);
      const { most } = fitFade(marksOf([LOG_HOURS], [row]));
      for (const end of answer(LOG_HOURS, row, 2, "scores")?.slice(1) ?? []) {
        if (typeof end !== "number" || end === 0) continue;
        ends++;
        const left = (rate: number) =>
          row.reduce(
            (all, score, i) => all + (score - 2 * 2 ** (-rate * (LOG_HOURS[i] - end))) ** 2,
            0,
          );
        let best = 0.005;
        for (const step of [1.002, 1.00001]) {
          const from = step === 1.002 ? 0.0005 : best / 1.002;
          const to = step === 1.002 ? 80 : best * 1.002;
          for (let rate = from; rate < to; rate *= step) if (left(rate) < left(best)) best = rate;
        }
        const least = left(best);
        expect(least / most).toBeCloseTo(1, 5);
      }
    }
    expect(ends).toBeGreaterThan(100);
  });

  test("whatever the row, low is not above the hours, nor the hours above high", () => {
    const next = uniform(8);
    const counts = { numbers: 0, words: 0, neither: 0 };
    for (let round = 0; round < 4000; round++) {
      const hours = LOG_HOURS.slice(0, 3 + Math.floor(7 * next()));
      const top = 1 + 10 * next();
      const scores = hours.map((hour) =>
        Math.max(0, Math.round(top * 2 ** (-hour / 8) + 8 * next() - 4)),
      );
      const fit = scores.includes(0) || next() < 0.5 ? "scores" : "logs";
      for (const row of [
        answer(hours, scores, 0.5 + 5 * next(), fit),
        round % 3 ? undefined : half(hours, scores),
      ]) {
        if (!row) continue;
        const last = hours[hours.length - 1];
        const [middle, low, high] = row.map((cell) => asNumber(cell, last));
        expect(low).toBeLessThanOrEqual(middle);
        expect(middle).toBeLessThanOrEqual(high);
        expect(low).toBeGreaterThanOrEqual(0);
        if (typeof row[0] === "number") counts.numbers++;
        else counts.words++;
        if (row[1] === "no lower end" && row[2] === "no upper end") counts.neither++;
      }
    }
    for (const count of Object.values(counts)) expect(count).toBeGreaterThan(200);
  }, 60_000);
});

/** Three cells, or nothing where the row is refused. */
function answer(hours: number[], scores: number[], floor: number, fit: "scores" | "logs") {
  try {
    return lastsFor([hours], [scores], floor, undefined, fit)[0];
  } catch {
    return undefined;
  }
}

function half(hours: number[], scores: number[]) {
  try {
    return fadeHalf([hours], [scores])[0];
  } catch {
    return undefined;
  }
}

/** What a word stands for: over the last hour is more than any number, under the second less. */
function asNumber(cell: Cell, last: number): number {
  if (typeof cell === "number") return cell;
  if (cell === "no upper end") return Infinity;
  if (cell === `over ${last}`) return Infinity;
  expect(cell).toMatch(/^under \d+$|^no lower end$/);
  return 0;
}

const close = (a: number, b: number) => Math.abs(a - b) <= 1e-3 * Math.max(1, Math.abs(b));

/** Least and greatest hour at the floor, of falling lines in the ellipse, along many of its radii. */
function linesThrough(hours: number[], scores: number[], floor: number): [number, number] {
  const n = hours.length;
  const logs = scores.map(Math.log);
  const [centre, level] = [hours, logs].map((list) => list.reduce((a, b) => a + b, 0) / n);
  const spread = hours.reduce((all, hour) => all + (hour - centre) ** 2, 0);
  const slope = hours.reduce((all, hour, i) => all + (hour - centre) * logs[i], 0) / spread;
  const left = logs.reduce(
    (all, log, i) => all + (log - level - slope * (hours[i] - centre)) ** 2,
    0,
  );
  const size = STUDENT[n - 2] * Math.sqrt(left / (n - 2));
  let [low, high] = [Infinity, -Infinity];
  const steps = 4000;
  const level0 = { above: false, below: false };
  // The level line first: it is at the floor never, or always.
  const flat = size ** 2 - slope ** 2 * spread;
  if (flat >= 0) {
    level0.above = level + Math.sqrt(flat / n) > Math.log(floor);
    level0.below = level - Math.sqrt(flat / n) < Math.log(floor);
  }
  for (let i = 0; i < steps; i++) {
    const turn = (2 * Math.PI * i) / steps;
    const each = slope + (size * Math.cos(turn)) / Math.sqrt(spread);
    if (each >= -1e-4) continue;
    const at = centre + (Math.log(floor) - level - (size * Math.sin(turn)) / Math.sqrt(n)) / each;
    [low, high] = [Math.min(low, at), Math.max(high, at)];
  }
  return [level0.below ? -Infinity : low, level0.above ? Infinity : high];
}

/** Student's t, 97.5 %: any printed table, from memory. */
const STUDENT = [0, 12.7062, 4.30265, 3.18245, 2.77645];
