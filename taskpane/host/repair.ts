/**
 * Re-enters formulas of ours that another machine saved under names that the sheet does not know.
 *
 * Excel without the add-in keeps such a call as _xldudf_MIST_OILFOR(...) and shows #NAME?; it stays so until
 * somebody enters the formula again. Calls that have an answer are left alone.
 */
import { isFault } from "../../functions/bind/cell.ts";
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { mentionsUs, ourCalls } from "../../functions/formula/ours.ts";
import { readFormula } from "../../functions/formula/reader.ts";
import type { Node } from "../../functions/formula/tree.ts";
import { retypedFormula } from "../../functions/formula/writer.ts";
import type { Placed, Workbook } from "./workbook.ts";

export interface Repaired {
  /** "B3 of Costs" */
  place: string;
  formula: string;
  outcome: string;
  isMended: boolean;
}

export async function repair(workbook: Workbook): Promise<Repaired[]> {
  const broken = (await workbook.formulas()).filter(isBroken);
  const mended = broken.map((placed) => ({ ...placed, formula: retypedFormula(placed.formula) }));
  const refusals = await workbook.enter(mended);
  const values = new Map(
    (await workbook.formulas()).map((placed) => [keyOf(placed), placed.value]),
  );
  return mended.map((placed, i) => {
    const refusal = refusals[i] ?? null;
    const value = values.get(keyOf(placed)) ?? null;
    const { row, column, sheet } = placed.spot;
    const isStuck = isFault(value) && value.fault === "#NAME?";
    return {
      place: `${cellName(row, column)} of ${sheet}`,
      formula: placed.formula,
      isMended: refusal === null && !isStuck,
      outcome: outcomeOf(refusal, isStuck, value),
    };
  });
}

/** A call of ours by a name of a file's, or one that the sheet shows as a name it does not know. */
function isBroken({ formula, value }: Placed): boolean {
  if (!mentionsUs(formula)) return false;
  let tree: Node;
  try {
    tree = readFormula(formula);
  } catch {
    return false;
  }
  if (ourCalls(tree).length === 0) return false;
  const isUnknown = isFault(value) && value.fault === "#NAME?";
  return isUnknown || retypedFormula(formula) !== formula;
}

function keyOf({ spot }: Placed): string {
  return `${spot.sheet}!${spot.row},${spot.column}`;
}

function outcomeOf(refusal: string | null, isStuck: boolean, value: Placed["value"]): string {
  if (refusal !== null) return `could not be entered: ${refusal}`;
  if (isStuck) {
    return `was entered again and still shows #NAME?: look for another name in it, or load the ${NAMESPACE} functions again`;
  }
  return isFault(value)
    ? `was entered again; it shows ${value.fault}`
    : "was entered again and has its answer";
}
