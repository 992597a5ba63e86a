import { describe, expect, test } from "vitest";
import type { Grid } from "../../functions/bind/cell";
import { readFormula } from "../../functions/formula/reader";
import { Untold, evaluate } from "../../taskpane/working/evaluate";

const ranges: Record<string, Grid> = {
  A1: [[60]],
  A2: [[null]],
  A3: [["words"]],
  A4: [[""]],
  A5: [[{ fault: "#DIV/0!" }]],
  A6: [["12"]],
  "B1:B3": [[1], [2], [3]],
  "C1:C2": [[10], [20]],
  "D1:E1": [[5, 7]],
  "F1:F4": [[4], ["x"], [true], [null]],
  G1: [["1.6.2026"]],
};
const nowhere = () => Promise.reject(new Untold());
const references = {
  range: async (text: string) => ranges[text] ?? nowhere(),
  spill: nowhere,
  name: nowhere,
  table: nowhere,
};
const worked = (expression: string) => evaluate(readFormula(expression), references);
const one = async (expression: string) => (await worked(expression))[0][0];

describe("small expressions, as Excel works them out", () => {
  // By hand, from Microsoft's pages on each operator and function.
  test.each<[string, unknown]>([
    ["A1*2", 120],
    ["-A1^2", 3600],
    ["2^3^2", 64],
    ["A1*5%", 3],
    ["1-A2", 1],
    ["0.1+0.2-0.3", 0],
    ["10/4", 2.5],
    ["A1/A2", { fault: "#DIV/0!" }],
    ["0^0", { fault: "#NUM!" }],
    ["(-8)^(1/3)", { fault: "#NUM!" }],
    ["A5+1", { fault: "#DIV/0!" }],
    ["A1=60", true],
    ['A3="WORDS"', true],
    ["A2=0", true],
    ['A2=""', true],
    ["1<TRUE", true],
    ['2>"a"', false],
    ["0.1+0.2=0.3", true],
    ['"lot "&7', "lot 7"],
    ["SUM(B1:B3,4)", 10],
    ["SUM(F1:F4)", 4],
    ["COUNT(F1:F4)", 1],
    ["AVERAGE(B1:B3)", 2],
    ["AVERAGE(A2)", { fault: "#DIV/0!" }],
    ["MIN(A2)", 0],
    ["MAX(B1:B3,A1)", 60],
    ["SUM(B1:B3,A5)", { fault: "#DIV/0!" }],
    ["ROUND(2.675,2)", 2.68],
    ["ROUND(-2.5,0)", -3],
    ["ROUND(1234,-2)", 1200],
    ["ROUNDUP(2.1,0)", 3],
    ["ROUNDUP(-2.1,0)", -3],
    ["ROUNDDOWN(2.99,1)", 2.9],
    ["ROUNDUP(0.1+0.2,1)", 0.3],
    ["INT(-1.5)", -2],
    ["MOD(-3,2)", 1],
    ["SQRT(-1)", { fault: "#NUM!" }],
    ["IF(A1>50,A1,1/0)", 60],
    ["IF(A1<50,1)", false],
    ["IFERROR(1/A2,7)", 7],
    ["MIST.OILFOR(A1,5%)*2", 6],
  ])("%s", async (expression, expected) => {
    const value = await one(expression);
    if (typeof expected === "number") expect(value).toBeCloseTo(expected, 12);
    else expect(value).toEqual(expected);
  });

  test("ranges stretch over each other, and end in #N/A", async () => {
    expect(await worked("B1:B3*2")).toEqual([[2], [4], [6]]);
    expect(await worked("C1:C2+D1:E1")).toEqual([
      [15, 17],
      [25, 27],
    ]);
    expect(await worked("B1:B3+C1:C2")).toEqual([[11], [22], [{ fault: "#N/A" }]]);
    expect(await worked("IF(B1:B3>1,B1:B3,0)")).toEqual([[0], [2], [3]]);
  });
});

describe("what hangs on the computer's language, or is not known, is not guessed at", () => {
  test.each([
    "A6*2",
    "A4+1",
    "G1+1",
    "A3*2",
    '1.5&" g"',
    '"é"<"f"',
    "VLOOKUP(A1,B1:B3,1)",
    "TODAY()",
    "NOW()-1",
    "@B1:B3",
    "B1:B3 C1:C2",
    "INDIRECT(A3)",
    "Z9",
    "[Book2.xlsx]Sheet1!A1",
    "SUM(A6)*SUM(Z9)",
    'SUM("12")',
    'IF("yes",1,2)',
  ])("%s", async (expression) => {
    await expect(worked(expression)).rejects.toThrow(Untold);
  });
});
