/**
 * The closed list of units, with exact legal factors.
 *
 * Weights: international avoirdupois pound, 0.45359237 kg exactly (1959 agreement; NIST SP 811,
 * 2008, app. B.8). Volumes: US gallon, 231 cubic inches; imperial gallon, 4.54609 L exactly.
 * `oz` is always a weight, `floz` always a volume. Pints, quarts, spoons and gallons are US unless
 * the name says imp.
 *
 * Words for units are read without case, spaces, dots and the s of many.
 *
 * Every factor is a whole number of a small part, so that 1 lb is 16 oz to the last digit.
 */
import { BlankError, CalcError, amount, density as checkDensity, squeeze } from "./errors.ts";
import { SPELLINGS } from "./data/spellings.ts";
import { keysOf } from "./lists.ts";

/** Nanograms in one unit. */
const WEIGHTS = {
  mg: 1_000_000,
  g: 1_000_000_000,
  kg: 1_000_000_000_000,
  oz: 28_349_523_125,
  lb: 453_592_370_000,
} as const;

/** Parts of 0.00000000001 mL in one unit. */
const VOLUMES = {
  mL: 100_000_000_000,
  L: 100_000_000_000_000,
  tsp: 492_892_159_375,
  tbsp: 1_478_676_478_125,
  floz: 2_957_352_956_250,
  pt: 47_317_647_300_000,
  qt: 94_635_294_600_000,
  gal: 378_541_178_400_000,
  impfloz: 2_841_306_250_000,
  impgal: 454_609_000_000_000,
} as const;

export type WeightUnit = keyof typeof WEIGHTS;
export type VolumeUnit = keyof typeof VOLUMES;

/** A unit from the closed list: what it measures, and its size in small parts. */
export interface Unit {
  name: WeightUnit | VolumeUnit;
  measures: "weight" | "volume";
  parts: number;
}

/** The names. Every other list of units, in words, in cells or on a page, is made from these. */
export const WEIGHT_UNITS = keysOf(WEIGHTS);
export const VOLUME_UNITS = keysOf(VOLUMES);

const UNITS: Unit[] = [
  ...WEIGHT_UNITS.map((name): Unit => ({ name, measures: "weight", parts: WEIGHTS[name] })),
  ...VOLUME_UNITS.map((name): Unit => ({ name, measures: "volume", parts: VOLUMES[name] })),
];

/** Every word for every unit as it is looked up: small letters, no spaces, no dots; one and many. */
export const UNIT_WORDS: ReadonlyMap<string, Unit> = new Map(
  UNITS.flatMap((unit) =>
    [unit.name, ...SPELLINGS[unit.name]]
      .map(squeeze)
      .flatMap((word) => [word, `${word}s`])
      .map((word) => [word, unit]),
  ),
);

/** A unit's word as it is looked up. */
export function unitWord(text: string): string {
  return squeeze(text).replaceAll(".", "");
}

/** A unit by its name or another word for it. */
export function unitOf(argument: string, name: string): Unit {
  const key = unitWord(name);
  if (key === "") throw new BlankError(argument, "blank");
  const unit = UNIT_WORDS.get(key);
  if (unit) return unit;
  throw new CalcError(
    `${argument} must be a weight (${WEIGHT_UNITS.join(" ")}) or ` +
      `a volume (${VOLUME_UNITS.join(" ")}), got "${name}"`,
  );
}

/** A unit of weight. */
export function weightUnit(argument: string, name: string): Unit {
  return only("weight", WEIGHT_UNITS, argument, name);
}

/** A unit of volume. */
export function volumeUnit(argument: string, name: string): Unit {
  return only("volume", VOLUME_UNITS, argument, name);
}

function only(
  measures: Unit["measures"],
  names: readonly string[],
  argument: string,
  name: string,
): Unit {
  const unit = unitOf(argument, name);
  if (unit.measures === measures) return unit;
  throw new CalcError(
    `${argument} must be a unit of ${measures} (${names.join(" ")}), ` +
      `got ${unit.name}, a unit of ${unit.measures}`,
  );
}

const GRAM = unitOf("unit", "g");
const MILLILITRE = unitOf("unit", "mL");
const FLUID_OUNCE = unitOf("unit", "floz");

/**
 * An amount in another unit. Between weight and volume it needs the density, g/mL;
 * none is ever assumed.
 */
export function convert(value: number, from: Unit, to: Unit, density?: number): number {
  // A zero that was typed is a density of zero, and refused; only what is left out is not looked
  // at.
  if (density !== undefined) checkDensity("density", density);
  if (from.measures === to.measures) return (value * from.parts) / to.parts;
  if (density === undefined) {
    const [weight, volume] = from.measures === "weight" ? [from, to] : [to, from];
    throw new CalcError(
      `density is needed: ${weight.name} is a weight and ${volume.name} a volume; ` +
        `weigh a known volume to find it`,
    );
  }
  const [near, far] = from.measures === "weight" ? [GRAM, MILLILITRE] : [MILLILITRE, GRAM];
  const there = (value * from.parts) / near.parts;
  const across = from.measures === "weight" ? there / density : there * density;
  return (across * far.parts) / to.parts;
}

/** An amount of any unit in millilitres. */
export function toMillilitres(argument: string, value: number, unit: Unit, density?: number) {
  return convert(amount(argument, value), unit, MILLILITRE, density);
}

/** An amount of any unit in US fluid ounces. */
export function toFluidOunces(argument: string, value: number, unit: Unit, density?: number) {
  return convert(amount(argument, value), unit, FLUID_OUNCE, density);
}

/** A weight in grams. */
export function toGrams(argument: string, value: number, unit: Unit): number {
  return convert(amount(argument, value), unit, GRAM);
}
