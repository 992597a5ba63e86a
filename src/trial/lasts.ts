/**
 * The hours until a fitted curve is at a floor, with its 95 % interval: infinite where there is no
 * end.
 */
import jstat from "jstat";
import { CalcError, show } from "../errors.ts";
import { type Curve, MOST_FALL, curveOf, fitFade, heightOf, isFlat, isSteep } from "./fade.ts";
import { type FittedLine, fitLine } from "./line.ts";
import type { TrialMarks } from "./marks.ts";
import { at } from "../lists.ts";

export interface Lasts {
  /** Endless where the curve does not fall. */
  until: number;
  low: number;
  high: number;
  /** True where it falls faster than the hours can tell. */
  isSteep?: boolean;
}

const [BEFORE_ALL, ENDLESS] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];

/**
 * By the curve through the scores themselves. The interval is that of the likelihood: the hours at
 * which any of the falling curves that leave little enough is at the floor.
 */
export function lastsByScores(marks: TrialMarks, floor: number): Lasts {
  const { best, most, slow, fast } = fitFade(marks);
  const [span, gap] = [marks.last - marks.first, marks.second - marks.first];
  const falls = !isFlat(marks, best.rate);
  holdFloor(floor, heightOf(best, falls ? 0 : marks.last), falls);
  const until = falls ? hourAt(best, best.level, floor) : ENDLESS;
  if (isFlat(marks, fast)) return { until, low: ENDLESS, high: ENDLESS };
  const mayBeLevel = isFlat(marks, slow);
  const [least, greatest] = levels(curveOf(marks, 0), most);
  const rates = between(mayBeLevel ? 1e-6 / span : slow, Math.min(fast, MOST_FALL / gap));
  if (falls) rates.push(best.rate);
  rates.sort((a, b) => a - b);
  const end = (side: 0 | 1, sign: 1 | -1) => {
    const at = (curve: Curve) => sign * hourAt(curve, levels(curve, most)[side], floor);
    return sign * largest(rates, (rate) => at(curveOf(marks, rate)));
  };
  // The faster it may fall, the nearer it is to the first hour.
  const low = Math.min(end(0, -1), fast === ENDLESS ? marks.first : ENDLESS);
  return {
    until,
    low: mayBeLevel && least < floor ? BEFORE_ALL : low,
    high: !falls || (mayBeLevel && greatest > floor) ? ENDLESS : end(1, 1),
    isSteep: isSteep(marks, best.rate),
  };
}

/** The hour at which a falling curve, started at a level, is at the floor. */
function hourAt({ rate, top }: Curve, level: number, floor: number): number {
  return top + (Math.log2(Math.max(0, level)) - Math.log2(floor)) / rate;
}

/** The least and greatest level with which a curve of this rate leaves little enough. */
function levels({ level, left, weight }: Curve, most: number): [number, number] {
  const spare = Math.sqrt(Math.max(0, most - left) / weight);
  return [level - spare, level + spare];
}

/** Rates from the one to the other, four and more to each doubling. */
function between(from: number, to: number): number[] {
  const steps = 8 + Math.ceil(4 * Math.log2(to / from));
  return Array.from({ length: steps + 1 }, (_, i) => from * (to / from) ** (i / steps));
}

/** The largest value that a smooth function has at numbers in order, and between them. */
function largest(numbers: number[], value: (at: number) => number): number {
  const values = numbers.map(value);
  const top = values.reduce((best, each, i) => (each > at(values, best) ? i : best), 0);
  let [from, to] = [
    at(numbers, Math.max(0, top - 1)),
    at(numbers, Math.min(top + 1, numbers.length - 1)),
  ];
  for (let round = 0; round < 60; round++) {
    const [a, b] = [from + (to - from) / 3, to - (to - from) / 3];
    if (value(a) > value(b)) to = b;
    else from = a;
  }
  return Math.max(at(values, top), value((from + to) / 2));
}

/** The fitted score at the start, and the halvings an hour. */
export function fitted(marks: TrialMarks, fit: "scores" | "logs"): { start: number; rate: number } {
  if (fit === "scores") {
    const { best } = fitFade(marks);
    return { start: heightOf(best, 0), rate: best.rate };
  }
  const { slope, intercept } = logLine(marks);
  return { start: Math.exp(intercept), rate: -slope / Math.LN2 };
}

/** By a straight line through the logarithms, with Fieller's interval, of falling lines only. */
export function lastsByLogs(marks: TrialMarks, floor: number): Lasts {
  const line = logLine(marks);
  const { slope, intercept, centre } = line;
  const falls = !isFlat(marks, -slope);
  holdFloor(floor, Math.exp(intercept + (falls ? 0 : slope * marks.last)), falls);
  const above = intercept + slope * centre - Math.log(floor);
  const until = falls ? centre - above / slope : ENDLESS;
  const [low, high] = fieller(line, above, falls);
  return { until, low: centre + low, high: falls ? centre + high : ENDLESS };
}

function logLine({ hours, scores }: TrialMarks): FittedLine {
  if (scores.includes(0)) {
    throw new CalcError('scores must be above zero for a fit of "logs", got 0: fit "scores"');
  }
  const heights = scores.map((score) => Math.log(score));
  return fitLine(hours, heights);
}

/** The hours from the centre at which the band of the falling lines takes in the floor. */
function fieller(line: FittedLine, above: number, falls: boolean): [low: number, high: number] {
  const { slope, meanSquare, points, spread } = line;
  const width = jstat.studentt.inv(0.975, points - 2) ** 2 * meanSquare;
  // (above + slope d)^2 <= width (1 / points + d^2 / spread), d being hours from the centre.
  const a = slope ** 2 - width / spread;
  if (a >= 0 && !falls) return [ENDLESS, ENDLESS];
  // A level line within the band may be on either side of the floor.
  const room = slope ** 2 / points + above ** 2 / spread - width / points / spread;
  if (a <= 0 && room <= 0) return [BEFORE_ALL, ENDLESS];
  const root = Math.sqrt(Math.max(0, width * room));
  const ends = [-slope * above - root, -slope * above + root].map((each) => each / a);
  const [first, second] = [Math.min(...ends), Math.max(...ends)];
  if (a > 0) return [first, second];
  // Of the two rays, rising lines make the one.
  return above < 0 ? [BEFORE_ALL, first] : [second, ENDLESS];
}

/** A scent that is too weak from the start has no hours until it is. */
function holdFloor(floor: number, fitted: number, falls: boolean) {
  if (fitted > floor) return;
  const where = falls ? "at the start" : "at the last hour, as the scores do not fall";
  const height = show(Number(fitted.toPrecision(3)));
  throw new CalcError(
    `floor must be below the fitted score ${where}, ${height}, got ${show(floor)}`,
  );
}
