/** Formulas as trees: what is read, and what is written back. */
import { describe, expect, test } from "vitest";
import { nativeFormula } from "../../functions/files/native-formula";
import { ourCalls } from "../../functions/formula/ours";
import { readFormula, withoutLets } from "../../functions/formula/reader";
import { branchesOf, plainName } from "../../functions/formula/tree";
import { storedFormula, typedFormula, writeFormula } from "../../functions/formula/writer";

const native = (formula: string) => nativeFormula(readFormula(formula), () => null);

describe("the names of functions", () => {
  // The prefixes are those of Excel's file format ([MS-XLSX] 2.2.2.1), and of add-ins' functions in it.
  test.each([
    ["SUM", "SUM"],
    ["_xlfn.IFNA", "IFNA"],
    ["_xlfn._xlws.SORT", "SORT"],
    ["_xlws.FILTER", "FILTER"],
    ["_xludf.Foo", "FOO"],
    ["_xldudf_MIST_OILFOR", "MIST_OILFOR"],
    ["_xlfn._xldudf_MIST_OILFOR", "MIST_OILFOR"],
  ])("%s", (name, plain) => expect(plainName(name)).toBe(plain));

  test("a newer function in a call is known by its name: no array formula, no longer than an old one", () => {
    const old = native("MIST.OILFOR(IFERROR(A2,0),5%)");
    const newer = native("MIST.OILFOR(_xlfn.IFNA(A2,0),5%)");
    expect(newer.text.replaceAll("_xlfn.IFNA", "IFERROR")).toBe(old.text);
    expect(newer.array).toBe(false);
  });

  test("a look-up that may give several cells is not taken for one", () => {
    expect(native("MIST.OILFOR(_xlfn.XLOOKUP(A2,B2:B9,C2:C9),5%)").array).toBe(false);
    expect(native("MIST.OILFOR(_xlfn.XLOOKUP(A2,B2:B9,C2:E9),5%)").array).toBe(true);
  });

  test.each(["MIST.OILFOR(60,5%)", "_xldudf_MIST_OILFOR(60,5%)", "_xludf.mist_oilfor(60,5%)"])(
    "%s is a call of ours",
    (formula) => {
      expect(ourCalls(readFormula(formula))).toHaveLength(1);
      expect(typedFormula(readFormula(formula))).toBe("=MIST.OILFOR(60,5%)");
      expect(storedFormula(formula)).toBe("_xldudf_MIST_OILFOR(60,5%)");
    },
  );

  test("a name that only ends like ours is none", () => {
    expect(ourCalls(readFormula("XMIST.OILFOR(60,5%)"))).toEqual([]);
    expect(ourCalls(readFormula("MIST.OILFORX(60,5%)"))).toEqual([]);
  });
});

describe("a tree is written as it was read, with the brackets that it needs", () => {
  test.each([
    "-A1^2",
    "-(A1^2)",
    "(A1+B1)*C1",
    "A1-(B1-C1)",
    "A1/(B1*C1)",
    "A1=(B1=C1)",
    "A1&(B1=C1)",
    "(A1+1)%",
    "SUM((A1:A3,C1:C3))",
    "SUM(A1:C3 B2:D4)",
    "A1:INDEX(B:B,3)",
    'IF(A1="say ""no""",,{1,2;"a",TRUE})',
    "_xlfn.ANCHORARRAY(A1)*2",
    "A1#*2",
    "#REF!+1",
    "_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2)(A1)",
  ])("%s", (formula) => expect(writeFormula(readFormula(formula))).toBe(formula));
});

describe("LAMBDA and LET", () => {
  test("a call of ours in a LAMBDA that is called where it stands is found", () => {
    const tree = readFormula("_xlfn.LAMBDA(_xlpm.x,MIST.OILFOR(_xlpm.x,5%))(60)");
    expect(ourCalls(tree)).toHaveLength(1);
    expect(native("LAMBDA(x,MIST.OILFOR(60,5%))(1)").text).toBe("LAMBDA(x,3)(1)");
  });

  test("names of LET stand for what they are, in both ways to write it", () => {
    const plain = (formula: string) => writeFormula(withoutLets(readFormula(formula)));
    expect(plain("LET(b,60,l,b/1000,MIST.OILFOR(b,l))")).toBe("MIST.OILFOR(60,60/1000)");
    expect(plain("_xlfn.LET(_xlpm.b,A1,_xlpm.b+1)")).toBe("A1+1");
    expect(plain("LET(b,60,LAMBDA(x,x+b)(1))")).toBe("LAMBDA(x,x+60)(1)");
  });
});

test("a formula comes to itself, or to what stands in the branches of an IF", () => {
  const written = branchesOf(readFormula('=IF(A1,"no",IF(B1,C1+1,D1))')).map((each) =>
    writeFormula(each),
  );
  expect(written).toEqual(['"no"', "C1+1", "D1"]);
  expect(branchesOf(readFormula("=1+IF(A1,2,3)"))).toHaveLength(1);
});

test("a number in an array has its sign, as Excel takes it", () => {
  expect(writeFormula(readFormula('={-1,2;+3,"{-"}'))).toBe('{-1,2;3,"{-"}');
  expect(writeFormula(readFormula("=SUM({-5%, -2.5E3})-2"))).toBe("SUM({-0.05,-2.5E3})-2");
  // Elsewhere it is an operator, which binds more than the power does: -2^2 is 4.
  expect(readFormula("=-2^2")).toMatchObject({ operator: "^" });
});
