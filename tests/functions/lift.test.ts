import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog";
import { worksheetFunction } from "../../functions/register";

const sheet = Object.fromEntries(catalog.map((entry) => [entry.id, worksheetFunction(entry)]));
const value = (text: string) => ({ fault: "#VALUE!", text });

describe("ranges broadcast and spill as in Excel", () => {
  test("a column beside a single cell", () => {
    expect(sheet.OILFOR([[60], [120]], 0.05)).toEqual([[3], [6]]);
    expect(sheet.OILFOR([[60], [120]], [[0.05]])).toEqual([[3], [6]]);
  });

  test("a row with a column gives a grid", () => {
    expect(sheet.OILFOR([[100, 200]], [[0.1], [0.2]])).toEqual([
      [10, 20],
      [20, 40],
    ]);
  });

  test("unequal lengths give #N/A where one has ended", () => {
    const got = sheet.OILFOR([[60], [120], [180]], [[0.05], [0.1]]);
    expect(got.slice(0, 2)).toEqual([[3], [12]]);
    expect(got[2][0]).toEqual({
      fault: "#N/A",
      text: "the ranges are of unlike length: this one has ended",
    });
  });

  test("a grid beside a row", () => {
    const got = sheet.OILFOR(
      [
        [100, 200],
        [300, 400],
      ],
      [[0.1, 0.2]],
    );
    expect(got).toEqual([
      [10, 40],
      [30, 80],
    ]);
  });

  test("a word may be a range too", () => {
    expect(sheet.OILFOR(63, 0.05, [["base"], ["finished"]])).toEqual([[3], [3.1500000000000004]]);
    expect(sheet.TURN([[1], [1]], [["lb"], ["kg"]], "g")).toEqual([[453.59237], [1000]]);
  });

  test("answers of two cells lie across a column of lines and down a row of them", () => {
    const [[addOil, addBase]] = sheet.SETRIGHT(2, 57, 0.05);
    expect(sheet.SETRIGHT([[4], [2]], 57, 0.05)).toEqual([
      [0, 19],
      [addOil, addBase],
    ]);
    expect(sheet.SETRIGHT([[4, 2]], 57, 0.05)).toEqual([
      [0, addOil],
      [19, addBase],
    ]);
    expect(sheet.SETRIGHT([[4, 2]], [[57], [57]], 0.05)).toEqual([
      [value("SETRIGHT answers with 2 cells: give it one row or one column")],
    ]);
  });

  test("a failed line shows its error in every cell of its answer", () => {
    const [first, second] = sheet.SETRIGHT([[4], [2]], [[57], ["x"]], 0.05);
    expect(first).toEqual([0, 19]);
    expect(second).toEqual([
      value('base must be a number, got "x"'),
      value('base must be a number, got "x"'),
    ]);
  });
});

describe('blanks: 0, null and "" are alike', () => {
  test.each([[0], [null], [""], [undefined]])("%s", (blank) => {
    expect(sheet.OILFOR(blank, blank)).toEqual([[""]]);
    expect(sheet.OILFOR(blank, 0.05)).toEqual([[0]]);
    expect(sheet.FLOZCOST(blank, 16, "floz")).toEqual([[value("price is blank or zero")]]);
    expect(sheet.FLOZCOST(12, blank, "floz")).toEqual([[value("size is blank or zero")]]);
    expect(sheet.FLOZCOST(12, 16, blank)).toEqual([[value("unit is blank")]]);
    expect(sheet.FLOZCOST(12, 1, "lb", blank)).toEqual([
      [
        value(
          "density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
        ),
      ],
    ]);
    expect(sheet.TURN(blank, "g", "oz")).toEqual([[0]]);
    expect(sheet.LEASTBATCH(0.05, 0.1, blank)).toEqual([[40]]);
    expect(sheet.OILFOR(63, 0.05, blank)).toEqual(sheet.OILFOR(63, 0.05));
  });

  test("spare lines of a table are blank, half-filled ones are not", () => {
    const got = sheet.FLOZCOST([[12.8], [""], [""], [5]], [[128], [""], [16], [0]], "floz");
    expect(got).toEqual([
      [0.1],
      [""],
      [value("price is blank or zero")],
      [value("size is blank or zero")],
    ]);
  });

  test("a blank in a range that is read whole", () => {
    expect(sheet.BLENDOF([[1], [""]], [[3], [9]])).toEqual([[3]]);
    expect(sheet.BLENDOF([[""], [""]], [[""], [""]])).toEqual([[""]]);
    expect(sheet.SIZERUN([[1], [null]], [[60, 30]], [[2, ""]])).toEqual([
      [120, 0],
      [0, 0],
    ]);
  });
});

describe("zero degrees are degrees", () => {
  test("given, not blank and not the default", () => {
    // A flash point may be a blank that a host hands over as 0.
    expect(sheet.FLAMECLASS(0, 0)).toEqual([
      [value("flash is blank or zero: for 0 degrees type 0.01")],
    ]);
    expect(sheet.FLAMECLASS(0.01, 100)).toEqual([[2]]);
    expect(sheet.FLAMECLASS("", "")).toEqual([[""]]);
    expect(sheet.FLAMECLASS("", 78)).toEqual([[""]]);
    expect(sheet.SPIRITDENSITY(0.9, "weight", 0)).not.toEqual(sheet.SPIRITDENSITY(0.9, "weight"));
    expect(sheet.SPIRITDENSITY(0.9, "weight", "")).toEqual(sheet.SPIRITDENSITY(0.9, "weight"));
  });
});

describe("wrong input gets a text, and never NaN", () => {
  test("5 in place of 5 %", () => {
    const text = "load must be from 0 % to 100 %, got 500 %: type 5 %";
    expect(sheet.OILFOR(60, 5)).toEqual([[value(text)]]);
    expect(sheet.OILFOR([[60], [60]], [[0.05], [5]])).toEqual([[3], [value(text)]]);
  });

  test("words, truth values and numbers kept as text", () => {
    expect(sheet.OILFOR("sixty", 0.05)).toEqual([[value('batch must be a number, got "sixty"')]]);
    expect(sheet.OILFOR(true, 0.05)).toEqual([[value("batch must be a number, got TRUE")]]);
    expect(sheet.OILFOR("60", 0.05)).toEqual([
      [
        value(
          'batch must be a number, got "60", which is text: retype it in a cell that is not formatted as text',
        ),
      ],
    ]);
    expect(sheet.OILFOR(60, 0.05, 3)).toEqual([
      [value('basis must be "finished" or "base", got "3"')],
    ]);
  });

  test("not a number and infinity, in and out", () => {
    expect(sheet.OILFOR(Number.NaN, 0.05)[0][0]).toMatchObject({ fault: "#VALUE!" });
    expect(sheet.TURN(1e308, "kg", "mg")).toEqual([
      [value("the result is too large for a cell: check the sizes of the inputs")],
    ]);
  });

  test("a range where one word is expected, and an empty range", () => {
    expect(sheet.OILFOR([], 0.05)).toEqual([[0]]);
    expect(sheet.OILFOR([[]], [])).toEqual([[""]]);
  });
});

describe("an error passed in passes through", () => {
  const division = { type: "Error", basicValue: "#DIV/0!" };

  test("as Excel's error value, or as the error that a function returned", () => {
    expect(sheet.OILFOR(division, 0.05)).toEqual([[{ fault: "#DIV/0!", text: undefined }]]);
    expect(sheet.OILFOR({ code: "#N/A", message: "none" }, 0.05)).toEqual([
      [{ fault: "#N/A", text: "none" }],
    ]);
  });

  test("only its own line fails, unless the range is read whole", () => {
    expect(sheet.OILFOR([[60], [division]], 0.05)).toEqual([
      [3],
      [{ fault: "#DIV/0!", text: undefined }],
    ]);
    expect(sheet.BLENDOF([[1], [division]], [[3], [9]])).toEqual([
      [{ fault: "#DIV/0!", text: undefined }],
    ]);
  });

  test("it goes before any other complaint", () => {
    expect(sheet.OILFOR("x", division)).toEqual([[{ fault: "#DIV/0!", text: undefined }]]);
  });
});

test("values that the host wraps in objects are unwrapped", () => {
  const sixty = { type: "FormattedNumber", basicValue: 60, numberFormat: "0.00" };
  expect(sheet.OILFOR(sixty, { type: "Double", basicValue: 0.05 })).toEqual([[3]]);
  expect(sheet.OILFOR({ type: "Empty" }, 0.05)[0][0]).toMatchObject({ fault: "#VALUE!" });
  expect(sheet.OILFOR({ type: "Empty", basicValue: "" }, 0.05)).toEqual([[0]]);
});
