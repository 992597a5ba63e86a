/** What a native formula makes of @needs lines does not hang on how they are spelled. */
import { type MathNode, OperatorNode, isOperatorNode, isSymbolNode, parse } from "mathjs";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry, Param } from "../../functions/catalog/entry";
import { WORD_KINDS } from "../../functions/catalog/kinds";
import type { Given } from "../../functions/native/given";
import { nativeOf } from "../../functions/native/native";
import { written } from "../../functions/native/piece";
import { TooMuch } from "../../functions/native/too-much";

/** Each comparison with its sides changed over. */
const MIRRORED: Record<string, [string, string]> = {
  equal: ["==", "equal"],
  unequal: ["!=", "unequal"],
  smaller: [">", "larger"],
  smallerEq: [">=", "largerEq"],
  larger: ["<", "smaller"],
  largerEq: ["<=", "smallerEq"],
};

const isConstant = (node?: MathNode) => node?.filter((part) => isSymbolNode(part)).length === 0;

/** 0 < a in place of a > 0: everywhere, or only where a constant is compared. */
function mirrored(expression: string, onlyConstants: boolean): string {
  const change = (node: MathNode): MathNode => {
    const inner = node.map(change);
    if (!isOperatorNode(inner)) return inner;
    const [sign, fn] = MIRRORED[inner.fn] ?? [];
    const [left, right] = inner.args;
    if (!sign || !left || !right || (onlyConstants && !isConstant(right))) return inner;
    return new OperatorNode(sign as never, fn as never, [right, left]);
  };
  return change(parse(expression)).toString();
}

const respelled = (entry: CatalogEntry, spell: (expression: string) => string): CatalogEntry => ({
  ...entry,
  needs: entry.needs.map((need) => ({ ...need, expression: spell(need.expression) })),
});

const range = (text: string, rows: number, columns: number): Given => {
  const wide = rows * columns > 1;
  return { piece: written(text, undefined, wide), shape: { rows, columns }, holds: "anything" };
};

/** Ranges down a column or along a row; other arguments as single cells, or as lines of their own. */
const LAYOUTS: Record<string, (param: Param, letter: string) => Given> = {
  "single cells": ({ range: isRange }, letter) =>
    isRange ? range(`${letter}2:${letter}9`, 8, 1) : range(`${letter}2`, 1, 1),
  "a column of lines": ({ range: isRange, kind }, letter) =>
    isRange || !WORD_KINDS.has(kind)
      ? range(`${letter}2:${letter}9`, 8, 1)
      : range(`${letter}1`, 1, 1),
  "a row": ({ range: isRange }, letter) =>
    isRange ? range(`A${letter.charCodeAt(0)}:F${letter.charCodeAt(0)}`, 1, 6) : range("H1", 1, 1),
};

function formulaOf(entry: CatalogEntry, layout: string): string {
  const given = LAYOUTS[layout];
  const args = entry.params.map((param, i) => given?.(param, String.fromCharCode(65 + i)));
  try {
    return nativeOf(entry, args).piece.text;
  } catch (error) {
    if (error instanceof TooMuch) return error.message;
    throw error;
  }
}

const plain = catalog.filter(({ needs }) => needs.length > 0);

describe.each(Object.keys(LAYOUTS))("%s", (layout) => {
  test("0 < volume makes the formula that volume > 0 makes, in every function", () => {
    let respelt = 0;
    for (const entry of plain) {
      const other = respelled(entry, (expression) => mirrored(expression, true));
      respelt += entry.needs.filter(
        (need, i) => need.expression !== other.needs[i]?.expression,
      ).length;
      expect(formulaOf(other, layout), entry.id).toBe(formulaOf(entry, layout));
    }
    // By hand: about half of the needs in src compare with a constant.
    expect(respelt).toBeGreaterThan(80);
  });

  test("sides that are changed over make a formula of the same length", () => {
    for (const entry of plain) {
      const other = respelled(entry, (expression) => mirrored(expression, false));
      expect(formulaOf(other, layout), entry.id).toHaveLength(formulaOf(entry, layout).length);
    }
  });

  test("brackets around a need change nothing", () => {
    for (const entry of plain) {
      const other = respelled(entry, (expression) => `((${expression}))`);
      expect(formulaOf(other, layout), entry.id).toBe(formulaOf(entry, layout));
    }
  });

  test("nor does the order of what must hold together of a unit", () => {
    const unit = plain.filter(({ needs }) =>
      needs.some(({ expression }) => /^isunit\(/.test(expression)),
    );
    for (const entry of unit) {
      const other = respelled(entry, (expression) =>
        expression.replace(/^(isunit\(\w+\)) and (.*)$/, "$2 and $1"),
      );
      expect(formulaOf(other, layout), entry.id).toHaveLength(formulaOf(entry, layout).length);
    }
  });
});
