/** What is chosen on Size run: the recipe, the scale, and sizes with their bottles. */
import type { CellValue, Workbook } from "../host/workbook.ts";
import { findAll } from "../sheets/find.ts";
import { template as sizeRun } from "../templates/size-run.ts";
import { isBlank, textOf, valuesAt } from "./sheet-lists.ts";

/** The bench sheet's names of what stands under others on Size run. */
const FIELDS = {
  recipe: "recipe",
  unit: "weighin",
  step: "step",
  tolerance: "tolerance",
  extra: "spare",
};

/** By the names of the bench sheet. Nothing where there is no Size run. */
export async function chosenOn(workbook: Workbook): Promise<Map<string, CellValue[]>> {
  const run = (await findAll(workbook, sizeRun)).at(0);
  if (!run) return new Map();
  const sizes = await valuesAt(workbook, run, "sizes.size");
  const counts = await valuesAt(workbook, run, "sizes.count");
  const filled = sizes.flatMap((size, column) => {
    const count = counts[column] ?? null;
    return textOf(size) !== "" && !isBlank(count) ? [{ size, count }] : [];
  });
  const chosen = new Map<string, CellValue[]>([
    ["sizes.size", filled.map(({ size }) => size)],
    ["sizes.count", filled.map(({ count }) => count)],
  ]);
  for (const [name, own] of Object.entries(FIELDS))
    chosen.set(name, await valuesAt(workbook, run, own));
  return chosen;
}
