/** Prices that stand in cells as texts: read where they say one sum, refused in words where not. */
import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { worksheetFunction } from "../../functions/bind/register";

const sheet = Object.fromEntries(catalog.map((entry) => [entry.id, worksheetFunction(entry)]));
const NBSP = "\u00a0";

/** What a text is read as: at a margin of none, the price asked is the cost. */
const read = (text: string) => sheet.ASKPRICE(text, 0)[0][0];
const saidOf = (text: string) => (read(text) as { text: string }).text;

describe("a text is read as money", () => {
  // By hand: read as they are written; a comma before two digits is a decimal one.
  test.each([
    ["$6.00", 6],
    ["6.00 USD", 6],
    ["usd 12", 12],
    ["€ 6,50", 6.5],
    ["6,50 €", 6.5],
    [`${NBSP}6,50${NBSP}€ `, 6.5],
    [" 6.00 ", 6],
    ["'6.00", 6],
    ["$1,234.50", 1234.5],
    ["1.234,50 EUR", 1234.5],
    ["£1,234,567", 1234567],
    ["$.50", 0.5],
    ["0,500", 0.5],
    ["$6.00 CAD", 6],
    ["US$6", 6],
  ])("%j", (text, amount) => {
    expect(read(text)).toBe(amount);
  });

  test.each([
    ["6.00 each"],
    ["$6/lb"],
    ["free"],
    ["n/a"],
    ["TBC"],
    ["$5 %"],
    ["5%"],
    ["$"],
    ["-"],
    ["6 cup"],
    ["6 7"],
    ["1 234"],
    ["6."],
    ["1e3"],
    ["$6.00 EUR"],
    ["$6$"],
    ["$6*"],
    ["(6.00"],
    ["--6"],
    ["(-6)"],
    ["6.00 - 7.00"],
  ])("%j is refused with the text", (text) => {
    expect(saidOf(text)).toContain(`cost must be a number, got "${text}"`);
  });

  test("what may mean two things is refused with both readings", () => {
    expect(saidOf("$1,234")).toBe(
      'cost must be a number, got "$1,234": 1,234 may be 1234, or 1.2340: write it so',
    );
    expect(saidOf("1.234 €")).toContain("1.234 may be 1234, or 1.2340");
    // Groups strictly in threes.
    expect(saidOf("$12,34,567.00")).toContain("12,34,567.00 is not a number");
    expect(saidOf("1,2345.5")).toContain("is not a number");
  });

  test("many spaces are no long work", () => {
    const start = performance.now();
    expect(saidOf(`$${" ".repeat(30_000)}x`)).toContain("must be a number");
    expect(performance.now() - start).toBeLessThan(200);
  });

  test.each(["-6", "(6.00)", "-$6", "($6.00)", "−6 €"])("%s is below zero", (text) => {
    expect(saidOf(text)).toBe("cost must be zero or more, got -6");
  });

  test("a zero is a zero", () => {
    expect(saidOf("$0.00")).toBe("cost is blank or zero");
    expect(sheet.ASKPRICE("$6", 0, 0, "$0.00")).toEqual([[6]]);
  });

  test("other kinds than money take no text", () => {
    expect(sheet.ASKPRICE(6, "0.5")[0][0]).toHaveProperty("text", expect.stringMatching("retype"));
  });
});

describe("columns and lists of texts", () => {
  test("a column, line by line", () => {
    // By hand: 6 and 12.5 at half.
    const got = sheet.ASKPRICE([["$6.00"], ["free"], ["12.50 USD"], [""], [8]], 0.5);
    expect(got.map(([cell]) => cell)).toEqual([
      12,
      expect.objectContaining({ text: 'cost must be a number, got "free"' }),
      25,
      "",
      16,
    ]);
  });

  test("a list that is read whole", () => {
    // By hand: half of 10 and half of 20 for one unit.
    expect(sheet.BOTTLECOST(1, [[0.5], [0.5]], [["$10.00"], [20]])).toEqual([[15]]);
    // By hand: 2 x 3 and 2 x 5 halfway between the quotes is 8.
    expect(sheet.COSTDOUBT([[2]], [["$3"]], [["$5.00"]])[0][0]).toBe(8);
    expect(sheet.COSTDOUBT([[2]], [["$1,234"]], [[5000]])[0][0]).toHaveProperty(
      "text",
      expect.stringContaining("1,234 may be 1234, or 1.2340"),
    );
  });

  test("two currencies are refused: in a list, in a column, and beside each other", () => {
    const text = 'prices must be in one currency, got "$6" and "€6"';
    const refused = [[{ fault: "#VALUE!", text }]];
    expect(sheet.BOTTLECOST(1, [[0.5], [0.5]], [["$6"], ["€6"]])).toEqual(refused);
    expect(sheet.ASKPRICE([["$6"], [7], ["€6"]], 0.5)).toEqual(refused);
    expect(sheet.FLOZCOST("$6", 1, "floz", "", "€6")).toEqual(refused);
  });

  test("a sign and its code are one currency, a number beside them is in it", () => {
    // By hand: 6 + 4 over 1.
    expect(sheet.FLOZCOST("$6", 1, "floz", "", "4 USD")).toEqual([[10]]);
    expect(sheet.FLOZCOST("$6", 1, "floz", "", 4)).toEqual([[10]]);
    expect(sheet.FLOZCOST("$6", 1, "floz", "", "CAD 4")[0][0]).toHaveProperty("fault");
  });
});
