import { positive, positiveShare } from "../errors.ts";

/**
 * Smallest batch whose oil the scale weighs within a tolerance.
 *
 * @remarks Least oil = readability / tolerance; least batch = least oil / load. A 0.1 g scale and 5 %
 * ask for 2 g of oil. Readability stands for the scale's error: a worn or badly placed scale is
 * worse, so check it with a known weight.
 * @customfunction LEASTBATCH
 * @topic load
 * @need How small a trial batch can my scale weigh?
 * @words smallest test, sample size, tester, scale too coarse, accuracy, minimum batch
 * @param load (share) Fragrance load of the finished batch, above 0 % and up to 100 %.
 * @param readability (amount) Smallest step that the scale shows, above zero, in any unit of
 * weight.
 * @param [tolerance] (share) Largest error allowed in the oil, above 0 % and up to 100 % (default 5
 * %).
 * @returns (amount) Finished batch, in the unit of readability.
 * @throws value - load or readability is blank or zero
 * @needs [or blank] readability > 0
 * @needs tolerance > 0 and tolerance <= 1
 * @needs [or blank] load > 0
 * @needs load <= 1
 * @working oil (readability): the least oil to weigh, of which one step of {readability} is
 * {tolerance}, = readability / tolerance
 * @working batch (readability): the batch in which {oil} of oil makes {load} = oil / load
 * @source Least weighable quantity of pharmacy practice: sensitivity x 100 / percent error allowed.
 * @example LEASTBATCH(5%, 0.1) // => 40
 * @example LEASTBATCH(5%, 0.01, 1%) // => 20
 */
export function leastBatch(load: number, readability: number, tolerance = 0.05): number {
  const leastOil = positive("readability", readability) / positiveShare("tolerance", tolerance);
  return leastOil / positiveShare("load", load);
}
