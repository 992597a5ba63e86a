/** Runs: what was weighed is booked, and a run is taken back. */
import type { Workbook } from "../host/workbook.ts";
import { findAll, findSheets } from "../sheets/find.ts";
import { Refused } from "../sheets/insert.ts";
import type { Other } from "../sheets/names.ts";
import { template as batchBook } from "../templates/batch-book.ts";
import { template as benchSheet } from "../templates/bench-sheet.ts";
import { templates } from "../templates/index.ts";
import { template as weighed } from "../templates/weighed.ts";
import { formOf, linesFor, lotsKept, missingIn } from "./run-form.ts";
import { lotsTold, stockTold } from "./stock-told.ts";
import { inAnyCapitals, linesAdded, linesEmptied, textOf, valuesAt } from "./sheet-lists.ts";

/** Writes the run of the bench sheet that is shown into the Batch book and onto Weighed, in one step. */
export async function bookRun(workbook: Workbook): Promise<string> {
  const { sheet } = await workbook.selection();
  const bench = (await findAll(workbook, benchSheet)).find((each) => each.sheet === sheet);
  if (!bench) throw new Refused("Nothing was booked: show the bench sheet of the run first.");
  const others = await findSheets(workbook, templates);
  const { book, lines } = listsIn(others, "Nothing was booked");
  const form = await formOf(workbook, bench);
  const missing = missingIn(form);
  if (
    form.number &&
    (await linesOf(workbook, book, "batches.number", textOf(form.number))).length > 0
  )
    missing.push(`batch ${form.number} is in the Batch book already`);
  if (missing.length > 0)
    throw new Refused(`Nothing was booked: ${missing.join("; ")}.`.replace(/\?\.$/, "?"));
  const { batch, poured, pieces, without } = await linesFor(workbook, form, others);
  const all = [...poured, ...pieces];
  const stock = await stockTold(workbook, others.get("Materials"), all, Number(form.date));
  const taken = all.map(({ material, lot, grams }) => {
    return { batch: form.number, material, lot: lot || null, grams };
  });
  await workbook.write([
    ...(await linesAdded(workbook, book, batchBook, "batches", [batch])),
    ...(await linesAdded(workbook, lines, weighed, "weighed", taken)),
    ...(await lotsKept(workbook, bench)),
  ]);
  const fallen = stock.hasFallen ? "; what is counted on hand has fallen by them" : "";
  return `Batch ${form.number} is in the Batch book, with ${taken.length} lines on Weighed${fallen}.${without}${lotsTold(poured)}${stock.told}`;
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
  return values.flatMap((value, line) =>
    inAnyCapitals(textOf(value)) === inAnyCapitals(wanted) ? [line] : [],
  );
}

function listsIn(others: ReadonlyMap<string, Other>, refused: string) {
  const book = others.get(batchBook.title);
  const lines = others.get(weighed.title);
  if (book && lines) return { book, lines };
  throw new Refused(`${refused}: it takes the sheets Batch book and Weighed. Insert them first.`);
}
