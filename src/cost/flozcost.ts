import type { Cell } from "../cells.ts";
import { CalcError, amount, positive, rest } from "../errors.ts";
import { packHolds } from "../measure/packholds.ts";
import { toFluidOunces, unitOf } from "../units.ts";

/**
 * Landed cost of a pack per US fluid ounce.
 *
 * @remarks (Price + freight) / (fluid ounces x (1 - loss)). A pack sold by weight needs its
 * density: a pound is not 16 fluid ounces. Freight is what this pack's journey cost; loss is what
 * stays in the pail, the pump and the jug. Where size and unit stand in one cell, such as "4 x 250
 * mL", give it as size and leave the unit out: PACKHOLDS says how it is read. Prices may be texts,
 * such as "$6.00". In a copy for a partner a formula without a unit, or over such texts, becomes a
 * fixed value.
 * @customfunction FLOZCOST
 * @topic cost
 * @need Which supplier's pack is cheapest, freight counted?
 * @words cheaper, cheapest, best supplier, price per ounce, unit price, compare, shipping, worth
 * it, gallon or quart
 * @param price (money) Price of the pack, above zero.
 * @param size (pack) Size of the pack, above zero; without a unit the pack's text, such as "1 gal".
 * @param [unit] (unit) Unit of the size, a weight or a volume; no default. Left out beside a text.
 * @param [density] (density) g/mL; only for a pack sold by weight, no default.
 * @param [freight] (money) Freight paid for this pack, zero or more (default 0).
 * @param [loss] (share) Part of the pack that is never sold, 0 % and below 100 % (default 0 %).
 * @returns (money) Money per US fluid ounce, in the currency of price.
 * @throws value - price or size is blank or zero: a blank price is never a free one
 * @throws value - density is needed for a pack sold by weight
 * @throws value - unit is blank beside a number, or given beside a text
 * @needs [or blank] price > 0
 * @needs freight >= 0
 * @needs [unit not given] ispack(size, density)
 * @needs [unit given] isnumber(size)
 * @needs [unit given] isunit(unit)
 * @needs [or blank, unit given] size > 0
 * @needs [density given] density > 0 and density <= 3
 * @needs not isweight(unit) or given(density)
 * @needs loss >= 0 and loss < 1
 * @working [isweight(unit)] ounces (floz): the pack of {size} in fluid ounces, at {density}, = size
 * * per(unit) / density / per("floz")
 * @working [isvolume(unit)] ounces (floz): the pack of {size} in fluid ounces = size * per(unit) /
 * per("floz")
 * @working [unit not given] ounces (floz): what {size} says that the pack holds, in fluid ounces, =
 * packholds(size, "floz", density)
 * @working cost (money per floz): what one fluid ounce costs, {price} and {freight} of freight for
 * {ounces} of which {loss} is lost, = (price + freight) / (ounces * (1 - loss))
 * @source By hand; 1 US fl oz = 29.5735295625 mL exactly (NIST SP 811, 2008, app. B).
 * @example FLOZCOST(38.4, 1, "gal") // => 0.3
 * @example FLOZCOST(38.4, 1, "gal", , 12.8, 20%) // => 0.5
 * @example FLOZCOST(20, 1, "lb", 0.85) // => about 1.108374
 * @example FLOZCOST(38.4, "4 x 1/4 gal") // => 0.3
 * @example FLOZCOST(20, "1 lb sample", , 0.85) // => about 1.108374
 */
export function flozCost(
  price: number,
  size: Cell,
  unit?: string,
  density?: number,
  freight = 0,
  loss = 0,
): number {
  const paid = positive("price", price) + amount("freight", freight);
  const ounces = ouncesIn(size, unit, density);
  return paid / (ounces * rest("loss", loss));
}

/** The pack in fluid ounces: a number and its unit, or a text that says both. */
function ouncesIn(size: Cell, unit?: string, density?: number): number {
  if (typeof size === "number") {
    return toFluidOunces("size", positive("size", size), unitOf("unit", unit ?? ""), density);
  }
  if (unit === undefined) return packHolds(size, "floz", density);
  throw new CalcError(`size must be a number beside a unit, got "${size}": leave the unit out`);
}
