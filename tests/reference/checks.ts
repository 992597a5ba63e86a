/** Published values: the rows of checks.csv, each with its source and how far it was verified. */
import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";

export interface Row {
  id: string;
  topic: string;
  inputs: string;
  expected: string;
  unit: string;
  tolerance: string;
  source: string;
  verified: string;
}

const ROWS: Row[] = parse(readFileSync(new URL("checks.csv", import.meta.url)), { columns: true });

export interface Published {
  expected: number;
  /** Largest difference that the row allows. */
  within: number;
  /** For the test's name: what is asked, and who published the answer. */
  title: string;
}

/** The ids and inputs of every row of a topic. */
export function rowsOf(topic: string): Row[] {
  return ROWS.filter((row) => row.topic === topic);
}

/** A row by its id, with its tolerance as a number. */
export function published(id: string): Published {
  const row = ROWS.find((candidate) => candidate.id === id);
  if (!row) throw new Error(`no row ${id} in checks.csv`);
  const expected = Number(row.expected);
  if (Number.isNaN(expected)) throw new Error(`row ${id} is not one number: ${row.expected}`);
  const title = `${id}: ${row.inputs} is ${row.expected} ${row.unit} (${row.source}; ${row.verified})`;
  return { expected, within: toleranceOf(row, expected), title };
}

function toleranceOf({ id, expected, tolerance }: Row, value: number): number {
  const relative = /^rel ([\d.e-]+)/.exec(tolerance);
  if (relative) return Number(relative[1]) * Math.abs(value);
  if (tolerance.includes("relative")) return Number.parseFloat(tolerance) * value;
  if (tolerance.startsWith("half a unit")) return halfLastDigit(expected);
  if (tolerance === "use exact") return halfLastDigit(expected);
  if (/^exact/.test(tolerance)) return 1e-12 * value;
  const first = Number.parseFloat(tolerance);
  if (Number.isNaN(first)) throw new Error(`row ${id} has no tolerance to hold to: ${tolerance}`);
  return first;
}

function halfLastDigit(printed: string): number {
  return 0.5 * 10 ** -(printed.split(".")[1]?.length ?? 0) * (1 + 1e-9);
}
