import { amount as checkAmount } from "../errors.ts";
import { convert, unitOf } from "../units.ts";

/**
 * An amount in another unit.
 *
 * @remarks Units of weight and of volume, which is US unless the name says imp: oz is a weight,
 * floz a volume; case and spaces do not matter. Between weight and volume the density is needed:
 * none is assumed.
 * @customfunction TURN
 * @topic measure
 * @need How much is this in another unit?
 * @words convert, conversion, ounces to grams, pounds, fluid ounces, gallons, millilitres, litres,
 * teaspoons, cups, metric
 * @param amount (amount) What to turn, zero or more.
 * @param from (unit) Unit that it is in.
 * @param to (unit) Unit that it is wanted in.
 * @param [density] (density) g/mL; only between weight and volume, no default.
 * @returns (amount) The same amount in the unit asked for.
 * @throws value - density is needed between a weight and a volume
 * @throws value - a unit is not on the list
 * @needs amount >= 0
 * @needs [or blank] filled(from)
 * @needs isunit(from)
 * @needs [or blank] filled(to)
 * @needs isunit(to)
 * @needs [density given] density > 0 and density <= 3
 * @needs isweight(from) == isweight(to) or given(density)
 * @working [isweight(from) == isweight(to)] answer (to): {amount} in the unit asked for = amount *
 * per(from) / per(to)
 * @working [isweight(from) and not isweight(to)] answer (to): {amount} at {density}, in the unit
 * asked for, = amount * per(from) / density / per(to)
 * @working [not isweight(from) and isweight(to)] answer (to): {amount} at {density}, in the unit
 * asked for, = amount * per(from) * density / per(to)
 * @source Exact factors: 1 lb = 453.59237 g and 1 US gal = 3785.411784 mL (NIST SP 811, 2008, app.
 * B), 1 imperial gal = 4546.09 mL.
 * @example TURN(1, "lb", "oz") // => 16
 * @example TURN(1, "floz", "mL") // => 29.5735295625
 * @example TURN(1, "lb", "floz", 0.85) // => about 18.04445
 */
export function turn(amount: number, from: string, to: string, density?: number): number {
  return convert(checkAmount("amount", amount), unitOf("from", from), unitOf("to", to), density);
}
