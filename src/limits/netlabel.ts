import type { Cells } from "../cells.ts";
import { CalcError, positive, show } from "../errors.ts";
import { convert, unitOf } from "../units.ts";

/**
 * Net contents in both systems for a United States label, never overstated.
 *
 * @remarks A spray by volume, a candle or a wax melt by weight. Both numbers are rounded down:
 * ounces to a hundredth, the metric one to two figures below 100 and to three from there on (L and
 * kg from 1000). What is in the pack must be at least that, on average and within the allowed
 * variation. It is for household goods, 16 CFR 500. What goes on the body is a cosmetic, and its
 * label stands in 21 CFR 701: a body mist is one, a room spray is not. Type size, place and wording
 * have rules of their own; larger packs may need pounds, pints or quarts too: read the rule, or
 * ask.
 * @customfunction NETLABEL
 * @topic limits
 * @need What do I print as net contents?
 * @words label, fluid ounces and mL, contents statement, what to print, weight on label, candle
 * label
 * @param amount (amount) What the bottle or the candle holds, above zero.
 * @param unit (unit) Its unit: a volume for what is poured, a weight for what is solid.
 * @returns (label) Text such as 4 fl oz (118 mL), or Net wt 8 oz (226 g).
 * @throws value - amount is blank or zero, or too little to print
 * @throws value - unit is not on the list; oz is a weight, floz a volume
 * @needs [or blank] amount > 0
 * @needs isunit(unit)
 * @needs amount * per(unit) >= 1
 * @working [isweight(unit)] held (g): {amount} in grams = amount * per(unit)
 * @working [not isweight(unit)] held (mL): {amount} in millilitres = amount * per(unit)
 * @working [isweight(unit)] ounces (oz): {held} in ounces = held / per("oz")
 * @working [not isweight(unit)] ounces (floz): {held} in US fluid ounces = held / per("floz")
 * @working shown (ounces): {ounces}, rounded down to a hundredth, = down(ounces, 2)
 * @working metric (label): {held}, rounded down to two or three figures = metrictext(held, unit)
 * @working label (label): what to print, never more than there is = concat(ouncetext(shown, unit),
 * " (", metric, ")")
 * @source 16 CFR 500.17(a), by which decimals go to three places at most; metric digits of 16 CFR
 * 500.19(b); rounding down after the Uniform Packaging and Labeling Regulation (NIST Handbook 130).
 * @example NETLABEL(4, "floz") // => "4 fl oz (118 mL)"
 * @example NETLABEL(250, "mL") // => "8.45 fl oz (250 mL)"
 * @example NETLABEL(8, "oz") // => "Net wt 8 oz (226 g)"
 */
export function netLabel(amount: number, unit: string): Cells {
  const held = positive("amount", amount);
  const from = unitOf("unit", unit);
  const isWeight = from.measures === "weight";
  const [ounce, small] = isWeight ? ["oz", "g"] : ["floz", "mL"];
  const ounces = convert(held, from, unitOf("unit", ounce));
  const metric = convert(held, from, unitOf("unit", small));
  if (metric < 1) {
    const got = `${show(held)} ${from.name}`;
    throw new CalcError(`amount must be 1 ${small} or more to be printed, got ${got}`);
  }
  return [[`${ounceText(down(ounces, 2), isWeight)} (${metricText(metric, isWeight)})`]];
}

export function ounceText(ounces: number, isWeight: boolean): string {
  return isWeight ? `Net wt ${ounces} oz` : `${ounces} fl oz`;
}

/** Grams or millilitres, or kilograms or litres from 1000 on. */
export function metricText(held: number, isWeight: boolean): string {
  const [small, large] = isWeight ? ["g", "kg"] : ["mL", "L"];
  // The digits before the point, after the same hair that down() allows for.
  const digits = String(Math.floor(held * (1 + 1e-12))).length;
  if (digits > 3) return `${down(held / 1000, Math.max(0, 6 - digits))} ${large}`;
  return `${down(held, Math.max(0, (digits === 3 ? 3 : 2) - digits))} ${small}`;
}

/**
 * Rounded down to some decimals; a number short of the next by a rounding error alone is the next.
 */
export function down(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.floor(value * scale * (1 + 1e-12)) / scale;
}
