/** A run is made: a bench sheet for the next batch, with what is chosen on Size run. */
import type { CellValue, Workbook } from "../host/workbook.ts";
import { serialOf } from "../sheets/days.ts";
import { completed, toldOf } from "../sheets/complete.ts";
import { drawingOf } from "../sheets/drawing.ts";
import { findAll, findSheets } from "../sheets/find.ts";
import { placesOf } from "../sheets/lay.ts";
import type { Other, Others, Places } from "../sheets/names.ts";
import { template as batchBook } from "../templates/batch-book.ts";
import { template as benchSheet } from "../templates/bench-sheet.ts";
import { templates } from "../templates/index.ts";
import { chosenOn } from "./run-choice.ts";
import { isBlank, textOf, valuesAt } from "./sheet-lists.ts";

type Typed = Map<string, CellValue[]>;

/** What a new bench sheet has from the one before it. */
const KEPT = ["who", "unit", "step", "tolerance", "vessel", "extra"];

/** Where something is typed, a bench sheet is a run's; the scale and who weighs say nothing of a run. */
const OF_A_RUN = [
  "recipe",
  "number",
  "own",
  "sizes.size",
  "sizes.count",
  "sizes.filled",
  "pours.reading",
];

export async function makeRun(workbook: Workbook, today: Date): Promise<string> {
  const others = await findSheets(workbook, templates);
  const bench = await findAll(workbook, benchSheet);
  const unused = await unusedOf(workbook, bench);
  const typed = await chosenOn(workbook);
  const last = bench.filter((each) => each !== unused).at(-1);
  // A bench sheet that was never filled says nothing of the scale: Size run does.
  if (last && !isBlank((await valuesAt(workbook, last, "unit"))[0]))
    for (const name of KEPT) typed.set(name, await valuesAt(workbook, last, name));
  const number = nextNumber(await numbersIn(workbook, bench, others.get(batchBook.title)));
  typed.set("number", [number]);
  typed.set("date", [serialToday(today)]);
  const { name, told } = unused
    ? await onUnused(workbook, unused, typed)
    : await onNewSheet(workbook, others, typed);
  const todo = isBlank(typed.get("recipe")?.[0])
    ? "pick the recipe and the bottles, then print it"
    : "print it";
  return `The bench sheet of batch ${number} is "${name}": ${todo}, weigh, type the readings, then book the run.${leftOut(typed)}${told}`;
}

/** The first bench sheet on which nothing of a run stands, as one comes with the set. */
async function unusedOf(workbook: Workbook, bench: readonly Other[]): Promise<Other | undefined> {
  for (const each of bench) {
    const held: CellValue[] = [];
    for (const name of OF_A_RUN) held.push(...(await valuesAt(workbook, each, name)));
    if (held.every(isBlank)) return each;
  }
  return undefined;
}

/** Types into the cells of a bench sheet in which nothing stands, in one step, and shows it. */
async function onUnused(workbook: Workbook, { sheet, places }: Other, typed: Typed) {
  const cells = cellsOf(typed, places);
  const rows = Math.max(...cells.map(({ row }) => row + 1));
  const columns = Math.max(...cells.map(({ column }) => column + 1));
  const there = await workbook.read({ sheet, row: 0, column: 0 }, rows, columns);
  const empty = cells.filter(({ row, column }) => isBlank(there[row]?.[column]));
  await workbook.write(empty.map(({ content, ...at }) => ({ spot: { sheet, ...at }, content })));
  await workbook.show(sheet);
  return { name: sheet, told: "" };
}

async function onNewSheet(workbook: Workbook, others: Others, typed: Typed) {
  const sources = await completed(workbook, [benchSheet], others, templates);
  const drawing = drawingOf(benchSheet, false, sources.of(benchSheet));
  const contents = cellsOf(typed, placesOf(benchSheet.parts));
  const cells = drawing.cells.map((cell) => {
    const own = contents.find(({ row, column }) => row === cell.row && column === cell.column);
    return { ...cell, ...own };
  });
  const drawn = { ...drawing, cells };
  const name = await workbook.drawOnNewSheet(benchSheet.title, drawn, sources.redrawn);
  return { name, told: toldOf(sources, [benchSheet]) };
}

/** Where on a bench sheet what is typed for a run goes; what is blank, or has no room, is left out. */
function cellsOf(typed: Typed, places: Places) {
  return [...typed].flatMap(([name, values]) => {
    const place = places.get(name);
    if (!place) return [];
    const { row, column, columns } = place;
    return values.slice(0, columns).flatMap((content, i) => {
      const isTaken =
        typeof content === "number" || (typeof content === "string" && content !== "");
      return isTaken ? [{ row, column: column + i, content }] : [];
    });
  });
}

/** Sizes that the bench sheet has no column for, in words. */
function leftOut(typed: ReadonlyMap<string, CellValue[]>): string {
  const room = placesOf(benchSheet.parts).get("sizes.size")?.columns;
  const left = (typed.get("sizes.size") ?? []).slice(room).map(textOf);
  return left.length === 0
    ? ""
    : ` It has room for ${room} sizes; left for another run: ${left.join(", ")}.`;
}

/** The batches of the book, then those of bench sheets. */
async function numbersIn(workbook: Workbook, bench: readonly Other[], book: Other | undefined) {
  const numbers = book ? await valuesAt(workbook, book, "batches.number") : [];
  for (const each of bench) numbers.push(...(await valuesAt(workbook, each, "number")));
  return numbers.map(textOf).filter((text) => text !== "");
}

/** The number after the highest of those that are written like the last one. */
export function nextNumber(numbers: readonly string[]): string {
  const [, head = "", digits = ""] = /^(.*?)(\d+)$/.exec(numbers.at(-1) ?? "B-000") ?? [];
  const alike = numbers.flatMap((text) => {
    const end = text.slice(head.length);
    return text.startsWith(head) && /^\d+$/.test(end) ? [Number(end)] : [];
  });
  const highest = Math.max(0, ...alike);
  return head + String(highest + 1).padStart(digits.length, "0");
}

/** The day that it is here. */
function serialToday(today: Date): number {
  return serialOf(Date.UTC(today.getFullYear(), today.getMonth(), today.getDate()));
}
