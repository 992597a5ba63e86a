import { amount, positive, rest, share } from "../errors.ts";
import { askedWhere, at, list, orZero, sameLength, sum, usedIn } from "../lists.ts";
import { checkWhole } from "../load/whole.ts";

/**
 * Cost of one filled bottle: its liquid, with what is lost, and its packaging.
 *
 * @remarks Liquid = fill x sum of share x unit cost. Loss is the part of the liquid that is bought
 * and never sold (left in jugs, spilled, tested): the liquid is divided by 1 - loss. Overfill is
 * not loss: put it into the fill, as FILLWEIGHT does. Labour and fees are not in it.
 * @customfunction BOTTLECOST
 * @topic cost
 * @need What does one filled bottle cost me?
 * @words cost per bottle, cost of making, cost of goods, what it costs, packaging, each, wages
 * @param fill (amount) What goes into one bottle, above zero, in any unit of weight.
 * @param shares (share) One row or column: each ingredient's share of the finished batch, together
 * 100 % within 0.1 %; a blank is none.
 * @param unitcosts (money) One row or column as long as shares: money for one unit of fill of each
 * ingredient (per gram where fill is in grams).
 * @param [packaging] (money) Bottle, cap, sprayer, label and box together (default 0).
 * @param [loss] (share) Part of the liquid that is never sold, 0 % and below 100 % (default 0 %).
 * @returns (money) Cost of one bottle.
 * @throws value - an ingredient that is used has no cost: a blank is never free
 * @throws value - shares do not sum to 100 %: the text gives their sum
 * @needs shares >= 0 and shares <= 1
 * @needs abs(sum(shares) - 1) <= 0.001 * (1 + 1e-9)
 * @needs unitcosts > 0 or (shares == 0 and unitcosts >= 0)
 * @needs samelength(shares, unitcosts)
 * @needs loss >= 0 and loss < 1
 * @needs [or blank] fill > 0
 * @needs packaging >= 0
 * @working parts (money): what each ingredient adds to the cost of one unit of liquid, its share
 * times its cost = shares .* unitcosts
 * @working unit (money per fill): what one unit of liquid costs, the sum of these divided by the
 * sum of the shares, = sum(parts) / sum(shares)
 * @working liquid (money): the liquid for {fill}, with {loss} of it lost, = fill * unit / (1 -
 * loss)
 * @working cost (money): the cost of liquid and packaging = liquid + packaging
 * @source By hand; loss as a share of what is bought, common practice, no published source.
 * @example BOTTLECOST(100, {0.95; 0.05}, {0.01; 0.08}, 1.2) // => 2.55
 * @example BOTTLECOST(100, {0.95; 0.05}, {0.01; 0.08}, 1.2, 10%) // => 2.7
 */
export function bottleCost(
  fill: number,
  shares: number[][],
  unitcosts: number[][],
  packaging = 0,
  loss = 0,
): number {
  const parts = list("shares", shares, orZero(share));
  const whole = checkWhole(parts);
  const costs = list("unitcosts", unitcosts, askedWhere(usedIn(parts), positive, amount));
  sameLength("shares", parts, "unitcosts", costs);
  const kept = rest("loss", loss);
  const perUnit = sum(parts.map((part, i) => (part / whole) * at(costs, i)));
  return (positive("fill", fill) * perUnit) / kept + amount("packaging", packaging);
}
