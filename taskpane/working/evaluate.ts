/**
 * Small expressions worked out as Excel does, for arguments such as A1*2, -rate or SUM(B2:B9)/2.
 *
 * Only what is sure: where an answer depends on the computer's language (a text as a number, a
 * number as text) or on a function that is not in the list, it cannot be told.
 */
import {
  type CellValue,
  type Fault,
  type Grid,
  isFault,
  onlyCell,
} from "../../functions/bind/cell.ts";
import { worksheetFunction } from "../../functions/bind/register.ts";
import { ourFunction } from "../../functions/formula/ours.ts";
import {
  type ArgumentNode,
  type Call,
  type Node,
  calleeOf,
  constantsOf,
} from "../../functions/formula/tree.ts";
import { Untold, at, fault, isSame, isTrue, number, sameOrLess, text, tidy } from "./cells.ts";
import { WHERE } from "./criteria.ts";
import { COUNTED, type Counted, LOOKS, ONE_BY_ONE } from "./functions.ts";
import { LOOKUPS, placeOf } from "./lookups.ts";

export { Untold } from "./cells.ts";

/** What the references of an expression hold. */
export interface References {
  /** The cell that the expression is written in. */
  here: { row: number; column: number };
  range(text: string): Promise<Grid>;
  /** The cells that the formula of a cell spills into. */
  spill(text: string): Promise<Grid>;
  name(text: string): Promise<Grid>;
  table(text: string): Promise<Grid>;
}

/** What an expression gives. Throws Untold where that cannot be told. */
export async function evaluate(node: Node, references: References): Promise<Grid> {
  const constants = constantsOf(node);
  if (constants) return constants;
  switch (node.type) {
    case "ErrorLiteral":
      return [[{ fault: node.raw.toUpperCase() }]];
    case "ReferenceIdentifier":
      return reference(node, references);
    case "UnaryExpression": {
      const {
        operator,
        arguments: [inner],
      } = node;
      if (operator === "#" && inner.type === "ReferenceIdentifier")
        return references.spill(inner.value);
      const values = await evaluate(inner, references);
      if (operator === "+") return values;
      if (operator === "-") return each([values], (value) => -number(value));
      if (operator === "%") return each([values], (value) => number(value) / 100);
      throw new Untold();
    }
    case "BinaryExpression": {
      const work = OPERATORS[node.operator];
      if (!work) throw new Untold();
      const [left, right] = node.arguments;
      return each([await evaluate(left, references), await evaluate(right, references)], work);
    }
    case "CallExpression":
      return called(node, references);
  }
  throw new Untold();
}

function reference(
  { kind, value }: Extract<Node, { type: "ReferenceIdentifier" }>,
  references: References,
): Promise<Grid> {
  if (kind === "name") return references.name(value);
  if (kind === "table") return references.table(value);
  return references.range(value);
}

async function called(node: Call, references: References): Promise<Grid> {
  const name = calleeOf(node);
  const nodes = node.arguments;
  const valueOf = (arg: ArgumentNode) => (arg ? evaluate(arg, references) : [[null]]);
  if (name === "IF") return chosen(nodes, valueOf);
  if (name === "IFERROR") return mended(nodes, valueOf);
  if (name === "CHOOSE") return picked(nodes, valueOf);
  const place = placeOf(name, nodes, references.here);
  if (place !== null) return [[place]];
  const args: Grid[] = [];
  // In turn: a workbook that is asked all at once may mix its answers up.
  for (const arg of nodes) args.push(await valueOf(arg));
  const ours = ourFunction(node);
  if (ours) return worksheetFunction(ours)(...args);
  const single = ONE_BY_ONE[name];
  if (single) return each(args, single);
  const looks = LOOKS[name];
  if (looks) return each(args, looks, true);
  const [first = [[null]], ...more] = args;
  const found = LOOKUPS[name]?.(first, ...more);
  if (found) return found;
  return [[guarded(() => ofAll(name, nodes, args))]];
}

/** Functions that have one answer, whatever the size of their arguments. */
function ofAll(name: string, nodes: ArgumentNode[], args: Grid[]): CellValue {
  const [first = [[null]], ...more] = args;
  const where = WHERE[name];
  if (where) return where(first, ...more);
  const all = (what: (cell: CellValue, isRead: boolean) => Counted) =>
    args.flatMap((grid, i) => {
      const isRead = isCells(nodes[i] ?? null) || grid.flat().length > 1;
      return grid.flat().map((value) => what(value, isRead));
    });
  if (name === "COUNT")
    return all((value, isRead) => (isFault(value) ? null : counts(value, isRead))).filter(
      (value) => value !== null,
    ).length;
  if (name === "AND" || name === "OR") {
    const truths = all(truth).filter((value) => value !== null);
    if (truths.length === 0) return fault("#VALUE!");
    return name === "AND" ? truths.every(Boolean) : truths.some(Boolean);
  }
  if (name === "TEXTJOIN") return joined(args);
  const counted = COUNTED[name];
  if (!counted) throw new Untold();
  return counted(...all(counts));
}

/** IF: of a single condition, only the branch that it takes is looked at. */
async function chosen(
  [condition = null, then, otherwise]: ArgumentNode[],
  valueOf: (arg: ArgumentNode) => Promise<Grid> | Grid,
): Promise<Grid> {
  const conditions = await valueOf(condition);
  const branch = async (arg: ArgumentNode | undefined) =>
    arg === undefined ? [[false]] : await valueOf(arg);
  const one = onlyCell(conditions);
  if (isFault(one)) return [[one]];
  if (one !== undefined) return branch(isTrue(one) ? then : otherwise);
  const grids = [conditions, await branch(then), await branch(otherwise)];
  return each(
    grids,
    (value, a, b) => (isFault(value) ? value : ((isTrue(value) ? a : b) ?? 0)),
    true,
  );
}

/** IFERROR: what is there instead is looked at only where it is needed. */
async function mended(
  [first = null, instead = null]: ArgumentNode[],
  valueOf: (arg: ArgumentNode) => Promise<Grid> | Grid,
): Promise<Grid> {
  const values = await valueOf(first);
  if (!values.flat().some(isFault)) return values;
  const grids = [values, await valueOf(instead)];
  return each(grids, (value, other) => (isFault(value) ? other : value), true);
}

/** CHOOSE: only what is picked is looked at. */
async function picked(
  [which = null, ...values]: ArgumentNode[],
  valueOf: (arg: ArgumentNode) => Promise<Grid> | Grid,
): Promise<Grid> {
  const place = onlyCell(await valueOf(which));
  if (place === undefined) throw new Untold();
  if (isFault(place)) return [[place]];
  const value = values[Math.trunc(number(place)) - 1];
  return value === undefined ? [[fault("#VALUE!")]] : valueOf(value);
}

/** True for what reads cells, in which words and truths do not count. */
function isCells(node: ArgumentNode): boolean {
  if (node?.type === "CallExpression") return calleeOf(node) === "INDEX";
  return (
    node?.type === "ReferenceIdentifier" ||
    (node?.type === "UnaryExpression" && node.operator === "#")
  );
}

/** What an aggregate counts: the numbers in cells, and all that is typed in or worked out. */
function counts(value: CellValue, isRead: boolean): Counted {
  if (isFault(value)) throw new Stopped(value);
  if (isRead) return typeof value === "number" ? value : null;
  return value === null ? null : number(value);
}

/** What AND and OR count, as 1 or 0: in cells, words do not. */
function truth(value: CellValue, isRead: boolean): Counted {
  if (isRead && typeof value === "string") return null;
  if (isFault(value)) throw new Stopped(value);
  return value === null ? null : number(value);
}

/** TEXTJOIN: texts with something between, the empty ones left out where so asked. */
function joined([between = [[null]], leavesOut = [[null]], ...grids]: Grid[]): CellValue {
  const [separator, skips] = [onlyCell(between), onlyCell(leavesOut)];
  if (separator === undefined || skips === undefined) throw new Untold();
  const values = grids.flat(2);
  const bad = [separator, skips, ...values].find(isFault);
  if (bad) return bad;
  const texts = values.map(text).filter((each) => each !== "" || !isTrue(skips));
  return texts.join(text(separator));
}

/** Thrown for an error among the cells, which is then the answer. */
class Stopped extends Error {
  constructor(readonly value: Fault) {
    super();
  }
}

function guarded(work: () => CellValue): CellValue {
  try {
    return tidy(work());
  } catch (error) {
    if (error instanceof Stopped) return error.value;
    throw error;
  }
}

/** Line by line, as ranges stretch over each other; an error in any is the answer there. */
function each(
  grids: Grid[],
  work: (...values: CellValue[]) => CellValue,
  seesErrors = false,
): Grid {
  const rows = Math.max(1, ...grids.map((grid) => grid.length));
  const columns = Math.max(1, ...grids.map((grid) => grid[0]?.length ?? 0));
  return Array.from({ length: rows }, (_, i) =>
    Array.from({ length: columns }, (__, j) => {
      const values = grids.map((grid) => at(grid, i, j));
      const bad = seesErrors ? undefined : values.find(isFault);
      return bad ?? guarded(() => work(...values));
    }),
  );
}

type Work = (a: CellValue, b: CellValue) => CellValue;

const OPERATORS: Record<string, Work | undefined> = {
  "+": (a, b) => near(number(a), number(b), number(a) + number(b)),
  "-": (a, b) => near(number(a), number(b), number(a) - number(b)),
  "*": (a, b) => number(a) * number(b),
  "/": (a, b) => (number(b) === 0 ? fault("#DIV/0!") : number(a) / number(b)),
  "^": (a, b) => (number(a) === 0 && number(b) === 0 ? fault("#NUM!") : number(a) ** number(b)),
  "=": isSame,
  "<>": (a, b) => !isSame(a, b),
  "<": (a, b) => sameOrLess(a, b) < 0,
  "<=": (a, b) => sameOrLess(a, b) <= 0,
  ">": (a, b) => sameOrLess(a, b) > 0,
  ">=": (a, b) => sameOrLess(a, b) >= 0,
  "&": (a, b) => text(a) + text(b),
};

/** A sum that is nothing but the rounding of its parts is nothing, as in Excel. */
function near(a: number, b: number, sum: number): number {
  return Math.abs(sum) < 1e-15 * Math.max(Math.abs(a), Math.abs(b)) ? 0 : sum;
}
