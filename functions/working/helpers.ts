/**
 * The named steps of a working that are more than arithmetic: unit sizes, the alcohol formula, searches
 * and fits. Each is the code that the function itself runs, so a working cannot drift from its cell.
 */
import type { Cells } from "../../src/cells";
import { packPlan } from "../../src/cost/packplan";
import { alcoholVolume } from "../../src/limits/alcoholvolume";
import { vapourFlash } from "../../src/limits/flash";
import { flashGuess } from "../../src/limits/flashguess";
import { compositionOf, intervalsOf, mostOf } from "../../src/limits/intervals";
import { down, metric } from "../../src/limits/netlabel";
import { usedUp } from "../../src/limits/safeload";
import { limitLines, lowestOf } from "../../src/limits/topload";
import { turn } from "../../src/measure/turn";
import { densityOfMixture, weightShare } from "../../src/spirit/mixture";
import { fitFade } from "../../src/trial/fade";
import { fadeHalf } from "../../src/trial/fadehalf";
import { fitted } from "../../src/trial/lasts";
import { type Fit, fitOf, lastsFor } from "../../src/trial/lastsfor";
import { marksOf } from "../../src/trial/marks";
import { agreement } from "../../src/trial/panelagree";
import { type LeftOut, rankTotals, rankedRows } from "../../src/trial/ranks";
import { withPlaces } from "../../src/trial/standing";
import { tipPoint } from "../../src/trial/tippoint";
import { chanceOfAtLeast } from "../../src/trial/trio";
import { trioNeed } from "../../src/trial/trioneed";
import { judge } from "../../src/trial/worth";
import { unitOf } from "../../src/units";

type Vector<T = number> = T[];
type Table = number[][];
type Maybe<T> = T | null;

const isWeight = (unit: string) => unitOf("unit", unit).measures === "weight";
/** A list as a column; a table stays as it is. */
const table = (values: Vector | Table): Table =>
  Array.isArray(values[0]) ? (values as Table) : (values as Vector).map((value) => [value]);
const cells = (values: Vector<number | string>): Cells => values.map((value) => [value]);
const known = <T>(value: Maybe<T>) => value ?? undefined;
const pairs = (a: Vector, b: Vector, of: (x: number, y: number) => number) =>
  a.map((x, i) => of(x, b[i]));
type Marked = Vector<number | string>;
const marks = (hours: Marked, scores: Marked, least: Maybe<number>) =>
  marksOf(cells(hours), cells(scores), known(least));
const words = (directions: Maybe<Vector<string>>) => (directions ? cells(directions) : undefined);

/** What a working may call besides mathjs itself. */
export const HELPERS = {
  isweight: isWeight,
  per: (unit: string) => turn(1, unit, isWeight(unit) ? "g" : "mL"),
  column: (values: Vector) => values.map((value) => [value]),
  row: (values: Vector) => [values],
  over: (a: Vector, b: Vector | number) =>
    a.map((x, i) => (x === 0 ? 0 : x / (typeof b === "number" ? b : b[i]))),
  larger: (a: Vector, b: Vector) => pairs(a, b, Math.max),
  smaller: (a: Vector, b: Vector) => pairs(a, b, Math.min),
  oiml: densityOfMixture,
  weightshare: weightShare,
  cheapestplan: (need: number, sizes: Vector, prices: Vector, freight: number, freeover: number) =>
    packPlan(need, [sizes], [prices], freight, freeover)[0],
  usedup: (shares: Vector, limits: Vector<number | string>) => usedUp([shares], cells(limits)),
  banned: (shares: Vector, limits: Vector<number | string>) =>
    usedUp([shares], cells(limits)).includes(Number.POSITIVE_INFINITY),
  limitsof: (labels: Vector<string>, limits: Vector<number | string>) =>
    limitLines(cells(labels), cells(limits)).map(({ limit }) => limit),
  labelof: (labels: Vector<string>, limits: Vector<number | string>) =>
    lowestOf(limitLines(cells(labels), cells(limits))).label,
  isrange: (shares: Vector | Table, vocs: Vector | Table) =>
    intervalsOf("shares", table(shares)).isRange || intervalsOf("vocshares", table(vocs)).isRange,
  mostof: (shares: Vector | Table, vocs: Vector | Table) =>
    mostOf(compositionOf("shares", table(shares)), intervalsOf("vocshares", table(vocs)).highs),
  leastof: (shares: Vector | Table, vocs: Vector | Table) =>
    -mostOf(
      compositionOf("shares", table(shares)),
      intervalsOf("vocshares", table(vocs)).lows.map((part) => -part),
    ),
  alcoholbyvolume: (shares: Vector | Table, densities: Vector, counts: Vector<number | string>) =>
    alcoholVolume(table(shares), table(densities), cells(counts))[0],
  flashof: vapourFlash,
  flashrange: (ethanol: number, propanol: number) => flashGuess(ethanol, propanol)[0],
  down,
  metrictext: metric,
  faderate: (hours: Marked, scores: Marked, least: Maybe<number>, fit?: Fit) =>
    fitted(marks(hours, scores, least), fit ?? "scores").rate,
  fadestart: (hours: Marked, scores: Marked, least: Maybe<number>, fit: Fit) =>
    fitted(marks(hours, scores, least), fit).start,
  fadesquares: (hours: Marked, scores: Marked, least: Maybe<number>) =>
    fitFade(marks(hours, scores, least)).best.left,
  fademost: (hours: Marked, scores: Marked, least: Maybe<number>) =>
    fitFade(marks(hours, scores, least)).most,
  fadelives: (hours: Marked, scores: Marked, least: Maybe<number>) =>
    fadeHalf(cells(hours), cells(scores), known(least))[0],
  fadefit: (hours: Marked, scores: Marked, least: Maybe<number>, fit: Maybe<Fit>) =>
    fitOf(marks(hours, scores, least), known(least), known(fit)),
  fadelasts: (hours: Marked, scores: Marked, floor: number, least: Maybe<number>, fit: Fit) =>
    lastsFor(cells(hours), cells(scores), floor, known(least), fit)[0],
  weighed: (scores: Table, weights: Vector, directions: Maybe<Vector<string>>) =>
    judge(scores, [weights], words(directions)).totals,
  tiebound: (scores: Table, weights: Vector, directions: Maybe<Vector<string>>) =>
    judge(scores, [weights], words(directions)).bound,
  withplace: withPlaces,
  tip: (scores: Table, weights: Vector, directions: Maybe<Vector<string>>) =>
    tipPoint(scores, [weights], words(directions))[0],
  oddchance: chanceOfAtLeast,
  oddneed: trioNeed,
  rows: (ranks: Table, without: LeftOut) => rankedRows(ranks, without).length,
  samples: (ranks: Table, without: LeftOut) => rankedRows(ranks, without)[0].places.length,
  ranktotals: (ranks: Table, without: LeftOut) => rankTotals(rankedRows(ranks, without)),
  rankties: (ranks: Table, without: LeftOut) =>
    rankedRows(ranks, without).reduce((total, { ties }) => total + ties, 0),
  agreechance: (ranks: Table, without: LeftOut) => agreement(rankedRows(ranks, without)).p,
  agreeway: (ranks: Table, without: LeftOut) => agreement(rankedRows(ranks, without)).way,
};
