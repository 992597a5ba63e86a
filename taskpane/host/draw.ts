/**
 * Drawings on a sheet of Excel's: sent with one sync, and put back whole where Excel refuses one of its orders.
 *
 * A new sheet is removed again. At a selection, which was empty, the text, the rules and the marks are
 * cleared, and the paint and widths from before are put back.
 */
import { freeName } from "../../functions/formula/sheet-names.ts";
import { type Drawing, type PlacedDrawing, placed } from "../sheets/drawing.ts";
import { orderFormats, orderLists, reaching } from "./lists.ts";
import { POINTS, order, rangeOf } from "./orders.ts";
import { orderPage } from "./page.ts";
import { orderAnew, putBackOld, standing } from "./redraw.ts";
import { reasonOf, write } from "./run.ts";
import type { NewSheet, Redrawn, Spot } from "./workbook.ts";

/** What is remembered of each cell's paint, to put it back. */
const REMEMBERED: Excel.CellPropertiesLoadOptions = {
  format: {
    fill: { color: true },
    font: { bold: true, italic: true, color: true, size: true },
    horizontalAlignment: true,
    verticalAlignment: true,
    wrapText: true,
  },
};

/** Draws on a new sheet at the end, and shows it. */
export async function drawOnNewSheet(
  title: string,
  drawing: Drawing,
  redrawn: readonly Redrawn[] = [],
): Promise<string> {
  let name = title;
  await addSheets(async (taken) => [{ name: (name = freeName(title, taken)), drawing }], redrawn);
  return name;
}

/** Draws on several new sheets at the end, and shows the first of them. */
export function drawOnNewSheets(
  added: readonly NewSheet[],
  redrawn: readonly Redrawn[] = [],
): Promise<void> {
  return addSheets(async () => added, redrawn);
}

function addSheets(
  named: (taken: string[]) => Promise<readonly NewSheet[]>,
  redrawn: readonly Redrawn[],
): Promise<void> {
  const drawn = write(async (context) => {
    const sheets = context.workbook.worksheets;
    const { tables } = context.workbook;
    sheets.load("items/name");
    tables.load("items/name");
    await context.sync();
    const added = await named(sheets.items.map((sheet) => sheet.name));
    const tableNames = namesOf(tables);
    const old = await standing(context, redrawn);
    try {
      // All are there before anything is written that leads from one to another.
      const made = added.map(({ name, drawing }) => {
        return { sheet: sheets.add(name), there: placed(drawing, 0, 0) };
      });
      for (const { sheet, there } of made) {
        order(context, sheet, reaching(there));
        orderFormats(sheet, there);
        orderLists(sheet, there, tableNames);
        orderPage(sheet, there);
      }
      for (const each of old) orderAnew(context, each, tableNames);
      made[0]?.sheet.activate();
      await context.sync();
    } catch (error) {
      await putBackOld(old).catch(() => halfDone(error, NOT_PUT_BACK));
      for (const { name } of added) {
        const left = `the sheet "${name}" could not be taken away again: delete it`;
        await removeSheet(name).catch(() => halfDone(error, left));
      }
      throw error;
    }
  });
  return drawn.catch(refused);
}

function namesOf(tables: Excel.TableCollection): Set<string> {
  return new Set(tables.items.map(({ name }) => name.toLowerCase()));
}

interface Before {
  paint: Excel.CellProperties[][];
  formats: Excel.Range["numberFormat"];
  columns: Excel.ColumnProperties[];
  /** Charts and marks that were there already, by their ids. */
  charts: string[];
  marks: string[];
  /** Tables of the sheet, by their ids, and the names of all. */
  tables: string[];
  tableNames: Set<string>;
}

/** Draws with the first cell at the spot. */
export function drawAt(
  spot: Spot,
  drawing: Drawing,
  redrawn: readonly Redrawn[] = [],
): Promise<void> {
  const there = placed(drawing, spot.row, spot.column);
  const drawn = write(async (context) => {
    const sheet = context.workbook.worksheets.getItem(spot.sheet);
    const before = await remembered(context, sheet, there);
    // Other cells stand in these columns too: they may grow, never shrink.
    const widths = there.widths.map((width, i) =>
      Math.max(width, (before.columns[i]?.format?.columnWidth ?? 0) / POINTS),
    );
    const old = await standing(context, redrawn);
    try {
      order(context, sheet, { ...there, widths });
      orderLists(sheet, there, before.tableNames);
      for (const each of old) orderAnew(context, each, before.tableNames);
      await context.sync();
    } catch (error) {
      await putBackOld(old).catch(() => halfDone(error, NOT_PUT_BACK));
      const left = "what was drawn before that could not be taken away again: undo it";
      await putBack(spot.sheet, there, before).catch(() => halfDone(error, left));
      throw error;
    }
  });
  return drawn.catch(refused);
}

/** Draws on sheets over what was drawn there before. */
export async function redraw(redrawn: readonly Redrawn[]): Promise<void> {
  await write(async (context) => {
    const { tables } = context.workbook;
    tables.load("items/name");
    const old = await standing(context, redrawn);
    try {
      for (const each of old) orderAnew(context, each, namesOf(tables));
      await context.sync();
    } catch (error) {
      await putBackOld(old).catch(() => halfDone(error, NOT_PUT_BACK));
      throw error;
    }
  });
}

const NOT_PUT_BACK = "what was drawn on other sheets could not be taken away again: undo it";

class HasRules extends Error {}

async function remembered(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  drawing: PlacedDrawing,
): Promise<Before> {
  const area = rangeOf(sheet, drawing);
  const paint = area.getCellProperties(REMEMBERED);
  const columns = area.getColumnProperties({ format: { columnWidth: true } });
  area.load("numberFormat");
  const { dataValidation, conditionalFormats } = area;
  const { charts, tables } = sheet;
  const allTables = context.workbook.tables;
  dataValidation.load("type");
  conditionalFormats.load("items/id");
  charts.load("items/id");
  tables.load("items/id");
  allTables.load("items/name");
  await context.sync();
  if (drawing.rules.length > 0 && dataValidation.type !== "None") {
    throw new HasRules("the cells there already have a rule on what may be typed");
  }
  return {
    // eslint-disable-next-line office-addins/load-object-before-read -- a ClientResult has no load
    paint: paint.value,
    formats: area.numberFormat,
    // eslint-disable-next-line office-addins/load-object-before-read -- nor has this one
    columns: columns.value,
    charts: charts.items.map(({ id }) => id),
    marks: conditionalFormats.items.map(({ id }) => id),
    tables: tables.items.map(({ id }) => id),
    tableNames: namesOf(allTables),
  };
}

async function removeSheet(name: string) {
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItemOrNullObject(name);
    await context.sync();
    if (!sheet.isNullObject) sheet.delete();
    await context.sync();
  });
}

async function putBack(sheetName: string, drawing: PlacedDrawing, before: Before) {
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem(sheetName);
    const area = rangeOf(sheet, drawing);
    const { charts, tables } = sheet;
    tables.load("items/id");
    await context.sync();
    for (const table of tables.items) if (!before.tables.includes(table.id)) table.convertToRange();
    area.clear("Contents");
    if (drawing.rules.length > 0) area.dataValidation.clear();
    // Clearing takes the fill away; only the cells that had one are given it again.
    area.format.fill.clear();
    area.setCellProperties(before.paint.map((row) => row.map(withoutWhite)));
    area.numberFormat = before.formats;
    area.setColumnProperties(before.columns);
    const marks = area.conditionalFormats;
    marks.load("items/id");
    charts.load("items/id");
    await context.sync();
    for (const chart of charts.items) if (!before.charts.includes(chart.id)) chart.delete();
    for (const mark of marks.items) if (!before.marks.includes(mark.id)) mark.delete();
    await context.sync();
  });
}

/** Excel tells no fill as white, so white is left out. */
function withoutWhite({ format }: Excel.CellProperties): Excel.SettableCellProperties {
  const { fill, ...rest } = format ?? {};
  return { format: fill?.color && fill.color !== "#FFFFFF" ? { fill, ...rest } : rest };
}

/** Neither drawn nor put back: told as it is, and not tried again. */
class HalfDone extends Error {}

function halfDone(error: unknown, left: string): never {
  throw new HalfDone(`Excel refused it halfway (${reasonOf(error)}), and ${left}.`);
}

function refused(error: unknown): never {
  if (error instanceof HalfDone) throw error;
  if (error instanceof HasRules) throw new Error(`Nothing was inserted: ${error.message}.`);
  throw new Error(`Nothing was inserted: Excel refused it (${reasonOf(error)})`);
}
