/** The formulas written: down the lines or as one that spills, in one step, and over no filled cell. */
import type { Grid } from "../../functions/bind/cell.ts";
import { isFault } from "../../functions/bind/cell.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import type { Spot, Workbook, TypedCell } from "../host/workbook.ts";
import { Refused } from "../sheets/insert.ts";
import type { FoundList } from "./list.ts";
import type { Trial } from "./trial.ts";

export interface Filling {
  /** The cell of the first answer. */
  at: Spot;
  /** What the cell above it is to say; nothing, where it is blank. */
  heading: string;
  spilled: boolean;
}

/** Columns right of a list that are tried for room. */
const TRIED = 6;

/** The first cell of the first free column right of a list; of none, the cell itself. */
export async function freeBeside(workbook: Workbook, list: FoundList, width = 1): Promise<Spot> {
  const right = (list.columns.at(-1)?.column ?? 0) + 1;
  const rows = list.last - list.head + 1;
  for (let column = right; column < right + TRIED; column++) {
    const spot = { sheet: list.sheet, row: list.head, column };
    if ((await workbook.firstFilled(spot, rows, width)) === null)
      return { ...spot, row: list.first };
  }
  return { sheet: list.sheet, row: list.first, column: right };
}

/** Writes; tells where. */
export async function fill(
  workbook: Workbook,
  trial: Trial,
  { at, heading, spilled }: Filling,
  moneyAt: Spot | null,
): Promise<string> {
  const [sample = [[null]]] = trial.answers;
  const size = extentOf(trial.answers);
  const filled = await workbook.firstFilled(at, size.rows, size.columns);
  if (filled)
    throw new Refused(`Nothing was written: ${filled} is filled. Name another first cell.`);
  const above = { ...at, row: at.row - 1 };
  const isHeadFree = at.row > 0 && (await workbook.firstFilled(above, 1, 1)) === null;
  const format = await formatFor(workbook, trial, at, moneyAt);
  const cellsOf = (line: number): TypedCell => ({
    spot: { ...at, row: at.row + line * sample.length },
    content: spilled ? trial.spilled : trial.formula(line),
    ...(format !== undefined && { format }),
  });
  const formulas = spilled ? [cellsOf(0)] : trial.answers.map((_, line) => cellsOf(line));
  const isHeaded = isHeadFree && heading.trim() !== "";
  await workbook.write([
    ...(isHeaded ? [{ spot: above, content: heading.trim() }] : []),
    ...formulas,
  ]);
  await refuseUnlessSpilled(workbook, at, formulas, spilled);
  const first = cellName(at.row, at.column);
  const what = formulas.length === 1 ? "One formula is" : `${formulas.length} formulas are`;
  return `${what} in "${at.sheet}" from ${first} on; one undo takes all back.`;
}

/** The rows and columns that the answers fill. */
function extentOf(answers: readonly Grid[]) {
  const columns = Math.max(...answers.map(([first]) => first?.length ?? 1));
  return { rows: answers.reduce((sum, answer) => sum + answer.length, 0), columns };
}

/** Where a host has no room for what spills (in a table), it is taken back. */
async function refuseUnlessSpilled(
  workbook: Workbook,
  at: Spot,
  written: readonly TypedCell[],
  spilled: boolean,
) {
  if (!spilled) return;
  const { value } = await workbook.content(at);
  if (!isFault(value) || value.fault !== "#SPILL!") return;
  await workbook.write(written.map(({ spot }) => ({ spot, content: null })));
  throw new Refused("Nothing was written: here a formula cannot spill. Take one in every line.");
}

/** The format of cells that hold texts: a formula typed into one would be a text, too. */
const AS_TEXT = "@";

/** As the cell has it; else, for money, as the column of money has it, and for a percent, as one. */
async function formatFor(
  workbook: Workbook,
  { entry, mark }: Trial,
  at: Spot,
  moneyAt: Spot | null,
): Promise<string | undefined> {
  const { kind } = entry.returns;
  if ((await workbook.format(at)) !== "") return undefined;
  if (kind === "money" && mark !== undefined) return `[$${mark}]#,##0.00`;
  if (kind === "money") {
    const beside = moneyAt ? await workbook.format(moneyAt) : "";
    return beside === "" || beside === AS_TEXT ? "0.00" : beside;
  }
  return kind === "share" || kind === "limit" ? "0.0%" : undefined;
}
