import type { Cells } from "../cells";
import { CalcError, positive } from "../errors";
import { toFluidOunces, toMillilitres, volumeUnit } from "../units";

/**
 * Net contents in both systems for a United States label, never overstated.
 *
 * @remarks Both numbers are rounded down: millilitres to two figures below 100 and three from there on (litres from 1000), fluid ounces to a tenth, and below one ounce to a hundredth. What is in the bottle must be at least that, on average and within the allowed variation. Type size, place and wording have rules of their own; larger packs may need pints or quarts too: read 16 CFR 500, or ask.
 * @customfunction NETLABEL
 * @topic limits
 * @need What do I print as net contents?
 * @param volume (volume) What the bottle holds, above zero.
 * @param unit (unit) Unit of volume: mL, L, tsp, tbsp, floz, pt, qt, gal, impfloz or impgal.
 * @returns (label) Text such as 4 fl oz (118 mL).
 * @throws value - volume is blank or zero, or too little to print
 * @throws value - unit is a weight: sprays are sold by volume
 * @needs [or blank] volume > 0
 * @needs isunit(unit) and not isweight(unit)
 * @needs volume * per(unit) >= 1
 * @working ounces: US fluid ounces = volume * per(unit) / per("floz")
 * @working millilitres: mL = volume * per(unit)
 * @working [ounces < 1] shown: rounded down to a hundredth = down(ounces, 2)
 * @working [ounces >= 1] shown: rounded down to a tenth = down(ounces, 1)
 * @working metric: rounded down to two or three figures = metrictext(millilitres)
 * @working label: both, never more than there is = concat(string(shown), " fl oz (", metric, ")")
 * @source Digits of 16 CFR 500.19(b); rounding down after the Uniform Packaging and Labeling Regulation (NIST Handbook 130); hundredths below one ounce from memory.
 * @example NETLABEL(4, "floz") // => "4 fl oz (118 mL)"
 * @example NETLABEL(250, "mL") // => "8.4 fl oz (250 mL)"
 */
export function netLabel(volume: number, unit: string): Cells {
  const held = positive("volume", volume);
  const measure = volumeUnit("unit", unit);
  const ounces = toFluidOunces("volume", held, measure);
  const millilitres = toMillilitres("volume", held, measure);
  const imperial = down(ounces, ounces < 1 ? 2 : 1);
  if (imperial === 0 || millilitres < 1) {
    throw new CalcError(`volume must be 1 mL or more to be printed, got ${held} ${measure.name}`);
  }
  return [[`${imperial} fl oz (${metric(millilitres)})`]];
}

export function metric(millilitres: number): string {
  // The digits before the point, after the same hair that down() allows for.
  const digits = String(Math.floor(millilitres * (1 + 1e-12))).length;
  if (digits > 3) return `${down(millilitres / 1000, Math.max(0, 6 - digits))} L`;
  return `${down(millilitres, Math.max(0, (digits === 3 ? 3 : 2) - digits))} mL`;
}

/** Rounded down to some decimals; a number short of the next by a rounding error alone is the next. */
export function down(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.floor(value * scale * (1 + 1e-12)) / scale;
}
