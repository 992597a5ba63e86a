/**
 * Ethanol and water by the OIML formula: density, and strength by weight as strength by volume and
 * back.
 *
 * Nothing but ethanol and water is in it. For glycols, isopropanol and fragrance oil no such table
 * is published: BLENDDENSITY takes their volumes as additive, and says so.
 */
import { ETHANOL_FREEZING } from "../data/ethanol-freezing.ts";
import { OIML_R22 } from "../data/oiml-r22.ts";
import { CalcError, number, show } from "../errors.ts";
import { at } from "../lists.ts";

/** The temperature that a strength by volume is told at, unless another is given. */
export const USUAL_CELSIUS = 20;

const COLDEST = -20;
const WARMEST = 40;

/** A temperature within the reach of the formula. */
export function temperature(argument: string, celsius: number): number {
  if (number(argument, celsius) >= COLDEST && celsius <= WARMEST) return celsius;
  throw new CalcError(
    `${argument} must be from ${COLDEST} to ${WARMEST} degrees Celsius, got ${show(celsius)}`,
  );
}

/** kg/m3 at an ethanol share by weight. */
export function densityOfMixture(byWeight: number, celsius: number): number {
  const { A, B, C } = OIML_R22;
  const warmer = celsius - 20;
  const polynomial = (terms: readonly number[], x: number) =>
    terms.reduceRight((value, term) => value * x + term, 0);
  const atTwenty = polynomial(A, byWeight);
  const ofWater = warmer * polynomial(B, warmer);
  const ofBoth = C.map((terms) => byWeight * polynomial(terms, byWeight));
  return atTwenty + ofWater + warmer * polynomial(ofBoth, warmer);
}

/** Share by volume of a share by weight: ethanol's own volume over the mixture's. */
export function volumeShare(byWeight: number, celsius: number): number {
  return (byWeight * densityOfMixture(byWeight, celsius)) / densityOfMixture(1, celsius);
}

/**
 * Share by weight of a share by volume, between two shares that close in on it along the chord
 * (regula falsi; an end that stays put counts half each time, as the Illinois rule says).
 */
export function weightShare(byVolume: number, celsius: number): number {
  if (byVolume === 0 || byVolume === 1) return byVolume;
  const sought = byVolume * densityOfMixture(1, celsius);
  let [low, high] = [0, 1];
  let [under, over] = [-sought, densityOfMixture(1, celsius) - sought];
  for (let wasUnder: boolean | undefined; ;) {
    const byWeight = low - (under / (over - under)) * (high - low);
    if (!(byWeight > low && byWeight < high)) return byWeight;
    const off = byWeight * densityOfMixture(byWeight, celsius) - sought;
    const isUnder = off < 0;
    if (isUnder) [low, under] = [byWeight, off];
    else [high, over] = [byWeight, off];
    if (isUnder && wasUnder === true) over /= 2;
    if (!isUnder && wasUnder === false) under /= 2;
    wasUnder = isUnder;
  }
}

/** Refuses a mixture that has begun to freeze, where the formula would go on as if it had not. */
export function refuseFrozen(argument: string, byWeight: number, celsius: number): void {
  if (celsius >= 0) return;
  const freezes = freezingPoint(volumeShare(byWeight, USUAL_CELSIUS));
  if (celsius >= freezes) return;
  throw new CalcError(
    `${argument} must be ${show(Math.round(freezes))} degrees Celsius or more, ` +
      `where this mixture begins to freeze, got ${show(celsius)}`,
  );
}

/** Degrees Celsius where a strength by volume begins to freeze, to about one degree. */
function freezingPoint(byVolume: number): number {
  const next = ETHANOL_FREEZING.findIndex(([share]) => share >= byVolume);
  if (next === 0) return 0;
  if (next < 0) return Number.NEGATIVE_INFINITY;
  const [[lowShare, lowCelsius], [share, celsius]] = [
    at(ETHANOL_FREEZING, next - 1),
    at(ETHANOL_FREEZING, next),
  ];
  return lowCelsius + ((byVolume - lowShare) / (share - lowShare)) * (celsius - lowCelsius);
}
