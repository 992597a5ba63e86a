/** What went into a call: each argument with its value, its unit, and where it comes from. */
import { at } from "../../src/lists.ts";
import { type CatalogEntry, NAMESPACE, type Param } from "../../functions/catalog/entry.ts";
import type { Line } from "../../functions/bind/arguments.ts";
import {
  type CellValue,
  type Grid,
  isBlank,
  isFault,
  onlyCell,
} from "../../functions/bind/cell.ts";
import { type Measure, ofParam } from "../../functions/working/measures.ts";
import { type Digits, shown } from "../../functions/working/shown.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { edgesOf, isWhole, rangeIn } from "../../functions/formula/references.ts";
import { ourFunction } from "../../functions/formula/ours.ts";
import { type ArgumentNode, type Node, calleeOf } from "../../functions/formula/tree.ts";
import { typedFormula } from "../../functions/formula/writer.ts";
import type { Spot, Workbook } from "../host/workbook.ts";
import { unitIn } from "../../functions/working/unit-in.ts";
import { type Labels, labelsOf } from "./labels.ts";
import type { CellReader } from "./named-cells.ts";
import { cellNoun, inARow, referencesIn } from "./nouns.ts";

export interface ShownInput {
  name: string;
  /** What the argument is, as its documentation says. */
  text: string;
  /** The value with its unit. */
  value: string;
  /** Where it comes from, in words. */
  from: string;
  /** Where to go to mend it: a cell, or another call. */
  place: string | undefined;
  fault: string | undefined;
  /** What the error says of itself. */
  says: string | undefined;
}

/** Most values of a range that are shown. */
const MOST = 8;

/** The inputs of a call. */
export interface Inputs {
  /** Those of a line, by what its cells hold. */
  shown: (line: Line, held: Grid[], digits: Digits) => ShownInput[];
  /** Units and currencies that cells and labels tell, by the argument's name. */
  units: ReadonlyMap<string, string>;
}

export async function inputsOf(
  workbook: Workbook,
  spot: Spot,
  entry: CatalogEntry,
  nodes: ArgumentNode[],
  reader: CellReader,
): Promise<Inputs> {
  const asked: { param: Param; source: Source }[] = [];
  // In turn: a workbook that is asked all at once may mix its answers up.
  for (const [i, param] of entry.params.entries())
    asked.push({ param, source: await sourceOf(workbook, spot, nodes[i] ?? null, reader) });
  const units = new Map(
    asked.flatMap(({ param, source: { labels = [], format = "" } }): [string, string][] => {
      const unit = unitIn(param.kind, labels, format);
      return unit === undefined ? [] : [[param.name, unit]];
    }),
  );
  const shownOf = (line: Line, held: Grid[], digits: Digits) => {
    const values = Object.fromEntries(
      entry.params.map(({ name }, i) => [name, onlyCell(at(held, i))]),
    );
    const names = { params: entry.params, values, told: units, lines: new Map() };
    return asked.map(({ param, source }, i) => {
      const cells = at(held, i);
      const isDefault = cells.flat().every(isBlank) && param.default !== undefined;
      const from = source.words(param.range ? null : line);
      return {
        name: param.name,
        text: param.text,
        value: valuesShown(
          isDefault ? [param.default ?? null] : cells.flat(),
          ofParam(param, names),
          digits,
        ),
        from: isDefault ? `${from}: the default` : from,
        place: source.place?.(param.range ? null : line),
        fault: faultIn(cells, source.cellAt),
        says: cells.flat().find(isFault)?.text,
      };
    });
  };
  return { shown: shownOf, units };
}

function valuesShown(cells: CellValue[], measure: Measure, digits: Digits): string {
  if (cells.every(isBlank)) return "blank";
  const few = cells.slice(0, MOST).map((cell) => shown(cell, measure, digits));
  const more = cells.length > MOST ? `, and ${cells.length - MOST} more` : "";
  return few.join(", ") + more;
}

/** The first error among the cells of a range, and where it stands. */
function faultIn(
  cells: Grid,
  cellAt?: (row: number, column: number) => string,
): string | undefined {
  for (const [i, row] of cells.entries()) {
    for (const [j, cell] of row.entries()) {
      if (!isFault(cell)) continue;
      const where = cellAt && cells.flat().length > 1 ? ` in ${cellAt(i, j)}` : "";
      return cell.fault + where;
    }
  }
  return undefined;
}

interface Source {
  words(line: Line | null): string;
  place?: (line: Line | null) => string;
  cellAt?: (row: number, column: number) => string;
  /** The labels beside and above its first cell, and how a number in that is shown. */
  labels?: string[];
  format?: string;
}

/** Where an argument comes from. */
async function sourceOf(
  workbook: Workbook,
  spot: Spot,
  node: ArgumentNode,
  reader: CellReader,
): Promise<Source> {
  if (!node) return { words: () => "left out" };
  const entry = ourFunction(node);
  if (entry) {
    const name = `${NAMESPACE}.${entry.id} above`;
    return { words: () => `the answer of ${name}`, place: () => name };
  }
  if (node.type === "Literal" || isSigned(node)) {
    const format = node.type === "UnaryExpression" && node.operator === "%" ? "0%" : "";
    return { words: () => "typed in the formula", format };
  }
  if (node.type === "ArrayExpression") return { words: () => "a list typed in the formula" };
  if (node.type === "ReferenceIdentifier" && node.kind === "range")
    return rangeSource(workbook, spot, node.value);
  const text = typedFormula(node).slice(1);
  if (node.type === "ReferenceIdentifier" && node.kind === "name")
    return { words: () => `from the name ${text}` };
  if (node.type === "ReferenceIdentifier" && node.kind === "table") {
    return { words: (line) => `from the table, ${text}${lineWords(line, text)}` };
  }
  const alone = summedAlone(node);
  if (alone) return rangeSource(workbook, spot, alone);
  const nouns: string[] = [];
  for (const reference of referencesIn(node)) nouns.push(cellNoun(await reader.cells(reference)));
  const from = nouns.length > 0 ? `from ${inARow(nouns)}` : "in the formula";
  return { words: () => `worked out ${from}` };
}

/** The cell that a sum has alone, as formulas write it where a blank counts as 0. */
function summedAlone(node: Node): string | undefined {
  if (node.type !== "CallExpression" || calleeOf(node) !== "SUM") return undefined;
  const [cell, ...more] = node.arguments;
  if (cell?.type !== "ReferenceIdentifier" || more.length > 0 || cell.value.includes(":"))
    return undefined;
  return cell.kind === "range" ? cell.value : undefined;
}

function lineWords(line: Line | null, text: string): string {
  if (!line || /@|This Row/.test(text)) return "";
  return `, line ${Math.max(line.row, line.column) + 1}`;
}

/** A number with a sign or a percent sign, typed in. */
function isSigned(node: Node): boolean {
  if (node.type !== "UnaryExpression" || node.operator === "#") return false;
  const [inner] = node.arguments;
  return inner.type === "Literal" || isSigned(inner);
}

async function rangeSource(workbook: Workbook, spot: Spot, reference: string): Promise<Source> {
  const found = rangeIn(reference);
  if (!found) return { words: () => reference };
  const { top, left, bottom, right } = edgesOf(found);
  const sheet = found.sheetName || spot.sheet;
  const on = sheet === spot.sheet ? "" : ` of ${sheet}`;
  const cellAt = (row: number, column: number) => cellName(top + row, left + column) + on;
  const first = { sheet, row: top, column: left };
  const { beside, above, line }: Labels = isWhole(found) ? {} : await labelsOf(workbook, first);
  const format = isWhole(found) ? "" : await workbook.format(first);
  // A column goes by its heading, a cell by the label to its left.
  const order = bottom > top ? [above, beside, line] : [beside, above, line];
  const labels = order.filter((each) => each !== undefined);
  const named = labels[0] ? `, "${labels[0]}"` : "";
  const place = (line: Line | null) => {
    if (!line || isWhole(found)) return reference.replaceAll("$", "");
    return cellAt(bottom > top ? line.row : 0, right > left ? line.column : 0);
  };
  const isOne = isWhole(found) || (bottom === top && right === left);
  return {
    place,
    cellAt,
    labels,
    format,
    words: (line) => {
      const of = isOne || !line ? "" : `, of ${reference.replaceAll("$", "")}`;
      return `from ${place(line)}${of}${named}`;
    },
  };
}
