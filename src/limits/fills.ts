/** What two published systems ask of filled packs: of each one, and of all on average. */
import type { Cells } from "../cells.ts";
import { SAMPLING_PLANS, TOLERABLE_ERRORS, WHOLE_BATCH } from "../data/prepackages.ts";
import { CalcError, positive, show } from "../errors.ts";
import { meanReach, sampleOf } from "../sample.ts";
import { type Unit, convert, unitOf } from "../units.ts";

export type Rule = "EU" | "US";

/** Chance to lie lower, for how far the average of a sample may be below what is stated. */
const REACH: Record<Rule, number> = { EU: 0.995, US: 0.975 };

/** An average so far above what is stated looks like bottles weighed with their glass. */
const FAR_OVER = 1.2;

/** Room for rounding: a fill at a bound is not below it. */
const NEARLY = 1 - 1e-9;

interface Found {
  rule: Rule;
  count: number;
  /** Bottles in the batch, where that is told. */
  batch: number | undefined;
  isWhole: boolean;
  stated: number;
  average: number;
  needed: number;
  short: number;
  veryShort: number;
}

/** The error of one bottle that is allowed, in the unit of what is stated. */
export function allowedError(stated: number, unit: Unit, rule: Rule, told?: number): number {
  if (told === undefined) {
    if (rule === "EU") return tolerableError(stated, unit);
    throw new CalcError(
      "allowed is needed for the US: look the maximum allowable variation up in NIST Handbook 133",
    );
  }
  if (positive("allowed", told) < stated) return told;
  throw new CalcError(`allowed must be below stated, ${show(stated)}, got ${show(told)}`);
}

/** The error that the European table tolerates, in the unit of what is stated. */
function tolerableError(stated: number, unit: Unit): number {
  const metric = unitOf("unit", unit.measures === "weight" ? "g" : "mL");
  const contents = convert(stated, unit, metric);
  const row = TOLERABLE_ERRORS.find(({ upTo }) => contents * NEARLY <= upTo);
  if (!row || contents < 5 * NEARLY) {
    const got = `${show(contents)} ${metric.name}`;
    throw new CalcError(`stated must be from 5 to 10000 ${metric.name} for the EU, got ${got}`);
  }
  const error = "fixed" in row ? row.fixed : Math.ceil(contents * row.part * 10 * NEARLY) / 10;
  return convert(error, metric, unit);
}

/**
 * Average, the least that passes, the least fill, how many are below it and far below, and a word.
 */
export function checkFills(
  range: Cells,
  size: number,
  stated: number,
  error: number,
  rule: Rule,
  batch?: number,
): (number | string)[] {
  const { values, mean, spread } = sampleOf("fills", range);
  const count = values.length;
  const isWhole = isWholeBatch(count, batch);
  const chance = isWhole ? 0 : meanReach(REACH[rule], count) * spread * size;
  const below = (bound: number) => values.filter((each) => each * size < bound * NEARLY).length;
  const [average, needed, least] = [mean * size, stated - chance, stated - error];
  const [short, veryShort] = [below(least), below(least - error)];
  const found = { rule, count, batch, isWhole, stated, average, needed, short, veryShort };
  return [average, needed, least, short, veryShort, verdict(found)];
}

function isWholeBatch(count: number, batch: number | undefined): boolean {
  if (batch !== undefined && (!Number.isInteger(positive("batch", batch)) || batch < count)) {
    const got = `got ${show(batch)}`;
    throw new CalcError(`batch must be a whole number, at least the ${count} fills, ${got}`);
  }
  const least = batch === 1 ? 1 : 2;
  if (count >= least) return batch === count;
  throw new CalcError(`fills must hold ${least} or more, got ${count}`);
}

/** What these fills say, the gravest first. */
function verdict(found: Found): string {
  const { rule, average, needed, stated, short, batch } = found;
  if (rule === "EU" && found.veryShort > 0) return "not kept: below twice the allowed error";
  if (average < needed * NEARLY) return "not kept: the average is too low";
  const { accept, reject } = numbersFor(found);
  if (short >= reject) return "not kept: too many short";
  if (short > accept) return "undecided: some are short, weigh more";
  if (average > stated * FAR_OVER)
    return "undecided: far above what is stated, without the bottle?";
  const isSmall = batch !== undefined && batch < WHOLE_BATCH.below;
  if (rule === "EU" && isSmall && !found.isWhole) return "undecided: weigh all of so small a batch";
  if (average < stated * NEARLY) return "undecided: the average is low, by no more than chance";
  return "kept by these";
}

/**
 * Short bottles at which a batch is accepted, and rejected; between two plans the stricter holds.
 */
function numbersFor({ rule, count, isWhole }: Found): { accept: number; reject: number } {
  if (rule === "US" || isWhole) {
    // US, from memory: none beyond the allowed variation, or one of 48 and more.
    const ofUs = count >= 48 ? 1 : 0;
    const accept = rule === "US" ? ofUs : Math.floor(count * WHOLE_BATCH.short + 1e-9);
    return { accept, reject: accept + 1 };
  }
  const smaller = SAMPLING_PLANS.filter(({ weighed }) => weighed <= count);
  const larger = SAMPLING_PLANS.filter(({ weighed }) => weighed >= count);
  return {
    accept: Math.max(0, ...smaller.map(({ accept }) => accept)),
    reject: Math.min(...larger.map(({ reject }) => reject)),
  };
}
