/** A function tried on a person's own cells, before anything is written: its answers, and what its lines lack. */
import { refuseTwoCurrencies } from "../../src/written-money.ts";
import type { CatalogEntry } from "../../functions/catalog/entry.ts";
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import {
  type CellValue,
  type Fault,
  type Grid,
  isBlank,
  isFault,
} from "../../functions/bind/cell.ts";
import { worksheetFunction } from "../../functions/bind/register.ts";
import { constantsOf } from "../../functions/formula/tree.ts";
import { readFormula } from "../../functions/formula/reader.ts";
import { shown } from "../../functions/working/shown.ts";
import { type Told, toldOf } from "../../functions/working/told.ts";
import { markIn, unitIn } from "../../functions/working/unit-in.ts";
import type { Spot, Workbook } from "../host/workbook.ts";
import { type PickedCells, NotTaken, givenIn } from "./given.ts";
import type { FoundList } from "./list.ts";

/** Lines that have the same to say. */
export interface Gap {
  says: string;
  /** Rows of the sheet, as it numbers them. */
  rows: number[];
}

export interface Trial {
  entry: CatalogEntry;
  /** One for each line; a single one where nothing goes by lines. */
  answers: Grid[];
  /** The row of each line, as the sheet numbers it; empty where nothing goes by lines. */
  rows: number[];
  answered: number;
  gaps: Gap[];
  /** The currency that prices which are texts name. */
  mark: string | undefined;
  /** How an answer comes about, of a line counted from zero. */
  steps: (line: number) => Told[];
  /** A cell of an answer as it is shown. */
  shown: (cell: CellValue) => string;
  /** The formula of a line, and the one for all of them. */
  formula: (line: number) => string;
  spilled: string;
}

/** Tries it; a text says what is still needed. */
export async function tryOut(
  workbook: Workbook,
  entry: CatalogEntry,
  fields: ReadonlyMap<string, string>,
  at: Spot,
  list: FoundList | null,
): Promise<Trial | string> {
  const givens = entry.params.map((param) =>
    givenIn(fields.get(param.name) ?? "", param, at.sheet, list),
  );
  const lacking = entry.params.filter(({ optional }, i) => !optional && !givens[i]);
  if (lacking.length > 0) return `Still needed: ${lacking.map(({ name }) => name).join(", ")}.`;
  const grids = await valuesOf(workbook, at, givens);
  const prices = grids.filter((_, i) => entry.params[i]?.kind === "money");
  refuseTwoCurrencies(prices);
  const byLines = entry.params.map((param, i) => withLines(givens[i], param.range, grids[i]));
  const { count, rows } = linesOf(entry, byLines);
  const run = worksheetFunction(entry);
  const argsOf = (line: number) =>
    grids.map((grid, i) => (byLines[i]?.lines ? [[grid[line]?.[0] ?? null]] : grid));
  const answers = Array.from({ length: count }, (_, line) => run(...argsOf(line)));
  const units = unitsOf(entry, givens);
  const mark = markIn(prices.flat());
  const { kind } = entry.returns;
  const measure = { kind, ...(kind === "money" && { unit: mark }) };
  const call = (text: (given: PickedCells) => string) => {
    const args = byLines.map((given) => (given ? text(given) : ""));
    while (args.at(-1) === "") args.pop();
    return `=${NAMESPACE}.${entry.id}(${args.join(",")})`;
  };
  return {
    entry,
    answers,
    rows,
    answered: answers.filter((answer) => saidOf(answer) === null).length,
    gaps: gapsIn(answers, rows),
    mark,
    steps: (line) => toldOf(entry, argsOf(line), { digits: "six", units }).steps,
    shown: (cell) => shown(cell, measure),
    formula: (line) => call((given) => given.inLine(line)),
    spilled: call(({ whole }) => whole),
  };
}

/** Units that headings tell, by the argument's name. */
function unitsOf({ params }: CatalogEntry, givens: readonly (PickedCells | null)[]) {
  return new Map(
    params.flatMap(({ name, kind }, i): [string, string][] => {
      const unit = unitIn(kind, [givens[i]?.heading ?? ""], "");
      return unit === undefined ? [] : [[name, unit]];
    }),
  );
}

async function valuesOf(
  workbook: Workbook,
  at: Spot,
  givens: readonly (PickedCells | null)[],
): Promise<Grid[]> {
  const known = givens.map((given) => (given ? constantsOf(readFormula(given.whole)) : [[null]]));
  const asked = givens.flatMap((given, i) => (given && !known[i] ? [given.whole] : []));
  const values = await workbook.values(at, asked);
  return known.map((grid, i) => {
    const found: Grid | null | undefined = grid ?? values.shift();
    if (found) return found;
    const told = givens[i]?.whole ?? "A field";
    throw new NotTaken(`${told} cannot be read here: pick cells, or type a value`);
  });
}

/** A name or an expression that stands for a column goes by its lines, too. */
function withLines(
  given: PickedCells | null | undefined,
  isRange: boolean,
  grid?: Grid,
): PickedCells | null {
  if (!given || given.lines || isRange || !grid || grid.length < 2) return given ?? null;
  const { whole } = given;
  return {
    whole,
    lines: { count: grid.length, row: -1 },
    inLine: (line) => `INDEX(${whole},${line + 1})`,
  };
}

function linesOf({ params }: CatalogEntry, givens: readonly (PickedCells | null)[]) {
  const columns = givens.flatMap((given, i) => {
    return given?.lines ? [{ name: params[i]?.name ?? "", ...given.lines }] : [];
  });
  const [first] = columns;
  if (!first) return { count: 1, rows: [] };
  const unlike = columns.find(({ count }) => count !== first.count);
  if (unlike)
    throw new NotTaken(
      `${first.name} has ${first.count} lines and ${unlike.name} ${unlike.count}: pick as many of each`,
    );
  const row = columns.find((column) => column.row >= 0)?.row ?? 0;
  return { count: first.count, rows: Array.from({ length: first.count }, (_, i) => row + i + 1) };
}

/** What a line says instead of a number; null where it has an answer. */
function saidOf(answer: Grid): string | null {
  const cells = answer.flat();
  const fault = cells.find(isFault);
  if (fault) return wordsOf(fault);
  return cells.every(isBlank) ? "nothing is filled in" : null;
}

function wordsOf({ fault, text }: Fault): string {
  return text ?? `an input is the error ${fault}`;
}

/** Where what came in differs from line to line, the lines are told together without it. */
const CAME = /, got .*$/;

function gapsIn(answers: readonly Grid[], rows: readonly number[]): Gap[] {
  const gaps = new Map<string, Gap>();
  for (const [i, answer] of answers.entries()) {
    const says = saidOf(answer);
    if (says === null) continue;
    const gap = gaps.get(says.replace(CAME, "")) ?? { says, rows: [] };
    gaps.set(says.replace(CAME, ""), gap);
    if (gap.says !== says) gap.says = says.replace(CAME, "");
    gap.rows.push(...rows.slice(i, i + 1));
  }
  return [...gaps.values()].sort((a, b) => b.rows.length - a.rows.length);
}
