/** The one table of the benchmark, row by row as the cases end. */

export interface Row {
  what: string;
  ours: number;
  beside: string;
  theirs: number;
  ratio: number;
  /** The same ratio by the clock. */
  clock: number;
  goal: number;
  runs: number;
}

const WORDS = new Map([
  [0, 45],
  [2, 22],
]);
const NUMBER = 8;

export const heading = () =>
  line(["what", "ours", "beside", "theirs", "ratio", "clock", "goal", "runs"]);

export function told({ what, ours, beside, theirs, ratio, clock, goal, runs }: Row): string {
  const numbers = [theirs, ratio, clock, goal].map(short);
  return (
    line([what, short(ours), beside, ...numbers, String(runs)]) + (ratio > goal ? "  MISSED" : "")
  );
}

const short = (value: number) => String(Number(value.toPrecision(3)));

/** Words stand to the left, numbers to the right. */
function line(cells: readonly string[]): string {
  return cells.map((cell, i) => cell.padEnd(WORDS.get(i) ?? 0).padStart(NUMBER)).join(" ");
}
