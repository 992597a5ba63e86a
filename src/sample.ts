/**
 * What was measured a few times over: its mean, its spread, and how far the mean can be trusted.
 */
import type { Cells } from "./cells.ts";
import { studentReach } from "./distributions.ts";
import { positive } from "./errors.ts";
import { sum } from "./lists.ts";
import { filledCells, numberIn } from "./filled.ts";

export interface Sample {
  values: number[];
  mean: number;
  /** Standard deviation with n - 1 in the divisor; zero where all are alike. */
  spread: number;
}

/**
 * The values of one row or column, each above zero; cells in which nothing is typed are passed
 * over.
 */
export function sampleOf(argument: string, range: Cells): Sample {
  const cells = filledCells(argument, range);
  const values = cells.map((cell) => positive(cell.name, numberIn(cell)));
  const mean = sum(values) / values.length;
  const squares = sum(values.map((value) => (value - mean) ** 2));
  const isAlike = values.every((value) => value === values[0]);
  return { values, mean, spread: isAlike ? 0 : Math.sqrt(squares / (values.length - 1)) };
}

/** How many standard deviations off its sample the mean may lie, with this chance to lie lower. */
export function meanReach(chance: number, count: number): number {
  return studentReach(chance, count - 1) / Math.sqrt(count);
}
