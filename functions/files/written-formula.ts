/** What Excel's files need to be told of a formula. */
import { ourFunction } from "../formula/ours.ts";
import { readFormula } from "../formula/reader.ts";
import { type ArgumentNode, type Node, calleeOf, childrenOf } from "../formula/tree.ts";
import { sizeOfRange } from "./native-formula.ts";

/** Functions of the local sheet's engine that no other program has. */
const ITS_OWN = new Set(
  (
    "ARRAY.CONSTRAIN ARRAY.LITERAL ARRAY.ROW FLATTEN MONTH.END MONTH.START QUARTER QUARTER.END QUARTER.START " +
    "YEAR.END YEAR.START SORTN PIVOT PIVOT.HEADER PIVOT.VALUE COUNTUNIQUE COUNTUNIQUEIFS ADD DIVIDE EQ GT GTE LT LTE " +
    "MINUS MULTIPLY NE POW SPILLED.RANGE UMINUS UNARY.PERCENT UPLUS AVERAGE.WEIGHTED MATTHEWS POLYFIT.COEFFS " +
    "POLYFIT.FORECAST SPEARMAN FORMAT.LARGE.NUMBER JOIN SPLIT"
  ).split(" "),
);

/** Functions that read whole ranges and answer in one cell. */
const READS_RANGES = new Set(
  (
    "SUM SUMSQ AVERAGE AVERAGEA MIN MINA MAX MAXA COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS SUMIF SUMIFS AVERAGEIF " +
    "AVERAGEIFS MINIFS MAXIFS PRODUCT MEDIAN STDEV STDEV.S STDEV.P VAR VAR.S VAR.P MODE MODE.SNGL LARGE SMALL RANK " +
    "RANK.EQ RANK.AVG PERCENTILE PERCENTILE.INC PERCENTILE.EXC QUARTILE QUARTILE.INC QUARTILE.EXC VLOOKUP HLOOKUP " +
    "LOOKUP MATCH INDEX ROWS COLUMNS ROW COLUMN AND OR XOR NPV IRR XNPV XIRR CONCAT TEXTJOIN SUBTOTAL AGGREGATE " +
    "CORREL SLOPE INTERCEPT RSQ FORECAST FORECAST.LINEAR GEOMEAN HARMEAN AVEDEV DEVSQ"
  ).split(" "),
);

/** Functions that take arrays apart by themselves, whatever is in them. */
const TAKES_ARRAYS = new Set(["SUMPRODUCT"]);

/** Functions that may answer in several cells. */
const SPILLS = new Set(
  (
    "FILTER SORT SORTBY UNIQUE SEQUENCE RANDARRAY TRANSPOSE MMULT MINVERSE FREQUENCY LINEST LOGEST TREND GROWTH " +
    "XLOOKUP XMATCH LET LAMBDA MAP REDUCE SCAN BYROW BYCOL MAKEARRAY HSTACK VSTACK TOCOL TOROW WRAPROWS WRAPCOLS " +
    "TAKE DROP EXPAND CHOOSECOLS CHOOSEROWS TEXTSPLIT MUNIT MODE.MULT ANCHORARRAY"
  ).split(" "),
);

/**
 * True for a formula that comes out right only where it is stored as an array formula: Excel takes
 * any other for an old one, and one value of each range. Calls of ours are stored so by Excel
 * itself.
 */
export function needsArray(formula: string): boolean {
  const tree = readOrNull(formula);
  return tree !== null && asArray(tree);
}

function asArray(node: Node): boolean {
  if (node.type === "ArrayExpression") return true;
  if (node.type === "ReferenceIdentifier") return !isCell(node.value);
  if (ourFunction(node)) return true;
  const children = childrenOf(node);
  if (node.type === "BinaryExpression" && /[:, ]/.test(node.operator)) return true;
  if (node.type !== "CallExpression") return children.some(isArrayLike);
  const name = calleeOf(node);
  if (SPILLS.has(name)) return true;
  if (TAKES_ARRAYS.has(name)) return children.some((child) => child !== null && holdsOurs(child));
  if (!READS_RANGES.has(name)) return children.some(isArrayLike);
  return children.some((child) => child !== null && !isRange(child) && asArray(child));
}

function isArrayLike(child: ArgumentNode): boolean {
  return child !== null && asArray(child);
}

function isRange(node: Node): boolean {
  if (node.type === "BinaryExpression") return /[:, ]/.test(node.operator);
  return node.type === "ReferenceIdentifier" || node.type === "ArrayExpression";
}

function isCell(reference: string): boolean {
  const size = sizeOfRange(reference);
  return size !== null && size.rows === 1 && size.columns === 1;
}

function holdsOurs(node: Node): boolean {
  return Boolean(ourFunction(node)) || childrenOf(node).some((child) => child && holdsOurs(child));
}

/** The first function in a formula that Excel does not have; null where it has all. */
export function unknownToExcel(formula: string): string | null {
  const tree = readOrNull(formula);
  return tree && firstUnknown(tree);
}

function firstUnknown(node: Node): string | null {
  if (node.type === "CallExpression") {
    const name = calleeOf(node);
    // Here a third argument is one more condition, there it is what shows when nothing is found.
    const isOther = name === "FILTER" && node.arguments.length > 2;
    if (ITS_OWN.has(name) || isOther) return name;
  }
  for (const child of childrenOf(node)) {
    const found = child && firstUnknown(child);
    if (found) return found;
  }
  return null;
}

function readOrNull(formula: string): Node | null {
  try {
    return readFormula(formula);
  } catch {
    return null;
  }
}
