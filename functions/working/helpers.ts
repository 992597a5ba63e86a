/**
 * The named steps of a working that are more than arithmetic: unit sizes, the alcohol formula, searches
 * and fits. Each is the code that the function itself runs, so a working cannot drift from its cell.
 */
import jstat from "jstat";
import { type Cells, largeLimits } from "../../src/cells";
import { packPlan } from "../../src/cost/packplan";
import { alcoholVolume } from "../../src/limits/alcoholvolume";
import { vapourFlash } from "../../src/limits/flash";
import { flashGuess } from "../../src/limits/flashguess";
import { intervalsOf } from "../../src/limits/intervals";
import { down, metricText, ounceText } from "../../src/limits/netlabel";
import { usedUp } from "../../src/limits/safeload";
import { limitLines, lowestOf } from "../../src/limits/topload";
import { vocShare } from "../../src/limits/vocshare";
import { squeeze } from "../../src/errors";
import { turn } from "../../src/measure/turn";
import { densityOfMixture, weightShare } from "../../src/spirit/mixture";
import { fitFade } from "../../src/trial/fade";
import { lastsFor } from "../../src/trial/lastsfor";
import { midRanks } from "../../src/trial/panelagree";
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
/** Yes or no, line by line, where it is told. */
const flags = (fragrance: Maybe<Vector<number | string>>) =>
  fragrance ? cells(fragrance) : undefined;
const known = <T>(value: Maybe<T>) => value ?? undefined;
const pairs = (a: Vector, b: Vector, of: (x: number, y: number) => number) =>
  a.map((x, i) => of(x, b[i]));
const fade = (
  hours: Vector<number | string>,
  scores: Vector<number | string>,
  least: Maybe<number>,
) => fitFade(cells(hours), cells(scores), known(least));
const ranked = (ranks: Table) => ranks.map(midRanks);
const words = (directions: Maybe<Vector<string>>) => (directions ? cells(directions) : undefined);

/** What a working may call besides mathjs itself. */
export const HELPERS = {
  isweight: isWeight,
  same: (word: Maybe<string>, other: string) => squeeze(word ?? "") === squeeze(other),
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
  largelimits: (limits: Vector<number | string>) => largeLimits("limits", cells(limits)),
  banned: (shares: Vector, limits: Vector<number | string>) =>
    usedUp([shares], cells(limits)).includes(Number.POSITIVE_INFINITY),
  limitsof: (labels: Vector<string>, limits: Vector<number | string>) =>
    limitLines(cells(labels), cells(limits)).map(({ limit }) => limit),
  labelof: (labels: Vector<string>, limits: Vector<number | string>) =>
    lowestOf(limitLines(cells(labels), cells(limits))).label,
  isrange: (shares: Vector | Table, vocs: Vector | Table) =>
    intervalsOf("shares", table(shares)).isRange || intervalsOf("vocshares", table(vocs)).isRange,
  vocof: (shares: Vector, vocs: Vector) => vocShare([shares], [vocs])[0][0],
  waivedvoc: (
    shares: Vector,
    vocs: Vector,
    fragrance: Maybe<Vector<number | string>>,
    exempt: number,
  ) =>
    vocShare([shares], [vocs])[0][0] - vocShare([shares], [vocs], flags(fragrance), exempt)[0][0],
  countedvoc: (
    shares: Vector | Table,
    vocs: Vector | Table,
    fragrance: Maybe<Vector<number | string>>,
    exempt: number,
  ) => vocShare(table(shares), table(vocs), flags(fragrance), exempt)[0],
  alcoholbyvolume: (shares: Vector | Table, densities: Vector, counts: Vector<number | string>) =>
    alcoholVolume(table(shares), table(densities), cells(counts))[0],
  flashof: vapourFlash,
  flashrange: (ethanol: number, propanol: number) => flashGuess(ethanol, propanol)[0],
  down,
  metrictext: (held: number, unit: string) => metricText(held, isWeight(unit)),
  ouncetext: (ounces: number, unit: string) => ounceText(ounces, isWeight(unit)),
  fadeslope: (hours: Vector, scores: Vector, least: Maybe<number>) =>
    fade(hours, scores, least).slope,
  fadeerror: (hours: Vector, scores: Vector, least: Maybe<number>) =>
    fade(hours, scores, least).slopeError,
  fadet: (hours: Vector, scores: Vector, least: Maybe<number>) => fade(hours, scores, least).t,
  fadestart: (hours: Vector, scores: Vector, least: Maybe<number>) =>
    fade(hours, scores, least).intercept,
  fadelasts: (
    until: number,
    hours: Vector,
    scores: Vector,
    floor: number,
    least: Maybe<number>,
  ) => [until, ...lastsFor(cells(hours), cells(scores), floor, known(least))[0].slice(1)],
  weighed: (scores: Table, weights: Vector, directions: Maybe<Vector<string>>) =>
    judge(scores, [weights], words(directions)).totals,
  withplace: withPlaces,
  tip: (scores: Table, weights: Vector, directions: Maybe<Vector<string>>) =>
    tipPoint(scores, [weights], words(directions))[0],
  oddchance: chanceOfAtLeast,
  oddneed: trioNeed,
  rows: (ranks: Table) => ranks.length,
  samples: (ranks: Table) => ranks[0].length,
  ranktotals: (ranks: Table) =>
    ranks[0].map((_, j) => ranked(ranks).reduce((total, { places }) => total + places[j], 0)),
  rankties: (ranks: Table) => ranked(ranks).reduce((total, { ties }) => total + ties, 0),
  chisquarep: (chi: number, degrees: number) => 1 - jstat.chisquare.cdf(chi, degrees),
};
