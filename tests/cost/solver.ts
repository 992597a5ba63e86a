/** PACKPLAN's question put to the HiGHS solver (npm highs, MIT): the least that goods and freight can cost. */
import highsLoader from "highs";

export interface Shop {
  need: number;
  sizes: number[];
  prices: number[];
  freight: number;
  freeover: number;
}

const highs = await highsLoader();

export function leastCost({ need, sizes, prices, freight, freeover }: Shop): number {
  const terms = (factors: number[]) => factors.map((factor, i) => `${factor} x${i}`).join(" + ");
  const packs = sizes.map((_, i) => `x${i}`).join(" ");
  // paid is 1 where freight is paid; waived is 1 where the goods reach the sum from which it is not.
  const waived =
    freeover > 0 ? `reached: ${terms(prices)} - ${freeover} waived >= 0` : "never: waived = 0";
  const model = `Minimize
 cost: ${terms(prices)} + ${freight} paid
Subject To
 enough: ${terms(sizes)} >= ${need}
 ${waived}
 either: paid + waived >= 1
Bounds
 paid <= 1
 waived <= 1
General
 ${packs} paid waived
End`;
  const { Status, ObjectiveValue } = highs.solve(model, {
    mip_rel_gap: 0,
    mip_abs_gap: 1e-7,
    mip_feasibility_tolerance: 1e-9,
    primal_feasibility_tolerance: 1e-9,
  });
  if (Status !== "Optimal") throw new Error(`HiGHS: ${Status}`);
  return ObjectiveValue;
}

export function costOf({ prices, freight, freeover }: Shop, counts: number[]): number {
  const goods = prices.reduce((sum, price, i) => sum + price * counts[i], 0);
  const isFree = goods === 0 || (freeover > 0 && goods >= freeover - 1e-9);
  return goods + (isFree ? 0 : freight);
}
