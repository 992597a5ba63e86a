import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { NAMESPACE } from "../../functions/catalog/entry";
import { readResult } from "../../functions/catalog/examples";
import { newModel, read, write } from "./load-engine";
import { cellName } from "../../functions/formula/addresses";

describe("every @example, typed into the local sheet", () => {
  const examples = catalog.flatMap((entry) => entry.examples);
  test.each(examples)("$formula", ({ formula, result }) => {
    const model = newModel();
    write(model, "B2", `=${NAMESPACE}.${formula}`);
    readResult(result).forEach((row, i) =>
      row.forEach(({ value, within }, j) => {
        const got = read(model, cellName(1 + i, 1 + j));
        if (typeof value === "string") expect(got).toBe(value);
        else expect(Math.abs((got as number) - value), String(got)).toBeLessThanOrEqual(within);
      }),
    );
  });
});

describe("cells of the local sheet", () => {
  test("ranges by column and by row, blanks, words and errors", () => {
    const model = newModel();
    ["60", "120", "", "x", "=1/0"].forEach((content, i) => write(model, `A${i + 1}`, content));
    write(model, "C1", "=MIST.OILFOR(A1:A5,5%)");
    expect(["C1", "C2", "C3", "C4", "C5"].map((name) => read(model, name))).toEqual([
      3,
      6,
      "",
      '#VALUE! batch must be a number, got "x"',
      expect.stringMatching(/^#DIV\/0! /),
    ]);
    write(model, "B10", "5%");
    write(model, "C10", "10%");
    write(model, "E1", "=MIST.OILFOR(A1:A2,B10:C10)");
    expect(["E1", "F1", "E2", "F2"].map((name) => read(model, name))).toEqual([3, 6, 6, 12]);
  });

  test("a percent typed as a whole number, a blank line, a unit off the list", () => {
    const model = newModel();
    write(model, "A1", "=MIST.OILFOR(60,5)");
    write(model, "A2", "=MIST.FLOZCOST(B2,C2,D2)");
    write(model, "A3", '=MIST.TURN(1,"cup","mL")');
    write(model, "A4", '=MIST.TURN(1,"lb","floz")');
    write(model, "A5", '=IFERROR(MIST.OILFOR(60,5),"caught")');
    expect(read(model, "A1")).toBe("#VALUE! load must be from 0 % to 100 %, got 500 %: type 5 %");
    expect(read(model, "A2")).toBe("");
    expect(read(model, "A3")).toMatch(/^#VALUE! from must be a weight .* got "cup"$/);
    expect(read(model, "A4")).toMatch(/^#VALUE! density is needed/);
    expect(read(model, "A5")).toBe("caught");
  });

  test("unequal lengths show #N/A, and an error passes through a chain", () => {
    const model = newModel();
    ["60", "120", "180"].forEach((content, i) => write(model, `A${i + 1}`, content));
    ["5%", "10%"].forEach((content, i) => write(model, `B${i + 1}`, content));
    write(model, "C1", "=MIST.OILFOR(A1:A3,B1:B2)");
    expect(read(model, "C2")).toBe(12);
    expect(read(model, "C3")).toMatch(/^#N\/A/);
    write(model, "D1", "=MIST.BASEFOR(MIST.OILFOR(60,5),5%)");
    expect(read(model, "D1")).toBe("#VALUE! load must be from 0 % to 100 %, got 500 %: type 5 %");
  });

  test("an answer that would cover a filled cell does not", () => {
    const model = newModel();
    write(model, "B2", "mine");
    write(model, "A1", "=MIST.OILFOR({60;120},{5%,10%})");
    expect(read(model, "A1")).toMatch(/^#SPILL!/);
    expect(read(model, "B2")).toBe("mine");
  });
});

test.each([
  ["SEQUENCE(1000000,100)", "#VALUE! SEQUENCE would make 100,000,000 cells"],
  ["RANDARRAY(1E9)", "#VALUE! RANDARRAY would make 1,000,000,000 cells"],
  ["MUNIT(1E5)", "#VALUE! MUNIT would make 10,000,000,000 cells"],
  ["EXPAND(A1,1E6,1000,0)", "#VALUE! EXPAND would make 1,000,000,000 cells"],
])("%s is refused in words, at once", (formula, told) => {
  const model = newModel();
  write(model, "B1", `=SUM(${formula})`);
  expect(read(model, "B1")).toBe(`${told}; at most 2,097,152 are made here.`);
});

test("a list of a size that one needs is made", () => {
  const model = newModel();
  write(model, "B1", "=SUM(SEQUENCE(1000,10))");
  // By hand: 10,000 × 10,001 / 2.
  expect(read(model, "B1")).toBe(50_005_000);
  write(model, "B2", "=SUM(MUNIT(3))");
  expect(read(model, "B2")).toBe(3);
  write(model, "B3", '=SEQUENCE("many")');
  expect(read(model, "B3")).toMatch(/^#VALUE!|^#ERROR/);
});

test("an error is red and bold, so that one sees it at arm's length", () => {
  const model = newModel();
  const sheetId = model.getters.getActiveSheetId();
  const styleOf = (col: number) => model.getters.getCellComputedStyle({ sheetId, col, row: 0 });
  write(model, "A1", "=MIST.OILFOR(60,5)");
  write(model, "B1", "=MIST.OILFOR(60,5%)");
  expect(styleOf(0)).toMatchObject({ textColor: "#A3261B", bold: true });
  expect(styleOf(1).bold).toBeUndefined();
  // Mended, it is as it was.
  write(model, "A1", "=MIST.OILFOR(60,5%)");
  expect(styleOf(0).textColor).toBeUndefined();
});
