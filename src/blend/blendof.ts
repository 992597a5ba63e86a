import { BlankError, amount, isBlankNumber, number } from "../errors.ts";
import { askedWhere, at, flat, list, sameLength, sum, usedIn } from "../lists.ts";

/**
 * Weighted mean of several lots: strength, density by volume, cost by amount.
 *
 * @remarks Sum of amount x value over the sum of amounts (alligation medial). A lot of zero may
 * leave its value blank; a lot with a value and no amount is refused, as unknown. Right for
 * whatever mixes in proportion to the amount: strength by weight with amounts by weight, price per
 * pound with pounds.
 * @customfunction BLENDOF
 * @topic blend
 * @need What strength, or price, does this mixture have?
 * @words mix, average, combined, blend of oils, mixture price
 * @param amounts (amount) One row or column: how much of each lot, zero or more, all in one unit.
 * @param values (number) One row or column as long as amounts: the value of each lot, all in one
 * unit.
 * @returns (number) Mean value, in the unit of values.
 * @throws value - amounts and values are of unlike length
 * @throws value - the amounts sum to zero
 * @throws value - a lot has an amount and no value, or a value and no amount
 * @needs samelength(amounts, values)
 * @needs amounts >= 0
 * @needs filled(amounts) or not filled(values)
 * @needs amounts == 0 or filled(values)
 * @needs [or blank] sum(amounts) > 0
 * @working parts (number): amount times value of each lot = amounts .* values
 * @working mean (values): the sum of these, divided by the sum of the amounts, = sum(parts) /
 * sum(amounts)
 * @source Alligation medial; example from a pharmacy alligation hand-out.
 * @example BLENDOF({20; 25}, {0.95; 0.5}) // => 70%
 * @example BLENDOF({110, 220, 330}, {35, 25, 20}) // => about 24.1667
 */
export function blendOf(amounts: number[][], values: number[][]): number {
  const given = flat(values);
  sameLength("amounts", flat(amounts), "values", given);
  const isLot = (i: number) => !isBlankNumber(at(given, i));
  const weights = list("amounts", amounts, askedWhere(isLot, amount));
  const each = list("values", values, askedWhere(usedIn(weights), number));
  const whole = sum(weights);
  if (whole === 0) throw new BlankError("the sum of amounts");
  return sum(weights.map((weight, i) => (weight / whole) * at(each, i)));
}
