import { CalcError, amount, positive, share } from "../errors.ts";
import { toFluidOunces, unitOf } from "../units.ts";

/**
 * Landed cost of a pack per US fluid ounce.
 *
 * @remarks (Price + freight) / (fluid ounces x (1 - loss)). A pack sold by weight needs its
 * density: a pound is not 16 fluid ounces. Freight is what this pack's journey cost; loss is what
 * stays in the pail, the pump and the jug.
 * @customfunction FLOZCOST
 * @topic cost
 * @need Which supplier's pack is cheapest, freight counted?
 * @param price (money) Price of the pack, above zero.
 * @param size (amount) Size of the pack, above zero.
 * @param unit (unit) Unit of the size, a weight or a volume.
 * @param [density] (density) g/mL; only for a pack sold by weight, no default.
 * @param [freight] (money) Freight paid for this pack, zero or more (default 0).
 * @param [loss] (share) Part of the pack that is never sold, 0 % and below 100 % (default 0 %).
 * @returns (money) Money per US fluid ounce, in the currency of price.
 * @throws value - price or size is blank or zero: a blank price is never a free one
 * @throws value - density is needed for a pack sold by weight
 * @needs [or blank] price > 0
 * @needs freight >= 0
 * @needs isunit(unit)
 * @needs [or blank] size > 0
 * @needs [density given] density > 0 and density <= 3
 * @needs not isweight(unit) or given(density)
 * @needs loss >= 0 and loss < 1
 * @working [isweight(unit)] ounces: the pack in fluid ounces, by its density = size * per(unit) /
 * density / per("floz")
 * @working [not isweight(unit)] ounces: the pack in fluid ounces = size * per(unit) / per("floz")
 * @working cost: price and freight over what is left = (price + freight) / (ounces * (1 - loss))
 * @source By hand; 1 US fl oz = 29.5735295625 mL exactly (NIST SP 811, 2008, app. B).
 * @example FLOZCOST(38.4, 1, "gal") // => 0.3
 * @example FLOZCOST(38.4, 1, "gal", , 12.8, 20%) // => 0.5
 * @example FLOZCOST(20, 1, "lb", 0.85) // => about 1.108374
 */
export function flozCost(
  price: number,
  size: number,
  unit: string,
  density?: number,
  freight = 0,
  loss = 0,
): number {
  const paid = positive("price", price) + amount("freight", freight);
  const ounces = toFluidOunces("size", positive("size", size), unitOf("unit", unit), density);
  const kept = 1 - share("loss", loss);
  if (kept === 0) throw new CalcError("loss must be below 100 %, got 100 %");
  return paid / (ounces * kept);
}
