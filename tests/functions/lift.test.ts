import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { Param } from "../../functions/catalog/entry";
import { readCall } from "../../functions/catalog/examples";
import { KINDS, WORD_KINDS, zeroOf } from "../../functions/catalog/kinds";
import { keysOf } from "../../src/lists";
import { register, worksheetFunction } from "../../functions/bind/register";

const sheet = Object.fromEntries(catalog.map((entry) => [entry.id, worksheetFunction(entry)]));
const value = (text: string) => ({ fault: "#VALUE!", text });

const isWord = ({ kind }: Param) => WORD_KINDS.has(kind);

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

describe('blanks: null and "" are unknown, never zero', () => {
  const blanks: [unknown][] = [[null], [""], [undefined]];

  test.each(blanks)("%s beside what is filled is told", (blank) => {
    const isBlank = (name: string) => [[value(`${name} is blank`)]];
    expect(sheet.OILFOR(blank, blank)).toEqual([[""]]);
    expect(sheet.OILFOR(blank, 0.05)).toEqual(isBlank("batch"));
    expect(sheet.OILFOR(60, blank)).toEqual(isBlank("load"));
    expect(sheet.BASEFOR(60, blank)).toEqual(isBlank("load"));
    expect(sheet.LOADOF(3, blank)).toEqual(isBlank("base"));
    expect(sheet.SETRIGHT(3, blank, 0.05)).toEqual(isBlank("base"));
    expect(sheet.ASKPRICE(10, blank)).toEqual(isBlank("margin"));
    expect(sheet.KEEPRATE(20, blank)).toEqual(isBlank("cost"));
    expect(sheet.EVENPOINT(100, 20, blank)).toEqual(isBlank("cost"));
    expect(sheet.SPIRITMARRY(40, blank, 60, 0)).toEqual(isBlank("abva"));
    expect(sheet.FLOZCOST(blank, 16, "floz")).toEqual(isBlank("price"));
    expect(sheet.FLOZCOST(12, blank, "floz")).toEqual(isBlank("size"));
    expect(sheet.FLOZCOST(12, 16, blank)).toEqual([[value("unit is blank")]]);
  });

  test.each(blanks)("%s in what may be left out takes the default", (blank) => {
    expect(sheet.LEASTBATCH(0.05, 0.1, blank)).toEqual([[40]]);
    expect(sheet.OILFOR(63, 0.05, blank)).toEqual(sheet.OILFOR(63, 0.05));
    expect(sheet.FLOZCOST(12, 1, "lb", blank)).toEqual([
      [
        value(
          "density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
        ),
      ],
    ]);
  });

  test("a zero that was typed is a zero", () => {
    expect(sheet.OILFOR(0, 0.05)).toEqual([[0]]);
    expect(sheet.OILFOR(60, 0)).toEqual([[0]]);
    expect(sheet.SIZERUN([[0.95], [0.05]], 60, 0)).toEqual([[0], [0]]);
    expect(sheet.LEASTBATCH(0.05, 0.1, 0)).toEqual([[value("tolerance is blank or zero")]]);
    expect(sheet.FLOZCOST(0, 16, "floz")).toEqual([[value("price is blank or zero")]]);
    // A density is never zero: it is a blank that some hosts hand over as 0.
    expect(sheet.FLOZCOST(12.8, 128, "floz", 0)).toEqual([[0.1]]);
  });

  test("spare lines of a table are blank, half-filled ones are not", () => {
    const got = sheet.FLOZCOST([[12.8], [""], [""], [5]], [[128], [""], [16], [0]], "floz");
    expect(got).toEqual([[0.1], [""], [value("price is blank")], [value("size is blank or zero")]]);
  });

  test("what is typed once for many lines fills none of them", () => {
    expect(sheet.OILFOR([[60], [""], [0]], 0.05)).toEqual([[3], [""], [0]]);
    expect(sheet.OILFOR([[60], [""]], [[0.05], [0.05]])).toEqual([[3], [value("batch is blank")]]);
  });

  test("a blank in a range that is read whole", () => {
    expect(sheet.BLENDOF([[1], [2]], [[3], [""]])).toEqual([[value("values, cell 2, is blank")]]);
    expect(sheet.BLENDOF([[""], [""]], [[""], [""]])).toEqual([[""]]);
  });

  test("a whole column counts down to its last filled line", () => {
    const column = (...cells: unknown[]) =>
      Array.from({ length: 1_048_576 }, (_, i) => [cells[i] ?? null]);
    expect(sheet.OILFOR(column(60, 120, null, 60), 0.05)).toEqual([[3], [6], [""], [3]]);
    expect(sheet.BLENDOF(column(20, 25), column(0.95, 0.5))).toEqual([[0.7]]);
  });
});

describe("zero degrees may be a blank that the host hands over as 0", () => {
  const refused = (name: string, rest = "") => [
    [value(`${name} is blank or zero: for zero degrees type 0.001${rest}`)],
  ];

  test("where either would give an answer, it is refused, with what to type", () => {
    expect(sheet.FLAMECLASS(0, 78)).toEqual(refused("flash"));
    const rest = ", and for 20 leave it out of the formula";
    expect(sheet.SPIRITDENSITY(0.9, "weight", 0)).toEqual(refused("celsius", rest));
    expect(sheet.SPIRITCUT(100, "mL", 0.95, 0.7, 0)).toEqual(refused("celsius", rest));
    // 0.001 degrees are as good as none: the density moves by less than a millionth.
    const [[cold]] = sheet.SPIRITDENSITY(0.9, "weight", 0.001) as number[][];
    const [[colder]] = sheet.SPIRITDENSITY(0.9, "weight", -0.001) as number[][];
    expect(Math.abs(cold - colder)).toBeLessThan(2e-6);
  });

  test("where nothing stands in for a blank, it is one, and told where it is needed", () => {
    expect(sheet.FLAMECLASS(60, 0, "C")).toEqual([[3]]);
    expect(sheet.FLAMECLASS(17, 0, "C")).toEqual([
      [
        value(
          "boiling is needed below a flash point of 23 C (73.4 F), and is blank or zero: for zero degrees type 0.001",
        ),
      ],
    ]);
  });

  test("a whole line of zeros is a blank line, as of every other kind", () => {
    expect(sheet.FLAMECLASS(0, 0)).toEqual([[""]]);
    expect(sheet.FLAMECLASS(0)).toEqual([[""]]);
    expect(sheet.FLAMECLASS([[0], [17]], [[0], [20]])).toEqual([[""], [1]]);
  });

  test("a blank that comes as one is a blank", () => {
    expect(sheet.FLAMECLASS("", "")).toEqual([[""]]);
    expect(sheet.FLAMECLASS("", 78, "C")).toEqual([[""]]);
    expect(sheet.SPIRITDENSITY(0.9, "weight", "")).toEqual(sheet.SPIRITDENSITY(0.9, "weight"));
    expect(sheet.SPIRITDENSITY(0.9, "weight", null)).toEqual(sheet.SPIRITDENSITY(0.9, "weight"));
  });
});

describe("0, null and an empty text, for each kind of argument", () => {
  const singles = catalog.flatMap((entry) =>
    entry.params.filter(({ range }) => !range).map((param) => ({ entry, param })),
  );
  /** The first example's own arguments, with one of them as something else. */
  const withIn = (entry: (typeof catalog)[0], name: string, given: unknown) => {
    const { args } = readCall(entry.examples[0].formula);
    const at = entry.params.findIndex((param) => param.name === name);
    return sheet[entry.id](...entry.params.map((_, i) => (i === at ? given : (args[i] ?? null))));
  };

  test.each(singles)("$entry.id, $param.name ($param.kind)", ({ entry, param }) => {
    const [zero, none, empty] = [0, null, ""].map((given) => withIn(entry, param.name, given));
    expect(empty).toEqual(none);
    if (zeroOf(param.kind) === "blank" && (param.optional || isWord(param))) {
      expect(zero).toEqual(none);
    } else if (zeroOf(param.kind) === "unclear") {
      const isError = zero.flat().some((cell) => typeof cell === "object");
      // A boiling point that is not needed is not missed.
      expect(isError || param.default === undefined).toBe(true);
    } else {
      // What a zero gives may be an answer; what a blank gives is never the answer of a zero.
      if (!param.optional) expect(none.flat().some((cell) => typeof cell === "number")).toBe(false);
    }
  });

  test("docs/errors.md has every kind, under what a 0 of it is taken for", () => {
    const guide = readFileSync("docs/errors.md", "utf8");
    for (const kind of keysOf(KINDS)) {
      const row = guide
        .split("\n")
        .find((line) => line.startsWith("|") && line.includes(`\`${kind}\``));
      expect(row, kind).toMatch(
        { zero: /the number 0/, blank: /a blank/, unclear: /unclear/ }[zeroOf(kind)],
      );
    }
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
    expect(sheet.OILFOR([], 0.05)).toEqual([[value("batch is blank")]]);
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

describe("to the host go only errors that Excel takes from a function", () => {
  class HostError {
    constructor(
      readonly code: string,
      readonly message?: string,
    ) {}
  }
  const functions = new Map<string, (...args: unknown[]) => unknown>();
  const associate = (id: string, run: (...args: unknown[]) => unknown) => functions.set(id, run);
  register({ associate, Error: HostError });
  const given = (basicValue: string) =>
    functions.get("OILFOR")?.({ type: "Error", basicValue }, 0.05);

  test.each(["#VALUE!", "#N/A", "#DIV/0!", "#NUM!", "#NULL!"])("%s as it is", (code) => {
    expect(given(code)).toEqual([[new HostError(code)]]);
  });

  test.each(["#NAME?", "#REF!", "#SPILL!", "#CALC!", "#BUSY!", "#GETTING_DATA"])(
    "%s as #VALUE!, told in the text",
    (code) => {
      expect(given(code)).toEqual([[new HostError("#VALUE!", `an input is the error ${code}`)]]);
    },
  );
});

test("values that the host wraps in objects are unwrapped", () => {
  const sixty = { type: "FormattedNumber", basicValue: 60, numberFormat: "0.00" };
  expect(sheet.OILFOR(sixty, { type: "Double", basicValue: 0.05 })).toEqual([[3]]);
  expect(sheet.OILFOR({ type: "Empty" }, 0.05)[0][0]).toMatchObject({ fault: "#VALUE!" });
  expect(sheet.OILFOR({ type: "Empty", basicValue: "" }, 0.05)).toEqual([
    [value("batch is blank")],
  ]);
});
