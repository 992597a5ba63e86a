/**
 * The named steps of a working that are more than arithmetic: unit sizes, the alcohol formula,
 * searches and fits. Each is the code that the function itself runs, so that a working cannot
 * differ from its cell.
 */
import { type Cell, type Cells, largeLimits } from "../../src/cells.ts";
import { packPlan } from "../../src/cost/packplan.ts";
import { isEmpty } from "../../src/filled.ts";
import { alcoholVolume } from "../../src/limits/alcoholvolume.ts";
import { allowedError, checkFills } from "../../src/limits/fills.ts";
import { vapourFlash } from "../../src/limits/flash.ts";
import { flashGuess } from "../../src/limits/flashguess.ts";
import { intervalsOf } from "../../src/limits/intervals.ts";
import { down, metricText, ounceText } from "../../src/limits/netlabel.ts";
import { usedUp } from "../../src/limits/safeload.ts";
import { limitLines, lowestOf } from "../../src/limits/topload.ts";
import { vocShare } from "../../src/limits/vocshare.ts";
import { choice, squeeze } from "../../src/errors.ts";
import { at } from "../../src/lists.ts";
import { packHolds } from "../../src/measure/packholds.ts";
import { turn } from "../../src/measure/turn.ts";
import { readPack } from "../../src/packs.ts";
import { meanReach, sampleOf } from "../../src/sample.ts";
import { densityOfMixture, weightShare } from "../../src/spirit/mixture.ts";
import { fitFade } from "../../src/trial/fade.ts";
import { fadeHalf } from "../../src/trial/fadehalf.ts";
import { fitted } from "../../src/trial/lasts.ts";
import { type Fit, fitOf, lastsFor } from "../../src/trial/lastsfor.ts";
import { marksOf } from "../../src/trial/marks.ts";
import { agreement } from "../../src/trial/panelagree.ts";
import { type LeftOut, rankTotals, rankedRows } from "../../src/trial/ranks.ts";
import { withPlaces } from "../../src/trial/standing.ts";
import { tipPoint } from "../../src/trial/tippoint.ts";
import { chanceOfAtLeast } from "../../src/trial/trio.ts";
import { trioNeed } from "../../src/trial/trioneed.ts";
import { judge } from "../../src/trial/worth.ts";
import { unitOf } from "../../src/units.ts";

type Vector<T = number> = T[];
type Matrix = number[][];
type Maybe<T> = T | null;

const isWeight = (unit: Maybe<string>) =>
  unit !== null && unitOf("unit", unit).measures === "weight";
/** A list as a column; a table stays as it is. */
const table = (values: Vector | Matrix): Matrix =>
  values.map((value: number | Vector) => [value].flat());
const cells = (values: Vector<number | string>): Cells => values.map((value) => [value]);
/** Yes or no, line by line, where it is told. */
const flags = (fragrance: Maybe<Vector<number | string>>) =>
  fragrance ? cells(fragrance) : undefined;
const ruleOf = (rule: string) => choice("rule", rule, ["EU", "US"] as const);
const known = <T>(value: Maybe<T>) => value ?? undefined;
const pairs = (a: Vector, b: Vector, of: (x: number, y: number) => number) =>
  a.map((x, i) => of(x, at(b, i)));
const sample = (values: Vector<number | string>) => sampleOf("values", cells(values));
type Marked = Vector<number | string>;
const marks = (hours: Marked, scores: Marked, least: Maybe<number>) =>
  marksOf(cells(hours), cells(scores), known(least));
const words = (directions: Maybe<Vector<string>>) => (directions ? cells(directions) : undefined);

/** The least VOC of a product. */
const leastVoc = (...args: Parameters<typeof vocShare>) => at(at(vocShare(...args), 0), 0);

/** What a working may call besides mathjs itself. */
export const HELPERS = {
  isweight: isWeight,
  isvolume: (unit: Maybe<string>) => unit !== null && unitOf("unit", unit).measures === "volume",
  same: (word: Maybe<string>, other: string) => squeeze(word ?? "") === squeeze(other),
  per: (unit: string) => turn(1, unit, isWeight(unit) ? "g" : "mL"),
  column: (values: Vector) => values.map((value) => [value]),
  row: (values: Vector) => [values],
  over: (a: Vector, b: Vector | number) =>
    a.map((x, i) => (x === 0 ? 0 : x / (typeof b === "number" ? b : at(b, i)))),
  larger: (a: Vector, b: Vector) => pairs(a, b, Math.max),
  smaller: (a: Vector, b: Vector) => pairs(a, b, Math.min),
  // A blank, or what is told in a word, is not counted.
  counted: (values: Vector<number | string>) =>
    values.map((value) => (typeof value === "string" || isEmpty(value) ? 0 : value)),
  packholds: (text: Cell, unit: string, density: Maybe<number>) =>
    packHolds(text, unit, known(density)),
  packcount: (text: Cell) => readPack("text", text).count,
  packsize: (text: Cell) => readPack("text", text).size,
  packunit: (text: Cell) => readPack("text", text).unit.name,
  inunit: (from: string, to: string, density: Maybe<number>) => turn(1, from, to, known(density)),
  averageof: (values: Vector<number | string>) => sample(values).mean,
  spreadof: (values: Vector<number | string>) => sample(values).spread,
  reachof: (chance: number, values: Vector<number | string>) =>
    meanReach(chance, sample(values).values.length),
  allowederror: (stated: number, unit: string, rule: string, allowed: Maybe<number>) =>
    allowedError(stated, unitOf("unit", unit), ruleOf(rule), known(allowed)),
  fillscheck: (
    fills: Vector<number | string>,
    size: number,
    stated: number,
    error: number,
    rule: string,
    batch: Maybe<number>,
  ) => checkFills(cells(fills), size, stated, error, ruleOf(rule), known(batch)),
  oiml: densityOfMixture,
  weightshare: weightShare,
  cheapestplan: (need: number, sizes: Vector, prices: Vector, freight: number, freeover: number) =>
    packPlan(need, [sizes], [prices], freight, freeover)[0],
  usedup: (shares: Vector, limits: Vector<number | string>) => usedUp([shares], cells(limits)),
  largelimits: (limits: Vector<number | string>) => largeLimits("limits", cells(limits)),
  banned: (shares: Vector, limits: Vector<number | string>) =>
    usedUp([shares], cells(limits)).includes(Number.POSITIVE_INFINITY),
  limitsof: (labels: Vector<string>, limits: Vector<number | string>) =>
    limitLines(cells(labels), cells(limits)).map(({ limit }) => limit),
  labelof: (labels: Vector<string>, limits: Vector<number | string>) =>
    lowestOf(limitLines(cells(labels), cells(limits))).label,
  isrange: (shares: Vector | Matrix, vocs: Vector | Matrix) =>
    intervalsOf("shares", table(shares)).isRange || intervalsOf("vocshares", table(vocs)).isRange,
  vocof: (shares: Vector, vocs: Vector) => leastVoc([shares], [vocs]),
  waivedvoc: (
    shares: Vector,
    vocs: Vector,
    fragrance: Maybe<Vector<number | string>>,
    exempt: number,
  ) => leastVoc([shares], [vocs]) - leastVoc([shares], [vocs], flags(fragrance), exempt),
  countedvoc: (
    shares: Vector | Matrix,
    vocs: Vector | Matrix,
    fragrance: Maybe<Vector<number | string>>,
    exempt: number,
  ) => vocShare(table(shares), table(vocs), flags(fragrance), exempt)[0],
  alcoholbyvolume: (shares: Vector | Matrix, densities: Vector, counts: Vector<number | string>) =>
    alcoholVolume(table(shares), table(densities), cells(counts))[0],
  flashof: vapourFlash,
  flashrange: (ethanol: number, propanol: number) => flashGuess(ethanol, propanol)[0],
  down,
  metrictext: (held: number, unit: string) => metricText(held, isWeight(unit)),
  ouncetext: (ounces: number, unit: string) => ounceText(ounces, isWeight(unit)),
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
  weighed: (scores: Matrix, weights: Vector, directions: Maybe<Vector<string>>) =>
    judge(scores, [weights], words(directions)).totals,
  tiebound: (scores: Matrix, weights: Vector, directions: Maybe<Vector<string>>) =>
    judge(scores, [weights], words(directions)).bound,
  withplace: withPlaces,
  tip: (scores: Matrix, weights: Vector, directions: Maybe<Vector<string>>) =>
    tipPoint(scores, [weights], words(directions))[0],
  oddchance: chanceOfAtLeast,
  oddneed: trioNeed,
  rows: (ranks: Matrix, without: LeftOut) => rankedRows(ranks, without).length,
  samples: (ranks: Matrix, without: LeftOut) => at(rankedRows(ranks, without), 0).places.length,
  ranktotals: (ranks: Matrix, without: LeftOut) => rankTotals(rankedRows(ranks, without)),
  rankties: (ranks: Matrix, without: LeftOut) =>
    rankedRows(ranks, without).reduce((total, { ties }) => total + ties, 0),
  agreechance: (ranks: Matrix, without: LeftOut) => agreement(rankedRows(ranks, without)).p,
  agreeway: (ranks: Matrix, without: LeftOut) => agreement(rankedRows(ranks, without)).way,
};
