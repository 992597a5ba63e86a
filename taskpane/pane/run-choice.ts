/** What is chosen on Size run, found by its labels: the recipe, and sizes with their bottles. */
import type { CellValue, Workbook } from "../host/workbook";
import { findAll } from "../sheets/find";
import { template as sizeRun } from "../templates/size-run";
import { isBlank, textOf } from "./sheet-lists";

/** How far the labels are looked for. */
const ROWS = 40;
const COLUMNS = 20;

const RECIPE = "Recipe";
const SIZES = "Size, of Sizes";
const BOTTLES = "Bottles to fill (count)";

/** The names are those of the bench sheet. Nothing where there is no Size run, or where it stands alone. */
export async function chosenOn(workbook: Workbook): Promise<Map<string, CellValue[]>> {
  const run = (await findAll(workbook, sizeRun)).at(0);
  if (!run) return new Map();
  const spot = { sheet: run.sheet, row: 0, column: 0 };
  const cells = await workbook.read(spot, ROWS, COLUMNS);
  /** What stands right of a label, column by column from its own. */
  const rightOf = (label: string): CellValue[] => {
    const line = cells.find((each) => each.includes(label)) ?? [];
    return line.map((value, column) => (column > line.indexOf(label) ? value : null));
  };
  const sizes = rightOf(SIZES);
  const counts = rightOf(BOTTLES);
  const filled = sizes.flatMap((size, column) => {
    const count = counts[column] ?? null;
    return textOf(size) !== "" && !isBlank(count) ? [{ size, count }] : [];
  });
  return new Map([
    ["recipe", rightOf(RECIPE).filter((value) => !isBlank(value))],
    ["sizes.size", filled.map(({ size }) => size)],
    ["sizes.count", filled.map(({ count }) => count)],
  ]);
}
