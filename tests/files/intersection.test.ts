import { expect, test } from "vitest";
import { intersected } from "../../functions/files/intersection";

// ECMA-376 part 1, 18.17.2.7: of a range that is reckoned with, the cell in the formula's own row or column.
test.each([
  ["A1:A3*2", "A2*2"],
  ["SUM(A1:A3)*2", "SUM(A1:A3)*2"],
  ["SUM(A1:A3)+A1:A3", "SUM(A1:A3)+A2"],
  ["IF(SUM(A1:A3)>0,MAX((B1:B3)*2),1)", "IF(SUM(A1:A3)>0,MAX(B1:B3*2),1)"],
  // Words and names of sheets that look like a call around the range.
  ['"f("&A1:A3&")"', '"f("&A2&")"'],
  ["'s(1'!A1:A3&'t)'!A1:A3", "'s(1'!A2&'t)'!A2"],
])("in C2, %s is %s", (formula, read) => {
  expect(intersected(formula, "C2")).toBe(read);
});
