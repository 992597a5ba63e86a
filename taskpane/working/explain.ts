/**
 * A cell explained: for each call of ours in its formula what went in and from where, how the
 * number came about line by line, and what to keep in mind; where there is no number, why, and what
 * mends it.
 *
 * The functions themselves work the calls out, from what the workbook says of their arguments: so
 * both hosts explain alike, and calls within calls are explained from the inside out.
 */
import { at } from "../../src/lists.ts";
import { cautionOf } from "../../functions/catalog/topics.ts";
import type { CatalogEntry } from "../../functions/catalog/entry.ts";
import { type Extent, type Line, lineOf, linesOf } from "../../functions/bind/arguments.ts";
import {
  type CellValue,
  type Fault,
  type Grid,
  isBlank,
  isFault,
  onlyCell,
} from "../../functions/bind/cell.ts";
import { worksheetFunction } from "../../functions/bind/register.ts";
import type { Digits } from "../../functions/working/shown.ts";
import { type Told, toldOf } from "../../functions/working/told.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { mentionsUs, ourCalls, ourFunction } from "../../functions/formula/ours.ts";
import { readFormula, withoutLets } from "../../functions/formula/reader.ts";
import {
  type ArgumentNode,
  type Call,
  type Node,
  branchesOf,
  calleeOf,
  constantOf,
  constantsOf,
} from "../../functions/formula/tree.ts";
import { RANK } from "../../functions/formula/precedence.ts";
import {
  type Written,
  literal,
  typedFormula,
  writeFormula,
} from "../../functions/formula/writer.ts";
import type { CellContent, Spot, Workbook } from "../host/workbook.ts";
import { type Said, answerSaid } from "./answer.ts";
import { type ShownInput, inputsOf } from "./inputs.ts";
import { type InWords, tellWay } from "./in-words.ts";
import { lookOf, shownAs, tellsMeasure } from "./labels.ts";
import { CellReader } from "./named-cells.ts";
import { cellNoun, referencesIn, sourceIn } from "./nouns.ts";
import { type Ask, Follower } from "./way.ts";
import {
  COULD_NOT_BE_READ,
  type CellProblem,
  cameFrom,
  nativeProblem,
  notNeeded,
  problemOf,
} from "./problems.ts";

export type { WorkingTable } from "../../functions/working/table.ts";
export type { Told } from "../../functions/working/told.ts";
export type { InWords } from "./in-words.ts";

export interface Explained {
  /** "B19 of Start here" */
  place: string;
  formula: string;
  value: CellValue;
  /** The value as its cell shows it, with its unit. */
  shows: (digits: Digits) => string;
  calls: ExplainedCall[];
  /** How the cell comes by its value, apart from the calls. */
  inWords: (digits: Digits) => Promise<InWords>;
  /** The value is the answer of the last call. */
  isAlone: boolean;
  /** What is wrong with the formula, where all our calls in it have answers. */
  problem?: CellProblem;
}

export interface ExplainedCall {
  entry: CatalogEntry;
  /** How many lines it has: 1 by 1, or as many as its ranges have. */
  lines: Extent;
  /** The line that the selected cell shows. */
  line: Line;
  at: (line: Line, digits?: Digits) => ExplainedLine;
  caution: string;
}

/** One line of a call. */
export interface ExplainedLine {
  inputs: ShownInput[];
  steps: Told[];
  /** What the line answers with: one cell, or several. */
  answer: Grid;
  /** The same in words. */
  said: Said;
  /** Which of several cells the selected one is, where it is one of them. */
  part?: Line | undefined;
  problem?: CellProblem;
}

/** A cell that has nothing to explain; the text says why. */
export class NothingToExplain extends Error {}

export async function explain(workbook: Workbook, spot: Spot): Promise<Explained> {
  const content = await workbook.content(spot);
  const place = `${cellName(spot.row, spot.column)} of ${spot.sheet}`;
  if (content.formula === null) throw new NothingToExplain(holdsNoFormula(place, content.value));
  const written = readTree(content.formula, place);
  const tree = withoutLets(written);
  const { from, value } = content;
  const ask = askIn(workbook, from);
  const follower = new Follower(ask);
  const way = await follower.wayOf(tree);
  // What only guards another part is not told, unless words or a blank came of it.
  const isTyped = constantOf(way.taken) !== undefined || isFault(value);
  const why = isTyped && ourCalls(way.taken).length === 0 ? way.because?.condition : undefined;
  const found = ourCalls(why ? await follower.settled(why) : way.taken);
  const look = await lookOf(workbook, spot);
  const offset = { row: spot.row - from.row, column: spot.column - from.column };
  const answers = new Map<Node, Grid>();
  const reader = new CellReader(workbook, from);
  const calls: ExplainedCall[] = [];
  const isAlone = way.taken === found.at(-1);
  const comesOut = !isAlone && !isFault(value) && !isBlank(value);
  for (const node of found) {
    const call = await explainCall(workbook, from, node, offset, answers, reader);
    calls.push(comesOut ? withoutMends(call) : call);
  }
  const source = sourceIn(way.taken);
  const like = source === undefined ? undefined : await reader.cells(source);
  const saidOf = (node: Node, digits: Digits) => {
    const call = calls[found.findIndex((each) => each === node)];
    return call?.at(call.line, digits).said.cell?.says;
  };
  const inWords = async (digits: Digits): Promise<InWords> => {
    if (isAlone) return { sentences: guardTold(tree), how: [], goesIn: [] };
    const answerOf = (node: Node) => saidOf(node, digits);
    return tellWay(way, { follower, ask, reader, digits, answerOf });
  };
  return {
    place,
    formula: typedFormula(written),
    value,
    shows: (digits) => {
      const call = isAlone ? calls.at(-1) : undefined;
      const cell = call?.at(call.line, digits).said.cell;
      if (cell || !like || tellsMeasure(look)) return shownAs(value, look, digits, cell?.measure);
      return like.showsLike(value, digits);
    },
    calls,
    inWords,
    isAlone,
    ...(await outerProblem(content, calls, way.taken, reader)),
  };
}

/** What a formula shows that only guards the answer of a call. */
function guardTold(tree: Node): string[] {
  const [, ...others] = branchesOf(tree);
  const texts = others.map(constantOf).filter((text) => typeof text === "string");
  const [blank, words] = [texts.includes(""), texts.some((text) => text !== "")];
  if (!blank && !words) return [];
  const instead =
    blank && words ? "stays blank, or says what" : blank ? "stays blank" : "says what";
  return [`The cell shows this answer as it is; where something is missing, it ${instead}.`];
}

/** Asks a workbook for what parts of a formula give, each once. */
function askIn(workbook: Workbook, spot: Spot): Ask {
  const known = new Map<string, Promise<Grid | null>>();
  return async (node) => {
    const constants = constantsOf(node);
    if (constants) return constants;
    const expression = writeFormula(node);
    const asked =
      known.get(expression) ?? workbook.values(spot, [expression]).then(([grid = null]) => grid);
    known.set(expression, asked);
    return asked;
  };
}

/** Of a formula that comes out all the same, a part that fails was only asked whether it would. */
function withoutMends(call: ExplainedCall): ExplainedCall {
  const at: ExplainedCall["at"] = (line, digits) => {
    const found = call.at(line, digits);
    return found.problem ? { ...found, problem: notNeeded(found.problem) } : found;
  };
  return { ...call, at };
}

function readTree(formula: string, place: string): Node {
  try {
    return readFormula(formula);
  } catch {
    throw new NothingToExplain(`${place} holds a formula that could not be read: ${formula}`);
  }
}

function holdsNoFormula(place: string, value: CellValue): string {
  const select = "Select a cell with a formula.";
  if (value === null || value === "") return `${place} is empty. ${select}`;
  const what = typeof value === "number" ? "a number" : "a text";
  const said = typeof value === "string" && mentionsUs(value) ? ": a formula opens with =" : "";
  return `${place} holds ${what} that was typed in${said}. ${select}`;
}

async function explainCall(
  workbook: Workbook,
  from: Spot,
  node: Call,
  offset: Line,
  answers: Map<Node, Grid>,
  reader: CellReader,
): Promise<ExplainedCall> {
  const entry = ourFunction(node);
  if (!entry) throw new Error(`${calleeOf(node)} is no function of ours`);
  const nodes = node.arguments;
  const args = await valuesOf(workbook, from, nodes, answers);
  const answer = worksheetFunction(entry)(...args);
  answers.set(node, answer);
  const lines = linesOf(entry, args);
  const line = {
    row: lines.rows > 1 ? Math.min(offset.row, lines.rows - 1) : 0,
    column: lines.columns > 1 ? Math.min(offset.column, lines.columns - 1) : 0,
  };
  const inputs = await inputsOf(workbook, from, entry, nodes, reader);
  return {
    entry,
    lines,
    line,
    caution: cautionOf(entry),
    at: (asked, digits = "six") => {
      const cells = lineOf(entry, args, asked);
      const goesIn = inputs.shown(asked, cells, digits);
      const found = answerAt(answer, lines, asked);
      const fault = found.flat().find(isFault);
      if (fault || found.flat().every(isBlank)) {
        const problem = problemOf(entry, goesIn, fault);
        return { inputs: goesIn, answer: found, steps: [], said: { all: "" }, problem };
      }
      const { steps, answer: measures } = toldOf(entry, cells, { digits, units: inputs.units });
      const part = partOf(found, lines, offset);
      const said = answerSaid(found, part, measures, digits);
      return { inputs: goesIn, answer: found, steps, said, part };
    },
  };
}

/** The answer of one line of a call, as a row where the call has several lines. */
function answerAt(answer: Grid, { rows, columns }: Extent, { row, column }: Line): Grid {
  const isOne = rows * columns === 1;
  // A call that is refused as a whole answers in one cell.
  if (isOne || onlyCell(answer) !== undefined) return answer;
  // Of a row of lines, the cells of an answer lie one below the other.
  if (rows === 1) return [answer.map((cells) => at(cells, column))];
  const cells = at(answer, row);
  return [columns === 1 ? cells : [at(cells, column)]];
}

/** The cell of an answer that the selected cell shows; answers of lines in a row lie down. */
function partOf(answer: Grid, lines: Extent, offset: Line): Line | undefined {
  if (answer.flat().length === 1) return undefined;
  const isRow = lines.columns > 1;
  const row = isRow || lines.rows > 1 ? 0 : offset.row;
  const column = isRow ? offset.row : offset.column;
  return answer[row]?.[column] === undefined ? undefined : { row, column };
}

/** What the arguments of a call hold: typed values, our answers, what the workbook says. */
async function valuesOf(
  workbook: Workbook,
  from: Spot,
  nodes: ArgumentNode[],
  answers: Map<Node, Grid>,
): Promise<Grid[]> {
  const known = nodes.map((node) => (node ? (answers.get(node) ?? constantsOf(node)) : [[null]]));
  const open = nodes.flatMap((node, i) => (node && known[i] === null ? [node] : []));
  const values = await workbook.values(
    from,
    open.map((node) => withAnswers(node, answers)),
  );
  return known.map((grid) => grid ?? values.shift() ?? [[UNTOLD]]);
}

const UNTOLD: Fault = { fault: "#VALUE!", text: COULD_NOT_BE_READ };

/** An expression with calls of ours as their answers. */
function withAnswers(node: Node, answers: ReadonlyMap<Node, Grid>): string {
  return writeFormula(node, (each) => {
    const grid = answers.get(each);
    if (!grid) return null;
    const only = onlyCell(grid);
    if (only !== undefined) return answerText(only);
    const rows = grid.map((row) => row.map((cell) => answerText(cell).text).join(","));
    return { text: `{${rows.join(";")}}`, rank: RANK.atom };
  });
}

function answerText(value: CellValue): Written {
  return isFault(value) ? { text: value.fault, rank: RANK.atom } : literal(value ?? "");
}

/** An error of the cell that none of our calls made. */
async function outerProblem(
  { value }: CellContent,
  calls: readonly ExplainedCall[],
  taken: Node,
  reader: CellReader,
): Promise<{ problem?: CellProblem }> {
  if (!isFault(value)) return {};
  if (value.fault === "#SPILL!" || value.fault === "#NAME?" || value.fault === "#BUSY!") {
    return { problem: problemOf(null, [], value) };
  }
  if (calls.some((call) => call.at(call.line).problem)) return {};
  if (calls.length > 0) return { problem: problemOf(null, [], value) };
  for (const reference of referencesIn(taken)) {
    const cells = await reader.cells(reference);
    const fault = cells.cells.flat().find(isFault);
    if (fault) return { problem: cameFrom(cellNoun(cells), cells.place, fault) };
  }
  return { problem: nativeProblem(value) };
}
