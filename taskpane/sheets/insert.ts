/** Putting templates and formulas into a workbook, never over a filled cell. */
import { type Template, sourcesOf } from "./template.ts";
import { type Drawing, areaOf, drawingOf } from "./drawing.ts";
import { freeName } from "../../functions/formula/sheet-names.ts";
import { findSheets, plannedSheets } from "./find.ts";
import type { Others } from "./names.ts";
import { type Completed, completed, toldOf } from "./complete.ts";
import { type Link, linksOf, waitingFor } from "./relink.ts";
import type { NewSheet, Redrawn, Workbook } from "../host/workbook.ts";

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
  const there = await findSheets(workbook, known);
  if (where === "new sheet") {
    const { names, sources, told } = await addSheets(workbook, [template], filled, known, there);
    return `${template.title} is on the new sheet "${names[0]}"${drawsOn(template, sources)}.${told}`;
  }
  const sources = await completed(workbook, [template], there, known);
  const drawing = drawingOf(template, filled, sources.of(template));
  const spot = await workbook.selection();
  const area = areaOf(drawing, spot.row, spot.column);
  await refuseIfFilled(workbook, spot, drawing, `${template.title} needs ${area} empty`);
  await workbook.drawAt(spot, drawing, sources.redrawn);
  return `${template.title} is at ${area} of "${spot.sheet}"${drawsOn(template, sources)}.${toldOf(sources, [template])}`;
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
  const { names, told } = await addSheets(workbook, missing, filled, known, there);
  return `${names.length} sheets were added, from "${names[0]}" on; they draw from each other.${told}`;
}

/** Adds sheets and links those that were there to them, in one step. */
async function addSheets(
  workbook: Workbook,
  templates: readonly Template[],
  filled: boolean,
  known: readonly Template[],
  there: Others,
) {
  const taken = await workbook.sheetNames();
  const added = templates.map((template) => {
    const sheet = freeName(template.title, taken);
    taken.push(sheet);
    return { sheet, template };
  });
  const others = new Map([...plannedSheets(added, there.keys()), ...there]);
  const waiting = waitingFor(templates, there, known);
  const sources = await completed(workbook, [...templates, ...waiting], others, known);
  const sheets = added.map(({ sheet, template }) => {
    return { name: sheet, drawing: drawingOf(template, filled, sources.of(template)) };
  });
  const links = await linksOf(workbook, waiting, there, sources.of);
  await drawLinked(workbook, sheets, sources.redrawn, links);
  const told = toldOf(sources, templates) + toldOfLinks(links, templates.length === 1);
  return { names: sheets.map(({ name }) => name), sources, told };
}

/** All in one step; where a link is refused, as on a sheet that is protected, each by itself. */
async function drawLinked(
  workbook: Workbook,
  sheets: readonly NewSheet[],
  completions: readonly Redrawn[],
  links: Link[],
) {
  const redrawn = links.flatMap((link) => link.redrawn ?? []);
  try {
    await workbook.drawOnNewSheets(sheets, [...completions, ...redrawn]);
  } catch (refusal) {
    if (redrawn.length === 0) throw refusal;
    await workbook.drawOnNewSheets(sheets, completions);
    for (const link of links)
      if (link.redrawn)
        await workbook.redraw([link.redrawn]).catch((error: unknown) => {
          const said = error instanceof Error ? error.message : String(error);
          link.why = said.replace(/^Nothing was inserted: |\.$/g, "");
        });
  }
}

/** Which sheets draw from new ones now, and which cannot. */
function toldOfLinks(links: readonly Link[], isOne: boolean): string {
  const it = isOne ? "it" : "them";
  const linked = links.filter(({ why }) => why === undefined).map(({ sheet }) => `"${sheet}"`);
  const left = links.flatMap(({ sheet, why }) => (why === undefined ? [] : `"${sheet}" (${why})`));
  return [
    linked.length > 0 ? ` What was here before draws from ${it} now: ${linked.join(", ")}.` : "",
    left.length > 0
      ? ` Still without ${it}: ${left.join(", ")}. Insert such a sheet anew, and delete the old one.`
      : "",
  ].join("");
}

/** From which sheets it draws, for a sentence. */
function drawsOn(template: Template, sources: Completed): string {
  const others = sources.of(template);
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
