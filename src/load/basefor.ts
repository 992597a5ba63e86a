import { amount, share } from "../errors.ts";
import { type Basis, basisOf, finishedShare } from "./basis.ts";

/**
 * Spray base to weigh for a batch at a fragrance load.
 *
 * @remarks Load of the finished batch: base = batch x (1 - load). Load of the base: base = batch /
 * (1 + load). Oil and base together are the batch.
 * @customfunction BASEFOR
 * @topic load
 * @need How much base do I weigh?
 * @words weigh out, how much base, carrier, wax, spray base, pour
 * @param batch (amount) Finished batch, zero or more, in any unit of weight.
 * @param load (share) Fragrance load, 0 % to 100 %.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (amount) Base, in the unit of batch.
 * @throws value - load is typed as 5 instead of 5 %
 * @needs load >= 0 and load <= 1
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs batch >= 0
 * @working [basis is finished] part (share): the oil's part of the finished batch, the load itself,
 * = load
 * @working [basis is base] part (share): the oil's part of the finished batch, the load divided by
 * base and oil together, = load / (1 + load)
 * @working base (batch): base to weigh, {batch} less {part} of oil, = batch * (1 - part)
 * @source Definition of the load; common practice, no published source.
 * @example BASEFOR(60, 5%) // => 57
 * @example BASEFOR(63, 5%, "base") // => 60
 */
export function baseFor(batch: number, load: number, basis: Basis = "finished"): number {
  const part = finishedShare(share("load", load), basisOf("basis", basis));
  return amount("batch", batch) * (1 - part);
}
