/**
 * Hourly scores that fall by the same part every hour (first order), as a straight line in their
 * logarithm.
 *
 * A score of zero is not minus infinity: it says "at or below the least that I can score". So a zero
 * is held to lie anywhere up to the least score of the scale, or, where that is not told, the least
 * above zero in the row. It pulls the line down where the
 * line would stand above that, and says nothing where the line is below it already. This is least squares
 * with one-sided points; the points that pull are found by fitting again until they stay the same.
 */
import jstat from "jstat";
import type { Cells } from "../cells";
import { BlankError, CalcError, amount, cellsOf, positive, sameLength, squeeze } from "../errors";
import { type Line, fitLine } from "./line";

export interface Fade extends Line {
  /** Student's t for a 95 % interval. */
  t: number;
}

interface Point {
  hour: number;
  /** Logarithm of the score; of the least that could be scored, where the score is zero. */
  height: number;
  isZero: boolean;
}

/** The fitted line of hours and scores. Gaps are passed over. */
export function fitFade(hours: Cells, scores: Cells, least?: number): Fade {
  const points = pointsOf(hours, scores, least);
  const scored = points.filter((point) => !point.isZero);
  if (scored.length < 3) {
    throw new CalcError(`scores must hold three or more above zero, got ${scored.length}`);
  }
  if (new Set(scored.map(({ hour }) => hour)).size < 2) {
    throw new CalcError("hours must differ, got one hour only");
  }
  const zeros = points.filter((point) => point.isZero);
  const fit = (pulling: Point[]) => {
    const used = [...scored, ...pulling];
    return fitLine(
      used.map(({ hour }) => hour),
      used.map(({ height }) => height),
    );
  };
  const line = settle(fit, zeros);
  if (line.slope >= -1e-12) {
    throw new CalcError(
      "scores must fall with the hours: these are flat or rise, so nothing fades",
    );
  }
  return { ...line, t: jstat.studentt.inv(0.975, line.points - 2) };
}

/** Adds and drops the zeros that pull until they stay the same. */
function settle(fit: (pulling: Point[]) => Line, zeros: Point[]): Line {
  let pulling: Point[] = [];
  let line = fit(pulling);
  // The problem is convex and each set is tried once at most; a hundred rounds never come up.
  for (let round = 0; round < 100; round++) {
    const above = zeros.filter(({ hour, height }) => line.intercept + line.slope * hour > height);
    if (above.length === pulling.length && above.every((point) => pulling.includes(point))) break;
    pulling = above;
    line = fit(pulling);
  }
  return line;
}

/** A dash, or nothing, is an hour that was missed. */
function isGap(cell: unknown): boolean {
  return ["", "-"].includes(squeeze(String(cell)));
}

function pointsOf(hours: Cells, scores: Cells, told?: number): Point[] {
  const times = cellsOf("hours", hours);
  const marks = cellsOf("scores", scores);
  sameLength("hours", times, "scores", marks);
  const read = marks.flatMap(({ name, cell }, i) => {
    if (isGap(cell)) return [];
    const time = times[i];
    if (isGap(time.cell)) throw new BlankError(time.name, "blank beside a score");
    return [{ hour: numberIn(time.name, time.cell), score: numberIn(name, cell) }];
  });
  const given = Math.min(...read.map(({ score }) => score).filter((score) => score > 0));
  const least = told ? positive("least", told) : given;
  return read.map(({ hour, score }) => {
    return { hour, height: Math.log(score === 0 ? least : score), isZero: score === 0 };
  });
}

function numberIn(name: string, cell: number | string): number {
  if (typeof cell === "number") return amount(name, cell);
  throw new CalcError(`${name} must be a number, or blank or a dash for a gap, got "${cell}"`);
}
