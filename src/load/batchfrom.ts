import { amount, positiveShare } from "../errors.ts";
import { type Basis, basisOf, finishedShare } from "./basis.ts";

/**
 * Finished batch that the oil on hand makes.
 *
 * @remarks Load of the finished batch: batch = oil / load. Load of the base: batch = oil x (1 +
 * load) / load.
 * @customfunction BATCHFROM
 * @topic load
 * @need How big a batch does this bottle of oil make?
 * @words use up the oil, how many bottles can I make, leftover oil, yield, how many can I pour or
 * fill, from a gallon
 * @param oil (amount) Oil on hand, zero or more, in any unit of weight.
 * @param load (share) Fragrance load, above 0 % and up to 100 %.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (amount) Finished batch, in the unit of oil.
 * @throws value - load is blank or zero
 * @throws value - load is typed as 5 instead of 5 %
 * @needs [or blank] load > 0
 * @needs load <= 1
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs oil >= 0
 * @working [basis is finished] part (share): the oil's part of the finished batch, the load itself,
 * = load
 * @working [basis is base] part (share): the oil's part of the finished batch, the load divided by
 * base and oil together, = load / (1 + load)
 * @working batch (oil): the batch in which {oil} of oil makes {part} = oil / part
 * @source Definition of the load; common practice, no published source.
 * @example BATCHFROM(3, 5%) // => 60
 * @example BATCHFROM(3, 5%, "base") // => 63
 */
export function batchFrom(oil: number, load: number, basis: Basis = "finished"): number {
  const part = finishedShare(positiveShare("load", load), basisOf("basis", basis));
  return amount("oil", oil) / part;
}
