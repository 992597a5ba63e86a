/** Putting templates and formulas into a workbook, never over a filled cell. */
import { type Template, sourcesOf } from "./template.ts";
import { type Drawing, areaOf, drawingOf } from "./drawing.ts";
import { freeName } from "../../functions/formula/sheet-names.ts";
import { findSheets, plannedSheets } from "./find.ts";
import type { Others } from "./names.ts";
import { relink } from "./relink.ts";
import type { Workbook } from "../host/workbook.ts";

/** The insert was refused before anything was changed; the text says why. */
export class Refused extends Error {}

export interface InsertOptions {
  where: "new sheet" | "selection";
  /** With the demo filled in, or with empty inputs. */
  filled: boolean;
}

/** Inserts a template and tells where it stands. It draws from the sheets of `known` templates that are there. */
export async function insertTemplate(
  workbook: Workbook,
  template: Template,
  { where, filled }: InsertOptions,
  known: readonly Template[] = [],
): Promise<string> {
  const others = await findSheets(workbook, known);
  const drawing = drawingOf(template, filled, others);
  if (where === "new sheet") {
    const name = await workbook.drawOnNewSheet(template.title, drawing);
    const linked = await relink(workbook, [template], others, known);
    return `${template.title} is on the new sheet "${name}"${drawsOn(template, others)}.${linked}`;
  }
  const spot = await workbook.selection();
  const area = areaOf(drawing, spot.row, spot.column);
  await refuseIfFilled(workbook, spot, drawing, `${template.title} needs ${area} empty`);
  await workbook.drawAt(spot, drawing);
  return `${template.title} is at ${area} of "${spot.sheet}"${drawsOn(template, others)}.`;
}

/** Inserts several templates, each on a sheet of its own, that draw from each other and from what is there. */
export async function insertSet(
  workbook: Workbook,
  templates: readonly Template[],
  filled: boolean,
  known: readonly Template[] = templates,
): Promise<string> {
  const there = await findSheets(workbook, known);
  const missing = templates.filter(({ title }) => !there.has(title));
  if (missing.length === 0) return "All sheets of the set are in the workbook already.";
  const taken = await workbook.sheetNames();
  const added = missing.map((template) => {
    const sheet = freeName(template.title, taken);
    taken.push(sheet);
    return { sheet, template };
  });
  const others = new Map([...there, ...plannedSheets(added, there.keys())]);
  const sheets = added.map(({ sheet, template }) => {
    return { name: sheet, drawing: drawingOf(template, filled, others) };
  });
  await workbook.drawOnNewSheets(sheets);
  return `${sheets.length} sheets were added, from "${sheets[0]?.name ?? ""}" on; they draw from each other.${await relink(workbook, missing, there, known)}`;
}

/** From which sheets it draws, for a sentence. */
function drawsOn(template: Template, others: Others): string {
  const sheets = sourcesOf(template).flatMap((title) => others.get(title)?.sheet ?? []);
  return sheets.length === 0 ? "" : `, and draws from ${sheets.join(", ")}`;
}

/**
 * Puts an example into the selected cell, with a word beside it so that nobody takes it for a number of their own;
 * rows and columns are those that its answer fills.
 */
export async function insertExample(
  workbook: Workbook,
  formula: string,
  size: { rows: number; columns: number },
): Promise<string> {
  const spot = await workbook.selection();
  const area = areaOf(size, spot.row, spot.column);
  const marked = { rows: size.rows, columns: size.columns + 1 };
  const needs = `the example and the word beside it fill ${areaOf(marked, spot.row, spot.column)}`;
  await refuseIfFilled(workbook, spot, marked, needs);
  const cells: Drawing["cells"] = [
    { row: 0, column: 0, content: formula },
    { row: 0, column: size.columns, content: EXAMPLE, look: "caution" },
  ];
  await workbook.drawAt(spot, { ...marked, cells, rules: [], marks: [], charts: [], widths: [] });
  return `${formula} is in ${area.split(":")[0]} of "${spot.sheet}".`;
}

/** What stands beside an example. */
const EXAMPLE = "an example: its numbers are not yours";

async function refuseIfFilled(
  workbook: Workbook,
  spot: Awaited<ReturnType<Workbook["selection"]>>,
  size: { rows: number; columns: number },
  needs: string,
) {
  const filled = await workbook.firstFilled(spot, size.rows, size.columns);
  if (filled) throw new Refused(`Nothing was inserted: ${needs}, and ${filled} is filled.`);
}
