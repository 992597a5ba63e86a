/** Hours and the scores given then, as they stand in two ranges. */
import type { Cell, Cells } from "../cells.ts";
import {
  BlankError,
  CalcError,
  amount,
  isBlankNumber,
  positive,
  show,
  squeeze,
} from "../errors.ts";
import { at, cellsOf, sameLength } from "../lists.ts";

/** The first hour, the one that comes after it, and the last. */
export interface Hours {
  first: number;
  second: number;
  last: number;
}

export interface TrialMarks extends Hours {
  hours: number[];
  scores: number[];
  /** The least score above zero on the scale; zero where scores may be any number. */
  step: number;
}

/** More scores than this no nose gives, and a fit of them takes long. */
const MOST = 10_000;

/** Sizes whose squares and quotients a number can hold. */
const [LONGEST, WEAKEST, STRONGEST] = [1e9, 1e-100, 1e100];

/** Reads them; gaps are passed over. */
export function marksOf(hours: Cells, scores: Cells, least?: number): TrialMarks {
  const read = pairsOf(hours, scores);
  if (read.length < 3) throw new CalcError(`scores must hold three or more, got ${read.length}`);
  if (read.length > MOST) {
    throw new CalcError(`scores must be ${show(MOST)} or fewer, got ${show(read.length)}`);
  }
  const marks = read.map(({ score }) => score);
  if (!marks.some((score) => score > 0)) throw new CalcError("scores must not all be zero");
  const inOrder = read.map(({ hour }) => hour).sort((a, b) => a - b);
  const [first, last] = [at(inOrder, 0), at(inOrder, inOrder.length - 1)];
  // Nearer than this is the same hour.
  const near = Math.max(1e-9, 1e-9 * (last - first));
  const second = inOrder.find((hour) => hour > first + near);
  if (second === undefined) throw new CalcError("hours must differ, got one hour only");
  const step = least === undefined ? stepOf(marks) : positive("least", least);
  return { hours: read.map(({ hour }) => hour), scores: marks, step, first, second, last };
}

function pairsOf(hours: Cells, scores: Cells): { hour: number; score: number }[] {
  const times = cellsOf("hours", hours);
  const given = cellsOf("scores", scores);
  sameLength("hours", times, "scores", given);
  return given.flatMap(({ name, cell }, i) => {
    if (isGap(cell)) return [];
    const time = at(times, i);
    if (isGap(time.cell)) throw new BlankError(time.name, "blank beside a score");
    const [hour, score] = [numberIn(time.name, time.cell), numberIn(name, cell)];
    if (hour > LONGEST) {
      throw new CalcError(`${time.name} must be at most ${show(LONGEST)}, got ${show(hour)}`);
    }
    if (score > 0 && (score < WEAKEST || score > STRONGEST)) {
      throw new CalcError(
        `${name} must be 0 or from ${WEAKEST} to ${STRONGEST}, got ${show(score)}`,
      );
    }
    return [{ hour, score }];
  });
}

/** Whole scores are marks on a scale of whole ones. */
function stepOf(scores: number[]): number {
  return scores.every(Number.isInteger) ? 1 : 0;
}

/** A dash, or nothing, is an hour that was missed. */
function isGap(cell: Cell): boolean {
  return typeof cell === "number" ? isBlankNumber(cell) : ["", "-"].includes(squeeze(cell));
}

function numberIn(name: string, cell: Cell): number {
  if (typeof cell === "number") return amount(name, cell);
  throw new CalcError(`${name} must be a number, or blank or a dash for a gap, got "${cell}"`);
}
