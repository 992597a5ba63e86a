/** PACKPLAN beside the HiGHS solver, as the need grows tenfold; and on shops whose packs are nearly alike. */
import { packPlan as plan } from "../../src/index";
import { type Shop, leastCost } from "../cost/solver";
import { type Case, type Times, timed } from "./measure";

const SIZES = [0.5, 1.25, 3.8, 7.6, 12.5, 20, 33.4, 47.5, 60, 75, 90, 110];

function benign(need: number): Shop {
  const prices = SIZES.map((size) => Number((2.4 * size ** 0.9).toFixed(2)));
  return { need: need + 0.07, sizes: SIZES, prices, freight: 18, freeover: 250 };
}

/** Ten packs from 450 g to 460 g, each as good a buy as the next. */
function nasty(need: number): Shop {
  const sizes = Array.from({ length: 10 }, (_, i) => 450 + i + (i * i) / 100);
  const prices = sizes.map((size, i) => Number((size / 50 + (i % 3) / 100).toFixed(2)));
  return { need, sizes, prices, freight: 12, freeover: 0 };
}

const SHOPS: Record<string, Shop> = {
  ...Object.fromEntries([10, 1000, 100_000].map((need) => [`need of ${need}`, benign(need)])),
  ...Object.fromEntries(
    [2000, 5003, 10_007, 30_011].map((need) => [`alike packs, need of ${need}`, nasty(need)]),
  ),
};

async function each(solve: (shop: Shop) => unknown): Promise<Times> {
  const times: Times = {};
  for (const [name, shop] of Object.entries(SHOPS)) times[name] = await timed(5, () => solve(shop));
  return times;
}

const ours = () =>
  each(({ need, sizes, prices, freight, freeover }) =>
    plan(need, [sizes], [prices], freight, freeover),
  );

export const packPlan: Record<string, Case> = {
  PACKPLAN: { beside: "HiGHS", goal: 1, ours, other: () => each(leastCost) },
};
