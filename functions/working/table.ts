/** A table where lists go into a step or come out of it: a line for each of their cells. */
import { isSymbolNode } from "mathjs";
import type { CatalogEntry } from "../catalog/entry.ts";
import type { IsSpare } from "./spare-lines.ts";
import { type Step, math } from "./steps.ts";

export interface WorkingTable {
  heads: string[];
  lines: string[][];
  /** What is added up, all lines together. */
  foot?: string[];
  /** Lines that are not shown. */
  more: number;
}

/** A column: its values, as text each. */
interface WorkingColumn {
  head: string;
  values: unknown[];
  shown: (value: unknown) => string;
  isAddedUp: boolean;
}

/** Most lines that are shown. */
const MOST = 12;

/** How a list is shown: of a name, and of one of several cells of the step. */
export interface TableTelling {
  shown: (value: unknown, name: string) => string;
  labels: readonly string[];
  cellShown: (value: unknown, cell: number) => string;
  isShare: (name: string) => boolean;
  /** What the step gives makes sense as a sum. */
  addsUp: boolean;
  /** Lists that a table has shown already, by name. */
  seen: Set<string>;
  /** Lines that are left out. */
  isSpare: IsSpare;
}

/** The table of a step, undefined where it needs none. */
export function tableOf(
  entry: CatalogEntry,
  step: Step,
  looks: TableTelling,
): WorkingTable | undefined {
  const { value, line, node, scope } = step;
  if (isSymbolNode(node) || typeof value === "string") return undefined;
  const used = namesIn(step).filter((name) => Array.isArray(scope[name]));
  const result = resultColumns(entry, step, looks);
  if (result.length === 0 && used.every((name) => looks.seen.has(name))) return undefined;
  for (const name of used) looks.seen.add(name);
  if (Array.isArray(value)) looks.seen.add(line.name);
  // Of several cells a line: what goes into them was shown before.
  if (looks.labels.length > 0 && result.length > 0) return laidOut(result, looks.isSpare);
  const isByColumns = used.some((name) => isGrid(scope[name]) && !looks.isShare(name));
  // What is used is a list: only those are taken above.
  const goesIn = used
    // Weights stand beside the columns of a grid, not beside its lines.
    .filter((name) => !isByColumns || isGrid(scope[name]) || !isArgument(entry, name))
    .flatMap((name) => columnsOf(entry, name, scope[name] as unknown[], looks));
  const length = (result[0] ?? goesIn[0])?.values.length;
  return laidOut(
    [...goesIn, ...result].filter(({ values }) => values.length === length),
    looks.isSpare,
  );
}

function columnsOf(
  { working }: CatalogEntry,
  name: string,
  list: unknown[],
  { shown, isShare }: TableTelling,
): WorkingColumn[] {
  const isSummed = working.some(({ expression }) => expression.includes(`sum(${name})`));
  return split(list).map((values, i, all) => ({
    head: headOf(name, i, all.length, isShare(name)),
    values,
    shown: (each) => shown(each, name),
    isAddedUp: isSummed && all.length === 1,
  }));
}

/** What the step gives; nothing where it is told without a table. */
function resultColumns(
  entry: CatalogEntry,
  { value, line, scope }: Step,
  looks: TableTelling,
): WorkingColumn[] {
  const { labels, cellShown } = looks;
  if (!Array.isArray(value)) return [];
  if (labels.length === 0)
    return columnsOf(entry, line.name, value, looks).map((column) => ({
      ...column,
      isAddedUp: column.isAddedUp || looks.addsUp,
    }));
  if (!Array.isArray(value[0])) return [];
  const isAcross = labels.length === 2 && scope.isrow === true;
  // Its first is a list, and mathjs has no ragged grids.
  return (isAcross ? (value as unknown[][]) : split(value)).map((values, i) => ({
    head: labels.length > 1 ? (labels[i] ?? "") : `${labels[0]} ${i + 1}`,
    values,
    shown: (each) => cellShown(each, Math.min(i, labels.length - 1)),
    isAddedUp: false,
  }));
}

function headOf(name: string, place: number, count: number, isShare: boolean): string {
  if (count === 1) return name;
  const ends = isShare && count === 2 ? ["low", "high"] : [];
  return `${name} ${ends[place] ?? place + 1}`;
}

function isGrid(value: unknown): boolean {
  return Array.isArray(value) && Array.isArray(value[0]);
}

function isArgument({ params }: CatalogEntry, wanted: string): boolean {
  return params.some(({ name }) => name === wanted);
}

/** A list as its one column, a table as all of its. */
function split(list: unknown[]): unknown[][] {
  if (!Array.isArray(list[0])) return [list];
  // Its first is a list, and mathjs has no ragged grids.
  const rows = list as unknown[][];
  return list[0].map((_, i) => rows.map((row) => row[i]));
}

function laidOut(columns: WorkingColumn[], isSpare: IsSpare): WorkingTable | undefined {
  const count = columns[0]?.values.length ?? 0;
  const filled = Array.from({ length: count }, (_, i) => i).filter((i) => !isSpare(i, count));
  if (filled.length === 0) return undefined;
  const lines = filled
    .slice(0, MOST)
    .map((i) => [String(i + 1), ...columns.map(({ values, shown }) => shown(values[i]))]);
  const table = {
    heads: ["", ...columns.map(({ head }) => head)],
    lines,
    more: filled.length - lines.length,
  };
  if (!columns.some(({ isAddedUp }) => isAddedUp)) return table;
  // Only columns of numbers are added up.
  const sums = columns.map(({ values, shown, isAddedUp }) =>
    isAddedUp ? shown(math.sum(values as number[])) : "",
  );
  return { ...table, foot: ["all", ...sums] };
}

/** The names that stand in an expression, each once, in their order. */
function namesIn({ node }: Step): string[] {
  const names = new Set<string>();
  node.traverse((part, path) => {
    if (isSymbolNode(part) && path !== "fn") names.add(part.name);
  });
  return [...names];
}
