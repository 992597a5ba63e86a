import { expect, test } from "vitest";
import { cellName, moveFormula, readCellName } from "../../functions/formula/addresses";

test("names of cells, there and back", () => {
  expect(cellName(7, 2)).toBe("C8");
  expect(cellName(0, 25)).toBe("Z1");
  expect(cellName(0, 26)).toBe("AA1");
  // The last column of a sheet of Excel's.
  expect(cellName(0, 16383)).toBe("XFD1");
  for (let column = 0; column < 16384; column++) {
    expect(readCellName(cellName(4, column))).toEqual({ row: 4, column });
  }
});

test("a sheet that moves takes every reference along", () => {
  expect(moveFormula("=MIST.FLOZCOST(C8,$D8,E$8,$F$8)", 2, 1)).toBe(
    "=MIST.FLOZCOST(D10,$E10,F$10,$G$10)",
  );
  expect(moveFormula("=SUM(A1:B2)", 1, 25)).toBe("=SUM(Z2:AA3)");
});

test("a formula that is filled keeps what $ holds", () => {
  expect(moveFormula("=I8/MIN(I$8:I$13)+$A$1+$B2", 1, 1, true)).toBe("=J9/MIN(J$8:J$13)+$A$1+$B3");
});

test("texts, names of functions and numbers are left as they are", () => {
  expect(moveFormula('=IF(A1="","A1 and B2",LOG10(A1)*1.5E3)', 1, 0)).toBe(
    '=IF(A2="","A1 and B2",LOG10(A2)*1.5E3)',
  );
  expect(moveFormula('=IF(A1="","say ""B2""",C3)', 1, 0)).toBe('=IF(A2="","say ""B2""",C4)');
});
