/** Putting templates and formulas into a workbook, never over a filled cell. */
import type { Template } from "./template";
import { areaOf, drawingOf } from "./drawing";
import type { Workbook } from "../host/workbook";

/** The insert was refused before anything was changed; the text says why. */
export class Refused extends Error {}

export interface InsertOptions {
  where: "new sheet" | "selection";
  /** With the demo filled in, or with empty inputs. */
  filled: boolean;
}

/** Inserts a template and tells where it stands. */
export async function insertTemplate(
  workbook: Workbook,
  template: Template,
  { where, filled }: InsertOptions,
): Promise<string> {
  if (where === "new sheet") {
    const name = await workbook.drawOnNewSheet(template.title, drawingOf(template, filled));
    return `${template.title} is on the new sheet "${name}".`;
  }
  const spot = await workbook.selection();
  const drawing = drawingOf(template, filled);
  const area = areaOf(drawing, spot.row, spot.column);
  await refuseIfFilled(workbook, spot, drawing, `${template.title} needs ${area} empty`);
  await workbook.drawAt(spot, drawing);
  return `${template.title} is at ${area} of "${spot.sheet}".`;
}

/** Puts a formula into the selected cell; rows and columns are those that its answer fills. */
export async function insertFormula(
  workbook: Workbook,
  formula: string,
  size: { rows: number; columns: number },
): Promise<string> {
  const spot = await workbook.selection();
  const area = areaOf(size, spot.row, spot.column);
  const needs =
    size.rows * size.columns > 1 ? `the answer fills ${area}` : "it needs an empty cell";
  await refuseIfFilled(workbook, spot, size, needs);
  const cells = [{ row: 0, column: 0, content: formula }];
  await workbook.drawAt(spot, { ...size, cells, rules: [], marks: [], charts: [], widths: [] });
  return `${formula} is in ${area.split(":")[0]} of "${spot.sheet}".`;
}

async function refuseIfFilled(
  workbook: Workbook,
  spot: Awaited<ReturnType<Workbook["selection"]>>,
  size: { rows: number; columns: number },
  needs: string,
) {
  const filled = await workbook.firstFilled(spot, size.rows, size.columns);
  if (filled) throw new Refused(`Nothing was inserted: ${needs}, and ${filled} is filled.`);
}
