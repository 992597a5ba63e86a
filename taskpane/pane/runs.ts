/** Runs: a bench sheet made, what was weighed booked, and a run taken back. */
import type { CellValue, Workbook } from "../host/workbook.ts";
import { serialOf } from "../sheets/days.ts";
import { completed, toldOf } from "../sheets/complete.ts";
import { type Drawing, drawingOf } from "../sheets/drawing.ts";
import { findAll, findSheets } from "../sheets/find.ts";
import { Refused } from "../sheets/insert.ts";
import { placesOf } from "../sheets/lay.ts";
import type { Other } from "../sheets/names.ts";
import { template as batchBook } from "../templates/batch-book.ts";
import { template as benchSheet } from "../templates/bench-sheet.ts";
import { templates } from "../templates/index.ts";
import { template as weighed } from "../templates/weighed.ts";
import { chosenOn } from "./run-choice.ts";
import { formOf, linesFor, missingIn } from "./run-form.ts";
import { isBlank, linesAdded, linesEmptied, textOf, valuesAt } from "./sheet-lists.ts";

/** What a new bench sheet has from the one before it. */
const KEPT = ["who", "unit", "step", "tolerance", "vessel", "extra"];

/** Adds a bench sheet for the next batch, with what is chosen on Size run. */
export async function makeRun(workbook: Workbook, today: Date): Promise<string> {
  const others = await findSheets(workbook, templates);
  const bench = await findAll(workbook, benchSheet);
  const typed = await chosenOn(workbook);
  const last = bench.at(-1);
  // A bench sheet that was never filled says nothing of the scale: Size run does.
  if (last && !isBlank((await valuesAt(workbook, last, "unit"))[0]))
    for (const name of KEPT) typed.set(name, await valuesAt(workbook, last, name));
  const number = nextNumber(await numbersIn(workbook, bench, others.get(batchBook.title)));
  typed.set("number", [number]);
  typed.set("date", [serialToday(today)]);
  const sources = await completed(workbook, [benchSheet], others, templates);
  const drawing = drawingOf(benchSheet, false, sources.of(benchSheet));
  const name = await workbook.drawOnNewSheet(
    benchSheet.title,
    withTyped(drawing, typed),
    sources.redrawn,
  );
  const todo = isBlank(typed.get("recipe")?.[0])
    ? "pick the recipe and the bottles, then print it"
    : "print it";
  return `The bench sheet of batch ${number} is "${name}": ${todo}, weigh, type the readings, then book the run.${leftOut(typed)}${toldOf(sources, [benchSheet])}`;
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

/** A drawing of the bench sheet with some of its cells typed. */
function withTyped(drawing: Drawing, typed: ReadonlyMap<string, CellValue[]>): Drawing {
  const contents = new Map<string, string | number>();
  const places = placesOf(benchSheet.parts);
  for (const [name, values] of typed) {
    const place = places.get(name);
    values.forEach((value, i) => {
      const isTaken = typeof value === "number" || (typeof value === "string" && value !== "");
      if (place && i < place.columns && isTaken)
        contents.set(`${place.row},${place.column + i}`, value);
    });
  }
  return {
    ...drawing,
    cells: drawing.cells.map((cell) => {
      const content = contents.get(`${cell.row},${cell.column}`);
      return content === undefined ? cell : { ...cell, content };
    }),
  };
}

/** Writes the run of the bench sheet that is shown into the Batch book and onto Weighed, in one step. */
export async function bookRun(workbook: Workbook): Promise<string> {
  const { sheet } = await workbook.selection();
  const bench = (await findAll(workbook, benchSheet)).find((each) => each.sheet === sheet);
  if (!bench) throw new Refused("Nothing was booked: show the bench sheet of the run first.");
  const others = await findSheets(workbook, templates);
  const { book, lines } = listsIn(others, "Nothing was booked");
  const form = await formOf(workbook, bench);
  const missing = missingIn(form);
  const known = (await valuesAt(workbook, book, "batches.number")).map(textOf);
  if (form.number && known.includes(textOf(form.number)))
    missing.push(`batch ${form.number} is in the Batch book already`);
  if (missing.length > 0) throw new Refused(`Nothing was booked: ${missing.join("; ")}.`);
  const { batch, taken, without } = await linesFor(workbook, form, others);
  await workbook.write([
    ...(await linesAdded(workbook, book, batchBook, "batches", [batch])),
    ...(await linesAdded(workbook, lines, weighed, "weighed", taken)),
  ]);
  return `Batch ${form.number} is in the Batch book, with ${taken.length} lines on Weighed; what is counted on hand has fallen by them.${without}`;
}

/** Empties the lines of a batch in both lists, in one step, so that its stock is on hand again. */
export async function takeBack(workbook: Workbook, batch: string): Promise<string> {
  const wanted = batch.trim();
  if (wanted === "") throw new Refused("Nothing was taken back: type the number of the batch.");
  const others = await findSheets(workbook, [batchBook, weighed]);
  const { book, lines } = listsIn(others, "Nothing was taken back");
  const inBook = await linesOf(workbook, book, "batches.number", wanted);
  const onWeighed = await linesOf(workbook, lines, "weighed.batch", wanted);
  if (inBook.length + onWeighed.length === 0)
    throw new Refused(`Nothing was taken back: there is no batch ${wanted} in the Batch book.`);
  await workbook.write([
    ...linesEmptied(book, batchBook, "batches", inBook),
    ...linesEmptied(lines, weighed, "weighed", onWeighed),
  ]);
  return `Batch ${wanted} was taken back: its line in the Batch book and ${onWeighed.length} lines on Weighed are empty, and what it took is on hand again.`;
}

async function linesOf(workbook: Workbook, on: Other, name: string, wanted: string) {
  const values = await valuesAt(workbook, on, name);
  return values.flatMap((value, line) => (textOf(value) === wanted ? [line] : []));
}

function listsIn(others: ReadonlyMap<string, Other>, refused: string) {
  const book = others.get(batchBook.title);
  const lines = others.get(weighed.title);
  if (book && lines) return { book, lines };
  throw new Refused(`${refused}: it takes the sheets Batch book and Weighed. Insert them first.`);
}
