import { positive } from "../errors.ts";
import { toMillilitres, unitOf } from "../units.ts";

/**
 * Drops to count for an amount.
 *
 * @remarks Drops = volume in mL x drops per mL. There is no standard drop: it changes with the
 * dropper and the liquid, so find the rate of yours with DROPRATE. Drops are for first sniffs;
 * weigh what you will sell.
 * @customfunction DROPSFOR
 * @topic measure
 * @need How many drops is that?
 * @words dropper, pipette, count drops, drops per bottle
 * @param amount (amount) Amount wanted, zero or more.
 * @param unit (unit) Its unit, a weight or a volume.
 * @param dropsperml (rate) Drops per mL of this liquid from this dropper, above zero.
 * @param [density] (density) g/mL; only for an amount by weight, no default.
 * @returns (drops) Drops, not rounded.
 * @throws value - dropsperml is blank or zero
 * @throws value - density is needed for an amount by weight
 * @needs [or blank] dropsperml > 0
 * @needs isunit(unit)
 * @needs amount >= 0
 * @needs [density given] density > 0 and density <= 3
 * @needs not isweight(unit) or given(density)
 * @working [isweight(unit)] millilitres (mL): {amount} in millilitres, at {density}, = amount *
 * per(unit) / density
 * @working [not isweight(unit)] millilitres (mL): {amount} in millilitres = amount * per(unit)
 * @working drops (drops): what to count, {millilitres} at {dropsperml}, = millilitres * dropsperml
 * @source By hand, from the rate found by counting.
 * @example DROPSFOR(2, "mL", 17.5) // => 35
 * @example DROPSFOR(1, "g", 30, 0.9) // => about 33.3333
 */
export function dropsFor(
  amount: number,
  unit: string,
  dropsperml: number,
  density?: number,
): number {
  const rate = positive("dropsperml", dropsperml);
  return toMillilitres("amount", amount, unitOf("unit", unit), density) * rate;
}
