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
  constantOf,
  constantsOf,
} from "../../functions/formula/tree.ts";
import { COUNTED, type Counted, ONE_BY_ONE } from "./functions.ts";
import { Untold, at, fault, isTrue, number, sameOrLess, tidy } from "./cells.ts";

export { Untold } from "./cells.ts";

/** What the references of an expression hold. */
export interface References {
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
  const args: Grid[] = [];
  // In turn: a workbook that is asked all at once may mix its answers up.
  for (const arg of nodes) args.push(await valueOf(arg));
  const ours = ourFunction(node);
  if (ours) return worksheetFunction(ours)(...args);
  if (name === "IFERROR" && args.length === 2)
    return each(args, (value, instead) => (isFault(value) ? instead : value), true);
  const single = ONE_BY_ONE[name];
  if (single) return each(args, (...values) => single(...values.map(number)));
  const counted = COUNTED[name];
  if (!counted) throw new Untold();
  return [[guarded(() => counted(...args.flatMap((grid, i) => counts(grid, nodes[i] ?? null))))]];
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

/** What an aggregate counts of an argument: the numbers in cells, and all that is typed in. */
function counts(grid: Grid, node: ArgumentNode): Counted[] {
  const isTyped = node !== null && constantOf(node) !== undefined;
  return grid.flat().map((value) => {
    if (isFault(value)) throw new Stopped(value);
    if (isTyped) return number(value);
    return typeof value === "number" ? value : null;
  });
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
  const rows = Math.max(...grids.map((grid) => grid.length));
  const columns = Math.max(...grids.map((grid) => grid[0]?.length ?? 0));
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
  "=": (a, b) => sameOrLess(a, b) === 0,
  "<>": (a, b) => sameOrLess(a, b) !== 0,
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

/** A whole number reads alike in every language; others may have a comma or a point. */
function text(value: CellValue): string {
  if (value === null) return "";
  if (typeof value === "string") return value;
  if (typeof value === "number" && Number.isInteger(value) && Math.abs(value) < 1e11)
    return String(value);
  throw new Untold();
}
