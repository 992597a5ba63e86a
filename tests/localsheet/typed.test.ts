import { describe, expect, test } from "vitest";
import { languageOf } from "../../localsheet/language.ts";
import { readTyped } from "../../localsheet/typed.ts";

const english = languageOf("en-US");
const german = languageOf("de-DE");
const french = languageOf("fr-FR");
const PERCENT = "0.0%";

describe("a percentage, in a cell that is formatted as one", () => {
  // Microsoft, "Format numbers as percentages": typing 10 or 0.1 both result in 10.00%.
  test.each([
    ["10", "10%"],
    ["0.1", "10%"],
    // By hand, by the same rule.
    ["5", "5%"],
    ["5%", "5%"],
    ["5 %", "5%"],
    ["5\u202f%", "5%"],
    [".05", "5%"],
    ["0.05", "5%"],
    ["5,5 %", "5.5%"],
    ["5,5", "5.5%"],
    ["1", "1%"],
    ["0", "0%"],
    ["-5", "-5%"],
    ["100", "100%"],
    ["1,000", "1000%"],
    ["0.07", "7%"],
    ["0.29", "29%"],
    ["12.345 %", "12.345%"],
    ["+5", "5%"],
    ["+5 %", "5%"],
    ["\uff15\uff05", "5%"],
  ])("%s is %s", (typed, content) => {
    expect(readTyped(typed, PERCENT, english).content).toBe(content);
  });

  test.each(["=5%", "=0.05", "'5", ""])("%s stays as typed", (typed) => {
    expect(readTyped(typed, PERCENT, english)).toEqual({ content: typed });
  });

  test("a comma is decimal where the language has one", () => {
    expect(readTyped("1,250", PERCENT, german).content).toBe("1.25%");
    expect(readTyped("0,05", PERCENT, german).content).toBe("5%");
  });

  test.each([
    ["0.05 %", "0.05 % was typed: is it 5 %?"],
    ["0.1%", "0.1 % was typed: is it 10 %?"],
    [".001", "0.1 % was typed: is it 10 %?"],
    ["0.5", "0.5 was read as 50 %, as Excel does. For 0.5 % type it with its sign."],
    ["five", '"five" is kept as words. A percentage is typed as 5 %.'],
    ["5 % or so", '"5 % or so" is kept as words. A percentage is typed as 5 %.'],
    ["5", undefined],
    ["0.2 %", undefined],
    ["0", undefined],
  ])("%s is said back", (typed, doubt) => {
    expect(readTyped(typed, PERCENT, english).doubt).toBe(doubt);
  });
});

describe("money and other numbers", () => {
  test.each([
    ["$46", "46"],
    ["$ 46.00", "46.00"],
    ["46.00", "46.00"],
    ["46,50", "46.50"],
    ["1,046.50", "1046.50"],
    ["1.046,50", "1046.50"],
    ["1 046.50", "1046.50"],
    ["46 \u20ac", "46"],
    ["-$3", "-3"],
    ["1,500", "1500"],
    ["+46", "46"],
    ["\u00a546", "46"],
    ["46 \u20b9", "46"],
  ])("%s is %s", (typed, content) => {
    expect(readTyped(typed, "#,##0.00", english).content).toBe(content);
  });

  test("what groups in one language divides in another, and is said back where it may mislead", () => {
    expect(readTyped("1,500", "0.000", german).content).toBe("1.500");
    const read = readTyped("1.500", "0.000", german);
    expect(read.content).toBe("1.500");
    expect(read.doubt).toBe("1.500 was read with a decimal point. For thousands type no mark.");
    expect(readTyped("0.870", "0.000", german).doubt).toBeUndefined();
    // Two points can only group.
    expect(readTyped("1.000.000", "0", german)).toEqual({ content: "1000000", doubt: undefined });
  });

  test("a cell without a format keeps words, signs and names as they are", () => {
    for (const typed of ["$46", "5%", "Rain on Slate", "1/2", "A-12", "3,4,5", "12 34"])
      expect(readTyped(typed, "", english)).toEqual({ content: typed, doubt: undefined });
    expect(readTyped("5,5", "", german).content).toBe("5.5");
    // A name with a space behind it would be another name, and a lone space an empty cell that is not.
    expect(readTyped(" Kelp oil ", "", english).content).toBe("Kelp oil");
    expect(readTyped("  ", "0.00", english).content).toBe("");
    // The engine knows neither sign, and would keep words.
    expect(readTyped("\u00a546", "", english).content).toBe("46");
    expect(readTyped("\u221246", "", english).content).toBe("-46");
  });
});

describe("hours, in a cell whose format has an h", () => {
  const HOURS = '0.0" h"';

  // By hand: an hour has 60 minutes.
  test.each([
    ["2", "2"],
    ["2 h", "2"],
    ["2h", "2"],
    ["1.5 hrs", "1.5"],
    ["24 hours", "24"],
    ["1:30", "1.5"],
    ["1h30", "1.5"],
    ["1 h 30 min", "1.5"],
    ["90 min", "1.5"],
    ["90m", "1.5"],
    ["0:45", "0.75"],
  ])("%s is %s", (typed, content) => {
    expect(readTyped(typed, HOURS, english).content).toBe(content);
  });

  test("a comma is read by the language", () => {
    expect(readTyped("1,5 h", HOURS, german).content).toBe("1.5");
  });

  test.each(["all day", "<1", "1:75", "half an hour"])(
    "%s stays words, and is said back",
    (typed) => {
      const { content, doubt } = readTyped(typed, HOURS, english);
      expect(content).toBe(typed);
      expect(doubt).toContain("is kept as words");
    },
  );

  test("elsewhere a time stays as typed", () => {
    expect(readTyped("1:30", "0.0", english).content).toBe("1:30");
  });
});

describe("dates", () => {
  const DATE = "yyyy-mm-dd";
  test.each([
    ["2026-11-25", english],
    ["11/25/2026", english],
    ["11/25/26", english],
    ["25/11/2026", german],
    ["25.11.2026", german],
    ["25. 11. 2026", german],
    ["25 Nov 2026", german],
    ["November 25, 2026", english],
  ])("%s", (typed, language) => {
    expect(readTyped(typed, DATE, language).content).toBe("2026-11-25");
  });

  test.each([
    ["25. März 2026", german, "2026-03-25"],
    ["25. Mai 2026", german, "2026-05-25"],
    ["12. Dezember 2026", german, "2026-12-12"],
    ["12 Okt. 2026", german, "2026-10-12"],
    ["1er août 2026", french, "2026-08-01"],
    ["12 déc. 2026", french, "2026-12-12"],
    ["12 December 2026", french, "2026-12-12"],
    ["3 juil. 2026", french, "2026-07-03"],
    ["25 de noviembre de 2026", languageOf("es-ES"), "2026-11-25"],
  ])("months by the names of the browser's language: %s", (typed, language, date) => {
    expect(readTyped(typed, DATE, language).content).toBe(date);
  });

  test("a month that may be two is not guessed", () => {
    // By hand: juin and juillet; March and Mai.
    expect(readTyped("3 jui 2026", DATE, french).doubt).toContain("kept as words");
    expect(readTyped("3 Ma 2026", DATE, german).doubt).toContain("kept as words");
  });

  test("a month before points is not guessed, and a bare number is told", () => {
    expect(readTyped("3.2.2026", DATE, english).doubt).toContain("kept as words");
    expect(readTyped("20261125", DATE, english).doubt).toBe(
      "20261125 was read as a day's number. A date is typed as 2026-11-25.",
    );
  });

  test("a day that is not on the calendar is said back, not moved", () => {
    expect(readTyped("31/02/2026", DATE, german)).toEqual({
      content: "31/02/2026",
      doubt: '"31/02/2026" is kept as words. A date is typed as 2026-11-25.',
    });
  });

  test("the day comes first in every cell where the language has it so", () => {
    expect(readTyped("05/11/2026", "", german).content).toBe("2026-11-05");
    expect(readTyped("05/11/2026", "", english).content).toBe("2026-05-11");
    expect(readTyped("1.2.2026", "", german).content).toBe("1.2.2026");
  });
});

describe("formulas", () => {
  // By hand: what each sign means on paper.
  test.each([
    ["=2\u00d73", "=2*3"],
    ["=6\u00f72", "=6/2"],
    ["=\u2212A1", "=-A1"],
    ["=IF(A1>0,\u201cyes\u201d,\u201c\u201d)", '=IF(A1>0,"yes","")'],
    ['="2\u00d73"', '="2\u00d73"'],
    ['="a \u201cb\u201d"', '="a \u201cb\u201d"'],
    ['="5"" jar"', '="5"&CHAR(34)&" jar"'],
    ["=5%*60", "=5%*60"],
    ["=#N/A", "=NA()"],
    ["+A2*2", "=A2*2"],
    // Microsoft, "Calculation operators and precedence": the sign of a number goes before its power.
    ["=-A2^2", "=(-A2)^2"],
    ["=1-A2^2", "=1-A2^2"],
    ["=2*-A2^2+1", "=2*(-A2)^2+1"],
    ["=EXP(-A2^2/2)", "=EXP((-A2)^2/2)"],
    ["=A2^-2", "=A2^-2"],
  ])("%s is %s", (typed, content) => {
    expect(readTyped(typed, "0.0%", english)).toEqual({ content });
  });
});
