import { amount, share } from "../errors.ts";
import { type Basis, basisOf, finishedShare } from "./basis.ts";

/**
 * Fragrance oil to weigh for a batch at a fragrance load.
 *
 * @remarks Load of the finished batch: oil = batch x load. Load of the base: oil = batch x load /
 * (1 + load).
 * @customfunction OILFOR
 * @topic load
 * @need How much fragrance oil do I weigh?
 * @words how much oil, weigh out fragrance, scent amount, percentage, essential oil, perfume,
 * recipe, how much scent to put in, how much fragrance to add
 * @param batch (amount) Finished batch, zero or more, in any unit of weight.
 * @param load (share) Fragrance load, 0 % to 100 %.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (amount) Oil, in the unit of batch.
 * @throws value - load is typed as 5 instead of 5 %
 * @needs load >= 0 and load <= 1
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs batch >= 0
 * @working [basis is finished] part (share): the oil's part of the finished batch, the load itself,
 * = load
 * @working [basis is base] part (share): the oil's part of the finished batch, the load divided by
 * base and oil together, = load / (1 + load)
 * @working oil (batch): oil to weigh: {part} of {batch} = batch * part
 * @source Definition of the load; common practice, no published source.
 * @example OILFOR(60, 5%) // => 3
 * @example OILFOR(63, 5%, "base") // => 3
 */
export function oilFor(batch: number, load: number, basis: Basis = "finished"): number {
  const part = finishedShare(share("load", load), basisOf("basis", basis));
  return amount("batch", batch) * part;
}
