import { amount } from "../errors";

/**
 * Fragrance oil to weigh.
 *
 * @customfunction OILFOR
 * @topic load
 * @need How much oil do I weigh?
 * @param batch (amount) Finished batch, in any unit of weight.
 * @param load (share) Fragrance load, 0 % to 100 %.
 * @param [basis] (choice) "finished" (default) or "base".
 * @returns (amount) Oil, in the unit of batch.
 * @example OILFOR(60, 5%) // => 3
 * @throws value - load is typed as 5 instead of 5 %
 * @working oil (batch): oil to weigh = batch * load
 * @source Definition of the load; common practice, no published source.
 */
export function oilFor(batch: number, load: number, basis: Basis = "finished"): number {
  return amount("batch", batch) * load;
}
