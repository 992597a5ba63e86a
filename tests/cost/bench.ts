/**
 * npm run bench: PACKPLAN's time as the need grows tenfold, and beside the HiGHS solver. Ratios count,
 * within one run; seconds depend on the machine.
 */
import { packPlan } from "../../src/index";
import { type Shop, leastCost } from "./solver";

const SIZES = [0.5, 1.25, 3.8, 7.6, 12.5, 20, 33.4, 47.5, 60, 75, 90, 110];
const PRICES = SIZES.map((size) => Number((2.4 * size ** 0.9).toFixed(2)));

function milliseconds(run: () => unknown): number {
  const times = Array.from({ length: 7 }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[3];
}

const rows = [10, 100, 1_000, 10_000, 100_000, 1_000_000].map((need) => {
  const shop: Shop = {
    need: need + 0.07,
    sizes: SIZES,
    prices: PRICES,
    freight: 18,
    freeover: 250,
  };
  const ours = milliseconds(() =>
    packPlan(shop.need, [SIZES], [PRICES], shop.freight, shop.freeover),
  );
  return { need, ours, theirs: milliseconds(() => leastCost(shop)) };
});
console.table(
  rows.map(({ need, ours, theirs }, i) => ({
    need,
    "PACKPLAN ms": ours.toFixed(2),
    "against a tenth of the need": i ? (ours / rows[i - 1].ours).toFixed(2) : "",
    "HiGHS ms": theirs.toFixed(2),
    "HiGHS over PACKPLAN": (theirs / ours).toFixed(1),
  })),
);
