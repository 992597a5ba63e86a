/** What people thought of samples, as places within each person's own row. */
import { BlankError, CalcError, choice, isBlankNumber, number } from "../errors.ts";
import { at, sum } from "../lists.ts";

export interface Ranked {
  places: number[];
  /** The sum of t^3 - t over groups of t ties. */
  ties: number;
}

/** What to leave out where a score is blank. */
export type LeftOut = "nothing" | "sample" | "person";

/** Places in each row. Rows with nothing in them are passed over; a blank in another is unknown. */
export function rankedRows(ranks: number[][], without: LeftOut = "nothing"): Ranked[] {
  const rows = scored(ranks, choice("without", without, ["nothing", "sample", "person"]));
  const samples = rows[0]?.length ?? 0;
  if (rows.length < 2 || samples < 2) {
    throw new CalcError(
      `ranks must be two people by two samples or more, got ${rows.length} x ${samples}`,
    );
  }
  return rows.map(midRanks);
}

function scored(ranks: number[][], without: LeftOut): number[][] {
  const people = ranks.flatMap((row, i) => (row.every(isBlankNumber) ? [] : [{ row, i }]));
  for (const { row, i } of people) {
    row.forEach((value, j) => {
      const name = `ranks, row ${i + 1}, column ${j + 1},`;
      if (!isBlankNumber(value)) number(name, value);
      else if (without === "nothing") {
        throw new BlankError(name, 'blank: score it, or leave out that "sample" or "person"');
      }
    });
  }
  const rows = people.map(({ row }) => row);
  if (without === "person") return rows.filter((row) => !row.some(isBlankNumber));
  const isWhole = rows[0]?.map((_, j) => rows.every((row) => !isBlankNumber(at(row, j)))) ?? [];
  return rows.map((row) => row.filter((_, j) => at(isWhole, j)));
}

/** Places within a row, ties at their mean. */
export function midRanks(row: readonly number[]): Ranked {
  const order = row.map((_, i) => i).sort((a, b) => at(row, a) - at(row, b));
  const places: number[] = [];
  let ties = 0;
  for (let from = 0; from < order.length;) {
    let end = from + 1;
    while (end < order.length && row[at(order, end)] === row[at(order, from)]) end++;
    for (const i of order.slice(from, end)) places[i] = (from + 1 + end) / 2;
    ties += (end - from) ** 3 - (end - from);
    from = end;
  }
  return { places, ties };
}

/** The sum of the places of each sample. */
export function rankTotals(ranked: readonly Ranked[]): number[] {
  return at(ranked, 0).places.map((_, j) => sum(ranked.map(({ places }) => at(places, j))));
}
