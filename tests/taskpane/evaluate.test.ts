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
  "H1:H5": [["Birch"], ["birch leaf"], [null], [""], [7]],
  "I1:I5": [[10], [20], [40], [80], [{ fault: "#N/A" }]],
  "J1:J3": [["12"], [12], ["12-1"]],
  "K1:K2": [["a*b"], ["axb"]],
  "L1:M2": [
    ["x", 1],
    [null, "y"],
  ],
};
const nowhere = () => Promise.reject(new Untold());
const references = {
  here: { row: 4, column: 1 },
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

  // By hand, from Microsoft's pages on each function.
  test.each<[string, unknown]>([
    ["COUNT(F1:F4,A5)", 1],
    ["SUM(A1>0,2)", 3],
    ["COUNTA(H1:H5)", 4],
    ["COUNTA(A2,A4,A5)", 2],
    ["COUNTBLANK(H1:H5)", 2],
    ["ISNUMBER(A6)", false],
    ["ISNUMBER(A5)", false],
    ["ISTEXT(A4)", true],
    ["ISTEXT(A2)", false],
    ["ISBLANK(A4)", false],
    ["ISERROR(A5)", true],
    ["ISERROR(A2/A2)", true],
    ["NOT(A2)", true],
    ["AND(A1>50,A2)", true],
    ["AND(F1:F4)", true],
    ["OR(A3,A2)", { fault: "#VALUE!" }],
    ["AND(A1<50,A5)", { fault: "#DIV/0!" }],
    ["OR(A1=60,A1=70)", true],
    ["MATCH(2,B1:B3,0)", 2],
    ['MATCH("BIRCH",H1:H5,0)', 1],
    ['MATCH("birch l*",H1:H5,0)', 2],
    ['MATCH("7",H1:H5,0)', { fault: "#N/A" }],
    ["MATCH(A2,H1:H5,0)", { fault: "#N/A" }],
    ['MATCH("",H1:H5,0)', 4],
    ['MATCH("a~*b",K1:K2,0)', 1],
    ["MATCH(A5,B1:B3,0)", { fault: "#DIV/0!" }],
    ["MATCH(7,D1:E1,0)", 2],
    ["INDEX(I1:I5,3)", 40],
    ["INDEX(D1:E1,2)", 7],
    ["INDEX(L1:M2,2,2)", "y"],
    ["INDEX(I1:I5,6)", { fault: "#REF!" }],
    ['INDEX(H1:H5,3)=""', true],
    ["SUM(INDEX(L1:M2,0,2))", 1],
    ['COUNTIF(H1:H5,"birch")', 1],
    ['COUNTIF(H1:H5,"birch*")', 2],
    ['COUNTIF(H1:H5,"")', 2],
    ['COUNTIF(H1:H5,"=")', 1],
    ['COUNTIF(H1:H5,"<>")', 4],
    ['COUNTIF(H1:H5,"<>birch")', 4],
    ['COUNTIF(I1:I5,">=20")', 3],
    ['COUNTIF(I1:I5,"<"&A1)', 3],
    ["COUNTIF(B1:B3,A2)", 0],
    ['COUNTIFS(H1:H5,"?*",I1:I5,">10")', 1],
    ['SUMIF(H1:H5,"birch*",I1:I5)', 30],
    ['SUMIF(B1:B3,">1")', 5],
    ["SUMIF(H1:H5,7,I1:I5)", { fault: "#N/A" }],
    ['SUMIFS(I1:I5,H1:H5,"<>7",I1:I5,">10")', 140],
    ['AVERAGEIFS(I1:I5,H1:H5,"oak")', { fault: "#DIV/0!" }],
    ['MINIFS(I1:I5,H1:H5,"oak")', 0],
    ['MAXIFS(I1:I5,H1:H5,"birch*")', 20],
    ["SUMPRODUCT(B1:B3,{4;5;6})", 32],
    ['SUMPRODUCT(--(H1:H5<>""))', 3],
    ["SUMPRODUCT(F1:F4)", 4],
    ["SMALL(B1:B3,2)", 2],
    ["SMALL(B1:B3,4)", { fault: "#NUM!" }],
    ["CHOOSE(2,1/0,A1)", 60],
    ["CHOOSE(3,1,2)", { fault: "#VALUE!" }],
    ["IFERROR(A1,1/0)", 60],
    ["ROW()", 5],
    ["COLUMN()", 2],
    ["ROW()-ROW(A3)", 2],
    ["ROWS(A1:A20009)", 20009],
    ["COLUMNS(A:C)", 3],
    ["ISERROR(NA())", true],
    ['TEXTJOIN("; ",TRUE,A4,"a",A2,7)', "a; 7"],
    ['TEXTJOIN("-",FALSE,"a",A2,"b")', "a--b"],
    ['LEFT("Over the limit",4)', "Over"],
    ['TRIM("  two   words ")', "two words"],
    ['SUBSTITUTE(LOWER("4 X 250")," ","")', "4x250"],
    ['"fl oz"="g/mL"', false],
  ])("%s", async (expression, expected) => {
    expect(await one(expression)).toEqual(expected);
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
    // Whether a number that is typed as a text counts, and what a text is a date, a language says.
    "COUNTIF(J1:J3,12)",
    'COUNTIF(J1:J3,"12-1")',
    'COUNTIF(B1:B3,">0.5")',
    'COUNTIF(H1:H5,">b")',
    "MATCH(A2,{1,0},0)",
    // The nearest, lists of keys, ranges of unlike size.
    "MATCH(2,B1:B3)",
    "MATCH(2,B1:B3,1)",
    "MATCH(B1:B3,B1:B3,0)",
    "COUNTIF(B1:B3,B1:B3)",
    "SUMIF(B1:B3,1,I1:I5)",
    "SUMPRODUCT(B1:B3,C1:C2)",
    "ROW(B1:B3)",
    'SUM(IF(A1>0,"",1))',
    'COUNT(IF(A1>0,"12",1))',
    'AND(A1>50,A3&"")',
    'TEXT(A1,"0.0")',
  ])("%s", async (expression) => {
    await expect(worked(expression)).rejects.toThrow(Untold);
  });
});
