/**
 * The steps of a call as they are told to a maker: a sentence with the call's own numbers and their
 * units, how it is worked out beneath, and a table where lists go in or come out.
 */
import { type MathNode, isArrayNode, isConstantNode, isSymbolNode } from "mathjs";
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import type { CatalogEntry, WorkingLine } from "../catalog/entry.ts";
import type { Kind } from "../catalog/kinds.ts";
import type { CellValue } from "../bind/cell.ts";
import { type Labelled, type Measure, cellsIn, measureOf, ofParam, unitShown } from "./measures.ts";
import { inNumbers } from "./numbers.ts";
import { type Digits, shown } from "./shown.ts";
import { type Step, stepsOf } from "./steps.ts";
import { spareLines } from "./spare-lines.ts";
import { type TableTelling, type WorkingTable, tableOf } from "./table.ts";
import { withCurrencies } from "./unit-in.ts";
import { inNames } from "./written.ts";

export interface Told {
  line: WorkingLine;
  /** In full; what is shown of it may be rounded. */
  value: unknown;
  /** "Oil to weigh: 5 % of 60 g is 3 g." */
  sentence: string;
  /** "oil = batch × part", "= 60 g × 5 %", "= 3 g" */
  how: string[];
  table?: WorkingTable | undefined;
}

/** How it is told: to how many digits, and with units that the cells of arguments tell. */
export interface Manner {
  digits: Digits;
  units: ReadonlyMap<string, string>;
}

export interface ToldCall {
  steps: Told[];
  /** What the answer is measured in; of several cells, each. */
  answer: Measure | Labelled[];
}

/** Kinds of which a list has a sum. */
const ADDS_UP: ReadonlySet<Kind> = new Set(["money", "amount", "weight", "volume"]);

/** Most values that are told one after the other. */
const MOST = 8;

export function toldOf(entry: CatalogEntry, args: readonly unknown[], look: Manner): ToldCall {
  const lines = new Map<string, Measure>();
  const seen = new Set<string>();
  const lists = { seen, isSpare: spareLines(entry, args) };
  const units = withCurrencies(look.units, entry, args);
  let answer: ToldCall["answer"] = { kind: "number" };
  const steps = stepsOf(entry, args).map((step) => {
    const measures = measuresOf(entry, step, lines, units);
    const told = tell(entry, step, measures, look.digits, lists);
    lines.set(step.line.name, measures.own);
    answer = measures.cells.length > 0 ? measures.cells : measures.own;
    return told;
  });
  return { steps, answer };
}

interface Measures {
  /** Of the step itself. */
  own: Measure;
  /** Of its cells, where it has several that differ. */
  cells: Labelled[];
  /** Of what stands in its expression. */
  of: (name: string) => Measure;
}

function measuresOf(
  entry: CatalogEntry,
  { line, scope }: Step,
  before: ReadonlyMap<string, Measure>,
  units: Manner["units"],
): Measures {
  const lines = new Map(before);
  const names = { params: entry.params, values: scope, told: units, lines };
  const cells = cellsIn(line.measure).map(({ label, measure }) => ({
    label,
    ...measureOf(measure, names),
  }));
  const of = (name: string): Measure => {
    const param = entry.params.find((each) => each.name === name);
    return lines.get(name) ?? (param ? ofParam(param, names) : { kind: "number" });
  };
  return { own: cells[0] ?? measureOf(line.measure, names), cells, of };
}

function tell(
  entry: CatalogEntry,
  step: Step,
  measures: Measures,
  digits: Digits,
  lists: Pick<TableTelling, "seen" | "isSpare">,
): Told {
  const { line, value, scope } = step;
  const { own, cells, of } = measures;
  const text = (each: unknown, measure: Measure) => inSentence(each, measure, digits);
  // What mathjs gives is a number, a word or a yes.
  const inCell = (each: unknown, measure: Measure) => shown(each as CellValue, measure, digits);
  const table = tableOf(entry, step, {
    shown: (each, name) => inCell(each, name === line.name ? own : of(name)),
    labels: cells.map(({ label }) => label),
    isShare,
    addsUp: ADDS_UP.has(own.kind) && own.per === undefined,
    cellShown: (each, cell) => inCell(each, cells[cell] ?? own),
    ...lists,
  });
  return { line, value, sentence: sentence(), how: how(), table };

  function sentence(): string {
    const what = line.what.replace(/\{(\w+)\}/g, (_, name: string) => text(scope[name], of(name)));
    const opening = what.charAt(0).toUpperCase() + what.slice(1);
    if (typeof value === "number") return `${opening} is ${text(value, own)}.`;
    if (value === "") return `${opening}.`;
    return `${opening.replace(/,$/, "")}${listed()}`;
  }

  /** What stands behind the opening where it is not one number. */
  function listed(): string {
    if (!Array.isArray(value)) return `: ${text(value, own)}.`;
    const values: unknown[] = value;
    if (Array.isArray(values[0])) return ":";
    if (cells.length > 0) {
      const each = values.map((cell, i) => {
        const measure = cells[i] ?? own;
        const label = values.length > 1 && cells[i] ? `${cells[i].label} ` : "";
        return label + text(cell, measure);
      });
      return `: ${each.join(", ")}.`;
    }
    if (!isSymbolNode(step.node)) return ":";
    const few = values.slice(0, MOST).map((each) => text(each, own));
    const more = values.length > MOST ? `, and ${values.length - MOST} more` : "";
    return `: ${few.join(", ")}${more}.`;
  }

  /** How it is worked out, with names and then with numbers; of several cells, each. */
  function how(): string[] {
    const { node } = step;
    if (value === "") return [];
    const isList = Array.isArray(value);
    if (!isArrayNode(node) || !isList)
      return workedOut(line.name, line.how, node, isList ? undefined : text(value, own));
    const values: unknown[] = value;
    return node.items.flatMap((item, i) => {
      if (isSymbolNode(item) || isConstantNode(item)) return [];
      const measure = cells[i] ?? own;
      const name = cells[i]?.label ?? line.name;
      return workedOut(name, inNames(item, isShare), item, text(values[i], measure));
    });
  }

  function workedOut(name: string, names: string, node: MathNode, result?: string): string[] {
    const numbers = inNumbers(node, { scope, measureOf: of, isShare, shown: text });
    const lines = [names, numbers, result].filter((each) => each !== undefined);
    return [...new Set(lines)].map((each, i) => (i === 0 ? `${name} = ${each}` : `= ${each}`));
  }

  function isShare(name: string): boolean {
    return of(name).kind === "share";
  }
}

/** A value in a sentence: units as people write them, and other texts in quotes. */
function inSentence(value: unknown, measure: Measure, digits: Digits): string {
  if (typeof value !== "string") {
    // What mathjs gives is a number, a word or a yes.
    return shown(value as CellValue, measure, digits);
  }
  if (measure.kind === "unit" || UNIT_WORDS.has(unitWord(value))) return unitShown(value) ?? "";
  return measure.kind === "choice" ? value : `"${value}"`;
}
