import { describe, expect, test } from "vitest";
import { CONDITION_WORDS, conditionIn } from "../../functions/catalog/conditions";
import { inWords, whenInWords } from "../../functions/generate/in-words";
import { FUNCTIONS } from "../../functions/native/functions";
import { MEANINGS } from "../../functions/working/meanings";

describe("the words of conditions", () => {
  test("are those that a native formula can say, besides what working lines may call", () => {
    const inCells = Object.keys(FUNCTIONS).filter((name) => !(name in MEANINGS));
    expect(inCells.sort()).toEqual(Object.keys(CONDITION_WORDS).sort());
  });
});

describe("a reader is told in words", () => {
  // By hand.
  test.each([
    ["isunit(unit) and not isweight(unit)", "unit is a unit and unit is not a unit of weight"],
    ['same(basis, "base") or oil >= 0', 'basis is "base" or oil ≥ 0'],
    ['not same(scale, "F")', 'scale is not "F"'],
    [
      "isweight(from) == isweight(to)",
      "(from is a unit of weight exactly when to is a unit of weight)",
    ],
    ["counts == floor(counts)", "counts = the whole part of counts"],
    ["a != 2 * (b + c)", "a ≠ 2 × (b + c)"],
    ["not free", "not free"],
    ["sum(amounts) > 0", "sum(amounts) > 0"],
  ])("%s", (expression, words) => {
    expect(inWords(expression)).toBe(words);
  });

  test("where a line applies", () => {
    expect(whenInWords("basis is base")).toBe('basis is "base"');
    expect(whenInWords("counts not given")).toBe("counts is not given");
    expect(whenInWords("not isrow")).toBe("the range is not a row");
    expect(conditionIn("counts given")).toEqual({ sort: "given", name: "counts", given: true });
  });
});
