/**
 * The way that a cell's value took through its formula: of each IF the branch that was chosen, of
 * each IFERROR the part that came out, of each INDEX the cell that it found. What is left is what
 * the cell shows; the rest only guards it.
 */
import {
  type CellValue,
  type Grid,
  isBlank,
  isFault,
  onlyCell,
} from "../../functions/bind/cell.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { edgesOf, isWhole, rangeIn } from "../../functions/formula/references.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import { type ArgumentNode, type Call, type Node, calleeOf } from "../../functions/formula/tree.ts";
import { isTrue } from "./cells.ts";

/** What a part of the formula gives; null where that cannot be told. */
export type Ask = (node: Node) => Promise<Grid | null>;

/** What chose a part of a formula: a condition, and whether it held. */
export interface Because {
  condition: Node;
  holds: boolean;
  /** The part that was not chosen. */
  instead: ArgumentNode;
}

export interface Way {
  taken: Node;
  /** The last choice on the way. */
  because?: Because | undefined;
  /** Of words that are joined, the way of each. */
  parts?: Way[];
}

/** The line on which INDEX and MATCH found a cell. */
export interface FoundBy {
  key: Node;
  /** Where the key was looked for. */
  among: Node;
}

/** Follows the value of a cell through its formula. */
export class Follower {
  /** By what cells were found that stand for an INDEX. */
  readonly foundBy = new Map<Node, FoundBy>();

  constructor(readonly ask: Ask) {}

  async wayOf(node: Node): Promise<Way> {
    if (node.type !== "CallExpression") return { taken: await this.settled(node) };
    const [first = null, second = null, third = null] = node.arguments;
    const name = calleeOf(node);
    if (name === "IF" && first) return this.chosen(node, first, second, third);
    if (name === "IFERROR" && first && second) {
      const value = await this.one(first);
      if (value === undefined) return { taken: node };
      if (!isFault(value)) return this.wayOf(first);
      const condition: Node = { ...node, arguments: [first], callee: named("ISERROR") };
      return this.branch(second, { condition, holds: true, instead: first });
    }
    if (name === "TEXTJOIN") {
      const parts: Way[] = [];
      for (const part of node.arguments.slice(2)) if (part) parts.push(await this.wayOf(part));
      const taken = { ...node, arguments: [first, second, ...parts.map((way) => way.taken)] };
      return { taken, parts };
    }
    return { taken: await this.settled(node) };
  }

  /** A node in which every choice is made. */
  async settled(node: Node): Promise<Node> {
    switch (node.type) {
      case "UnaryExpression":
        return { ...node, arguments: [await this.settled(node.arguments[0])] };
      case "BinaryExpression": {
        const [left, right] = node.arguments;
        const parts: [Node, Node] = [await this.settled(left), await this.settled(right)];
        if (node.operator === "&" && isNoText(parts[1])) return parts[0];
        return { ...node, arguments: parts };
      }
      case "CallExpression":
        return this.settledCall(node);
    }
    return node;
  }

  private async settledCall(node: Call): Promise<Node> {
    const name = calleeOf(node);
    if (name === "IF" || name === "IFERROR") {
      const { taken } = await this.wayOf(node);
      return taken;
    }
    if (name === "INDEX") {
      const cell = await this.cellFound(node);
      if (cell) return cell;
    }
    const parts: ArgumentNode[] = [];
    for (const part of node.arguments) parts.push(part && (await this.settled(part)));
    return { ...node, arguments: parts };
  }

  private async chosen(
    node: Call,
    condition: Node,
    then: ArgumentNode,
    otherwise: ArgumentNode,
  ): Promise<Way> {
    const value = await this.one(condition);
    if (value === undefined || typeof value === "string") return { taken: node };
    if (isFault(value)) return this.wayOf(condition);
    const holds = isTrue(value);
    const [branch, instead] = holds ? [then, otherwise] : [otherwise, then];
    return branch ? this.branch(branch, { condition, holds, instead }) : { taken: node };
  }

  private async branch(node: Node, because: Because): Promise<Way> {
    const way = await this.wayOf(node);
    return { ...way, because: way.because ?? because };
  }

  /** The cell that INDEX picks of a range, as a reference. */
  private async cellFound({ arguments: parts }: Call): Promise<Node | null> {
    const [range, line, across = null] = parts;
    if (range?.type !== "ReferenceIdentifier" || !line || parts.length > 3) return null;
    const found = rangeIn(range.value);
    if (!found || isWhole(found)) return null;
    const { top, left, bottom, right } = edgesOf(found);
    const isRow = across === null && top === bottom;
    const place = await this.one(line);
    const placeAcross = across ? await this.one(across) : 1;
    if (typeof place !== "number" || typeof placeAcross !== "number") return null;
    if (place < 1 || placeAcross < 1) return null;
    const row = top + (isRow ? 0 : Math.trunc(place) - 1);
    const column = left + (isRow ? Math.trunc(place) : Math.trunc(placeAcross)) - 1;
    if (row < top || row > bottom || column < left || column > right) return null;
    const sheet = found.sheetName ? `${quoted(found.sheetName)}!` : "";
    const cell: Node = { ...range, value: sheet + cellName(row, column) };
    const settled = await this.settled(line);
    if (settled.type === "CallExpression" && calleeOf(settled) === "MATCH") {
      const [key, among] = settled.arguments;
      if (key && among) this.foundBy.set(cell, { key, among });
    }
    return cell;
  }

  /** The single value of a node; undefined where it has none, or none that can be told. */
  async one(node: Node): Promise<CellValue | undefined> {
    const grid = await this.ask(node);
    return grid ? onlyCell(grid) : undefined;
  }
}

function named(name: string) {
  return { type: "Identifier", name } as const;
}

/** True for "". */
export function isNoText(node: ArgumentNode): boolean {
  return node?.type === "Literal" && typeof node.value === "string" && isBlank(node.value);
}
