/** Calls that could take long, beside the second that no call may take. */
import { worksheetFunction } from "../../functions/bind/register";
import { catalog } from "../../functions/catalog/catalog";
import { type Case, timed } from "./measure";

function call(id: string, ...args: unknown[]) {
  const entry = catalog.find((each) => each.id === id);
  if (!entry) throw new Error(`${id} is not in the catalog`);
  const run = worksheetFunction(entry);
  return timed(3, () => run(...args));
}

/** As many rows and columns, with numbers that repeat late. */
function grid(rows: number, columns: number, most: number): number[][] {
  return Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, column) => 1 + ((row * 7919 + column * 104_729) % most)),
  );
}

const MILLION = 1_048_576;
const tall = (values: number[]) => Array.from({ length: MILLION }, (_, i) => [values[i] ?? null]);

export const calls: Record<string, Case> = {
  "one call": {
    beside: "one second",
    goal: 1,
    other: 1000,
    ours: async () => ({
      "SPIRITMARRY of water": await call("SPIRITMARRY", 1, 0, 1, 0),
      "PANELAGREE, 8 people, 6 samples": await call("PANELAGREE", grid(8, 6, 6)),
      "PANELAGREE, 1,000 people, 30 samples": await call("PANELAGREE", grid(1000, 30, 30)),
      "TRIONEED of 1,000 tests": await call("TRIONEED", 1000, 0.001),
      "FADEHALF of 500 scores": await call(
        "FADEHALF",
        grid(500, 1, 500),
        grid(500, 1, 9).map(([score]) => [score]),
      ),
      "TIPPOINT, 200 candidates": await call("TIPPOINT", grid(200, 50, 9), grid(1, 50, 9)),
      "BLENDOF of a whole column": await call("BLENDOF", tall([20, 25]), tall([0.95, 0.5])),
      "OILFOR of a whole column": await call("OILFOR", tall([60, 120]), 0.05),
    }),
  },
};
