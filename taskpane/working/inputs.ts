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
import type { Kind } from "../../functions/catalog/kinds.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { edgesOf, isWhole, rangeIn } from "../../functions/formula/references.ts";
import { ourFunction } from "../../functions/formula/ours.ts";
import type { ArgumentNode, Node } from "../../functions/formula/tree.ts";
import { typedFormula } from "../../functions/formula/writer.ts";
import type { Spot, Workbook } from "../host/workbook.ts";
import { shown, unitParam } from "./shown.ts";

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
}

/** How far up a heading may stand above a cell. */
const REACH = 40;

/** Most values of a range that are shown. */
const MOST = 8;

/** Describes the inputs of a call: those of a line, by what its cells hold. */
export async function inputsShown(
  workbook: Workbook,
  spot: Spot,
  entry: CatalogEntry,
  nodes: ArgumentNode[],
): Promise<(line: Line, held: Grid[]) => ShownInput[]> {
  const asked: { param: Param; source: Source }[] = [];
  // In turn: a workbook that is asked all at once may mix its answers up.
  for (const [i, param] of entry.params.entries())
    asked.push({ param, source: await sourceOf(workbook, spot, nodes[i] ?? null) });
  return (line, held) =>
    asked.map(({ param, source }, i) => {
      const cells = at(held, i);
      const unit = unitParam(entry, param);
      const unitCell = unit && onlyCell(at(held, entry.params.indexOf(unit)));
      const isNothing = cells.flat().every(isBlank);
      // Of a scale of its own: 62 F is not 62 °C.
      const kind = unit && param.kind === "celsius" ? "number" : param.kind;
      const from = source.words(param.range ? null : line);
      return {
        name: param.name,
        text: param.text,
        value: isNothing ? blankShown(param) : valuesShown(cells, kind, unitCell),
        from: isNothing && param.default !== undefined ? `${from}: the default` : from,
        place: source.place?.(param.range ? null : line),
        fault: faultIn(cells, source.cellAt),
      };
    });
}

/** What counts where nothing is filled in. */
function blankShown(param: Param): string {
  return param.default === undefined ? "blank" : shown(param.default, param.kind);
}

function valuesShown(cells: Grid, kind: Kind, unit?: CellValue): string {
  const behind = typeof unit === "string" && unit !== "" ? ` ${unit.trim()}` : "";
  const one = onlyCell(cells);
  if (one !== undefined) return shown(one, kind) + (typeof one === "number" ? behind : "");
  const flat = cells.flat();
  const few = flat.slice(0, MOST).map((cell) => shown(cell, kind));
  const more = flat.length > MOST ? `, and ${flat.length - MOST} more` : "";
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
}

/** Where an argument comes from. */
async function sourceOf(workbook: Workbook, spot: Spot, node: ArgumentNode): Promise<Source> {
  if (!node) return { words: () => "left out" };
  const entry = ourFunction(node);
  if (entry) {
    const name = `${NAMESPACE}.${entry.id}, above`;
    return { words: () => `the answer of ${name}`, place: () => name };
  }
  if (node.type === "Literal" || isSigned(node)) return { words: () => "typed in the formula" };
  if (node.type === "ArrayExpression") return { words: () => "a list typed in the formula" };
  if (node.type === "ReferenceIdentifier" && node.kind === "range")
    return rangeSource(workbook, spot, node.value);
  const text = typedFormula(node).slice(1);
  if (node.type === "ReferenceIdentifier" && node.kind === "name")
    return { words: () => `from the name ${text}` };
  if (node.type === "ReferenceIdentifier" && node.kind === "table") {
    return { words: (line) => `from the table, ${text}${lineWords(line, text)}` };
  }
  return { words: () => `worked out: ${text}` };
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
  const label = isWhole(found) ? "" : await labelOf(workbook, { sheet, row: top, column: left });
  const named = label ? `, ${label}` : "";
  const place = (line: Line | null) => {
    if (!line || isWhole(found)) return reference.replaceAll("$", "");
    return cellAt(bottom > top ? line.row : 0, right > left ? line.column : 0);
  };
  const isOne = isWhole(found) || (bottom === top && right === left);
  return {
    place,
    cellAt,
    words: (line) => {
      const of = isOne || !line ? "" : `, of ${reference}`;
      return `from ${place(line)}${of}${named}`;
    },
  };
}

/** The name of a cell on its sheet, in quotes: the one label to its left, or a heading above. */
async function labelOf(workbook: Workbook, { sheet, row, column }: Spot): Promise<string> {
  const quoted = /^[A-Za-z_]\w*$/.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`;
  const first = Math.max(0, row - REACH);
  const block = `${quoted}!${cellName(first, 0)}:${cellName(row, column)}`;
  const [lines] = await workbook.values({ sheet, row, column }, [block]);
  if (!lines) return "";
  const [beside, ...more] =
    lines
      .at(-1)
      ?.slice(0, column)
      .filter((cell) => !isBlank(cell)) ?? [];
  const isLabel = typeof beside === "string" && more.length === 0;
  const label = isLabel ? beside : headingOf(lines, column);
  return label === undefined ? "" : `"${label}"`;
}

/** The nearest line above of texts alone: of two or more, or of one over the first column. */
function headingOf(lines: Grid, column: number): string | undefined {
  for (const line of lines.slice(0, -1).reverse()) {
    const cell = line[column];
    const filled = line.filter((cell) => !isBlank(cell));
    // A blank line, or a title that stands alone: the table does not reach further up.
    if (filled.length <= Math.min(1, column)) return undefined;
    const isHeading = filled.every((each) => typeof each === "string");
    if (isHeading && typeof cell === "string" && cell !== "") return cell;
  }
  return undefined;
}
