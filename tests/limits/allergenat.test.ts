import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { allergenAt } from "../../src/index";
import { refuses } from "../refuses";

describe("ALLERGENAT", () => {
  // Regulation (EU) 2023/1545: named above 0.001 % in leave-on and 0.01 % in rinse-off products.
  test("by hand: 2 % of an oil with 0.1 % is 0.002 %: named on a lotion, not on a soap", () => {
    expect(allergenAt([[0.02]], [[0.001]])[0]).toEqual([expect.closeTo(2e-5, 15), "declare"]);
    expect(allergenAt([[0.02]], [[0.001]], "rinse-off")[0][1]).toBe("below");
  });

  test("several oils add up, down or across", () => {
    const [[share, word]] = allergenAt([[0.02], [0.01]], [[0.0004], [0.0004]]);
    expect(share).toBeCloseTo(1.2e-5, 15);
    // Neither oil alone is above.
    expect(word).toBe("declare");
    expect(allergenAt([[0.02, 0.01]], [[0.0004], [0.0004]])[0][0]).toBe(share);
  });

  test("just at the threshold, which is not above it, no rounding error decides", () => {
    for (const [load, content] of [
      [0.01, 0.001],
      [0.1, 0.0001],
      [0.03, 1 / 3000],
      [0.07, 1 / 7000],
    ]) {
      expect(allergenAt([[load]], [[content]])[0][1]).toBe("at the threshold");
    }
    expect(allergenAt([[0.01]], [[0.00101]])[0][1]).toBe("declare");
    expect(allergenAt([[0.01]], [[0.00099]])[0][1]).toBe("below");
  });

  test("what is not told is not zero", () => {
    refuses(
      () => allergenAt([[0.02], [0.01]], [[0.001], [""]]),
      "contents, cell 2, is blank: what is not listed is not zero, ask the supplier",
    );
    refuses(
      () => allergenAt([[0.02], [0.01]], [[0.001], [BLANK]]),
      "contents, cell 2, is blank: what is not listed is not zero, ask the supplier",
    );
    refuses(
      () => allergenAt([[0.02]], [["not listed"]]),
      'contents must be from 0 % to 100 %, got "not listed": what is not listed is not zero, ask the supplier',
    );
    refuses(() => allergenAt([[""], [0.01]], [[0.001], [0.001]]), "loads, cell 1, is blank");
    refuses(() => allergenAt([[0]], [[0.1]]), "the sum of loads is blank or zero");
  });

  test("a zero that the supplier states is one; a spare line, or no oil, asks for nothing", () => {
    expect(allergenAt([[0.02]], [[0]])[0]).toEqual([0, "below"]);
    const lines = allergenAt([[0.02], [""], [0]], [[0.001], [""], [""]]);
    expect(lines).toEqual(allergenAt([[0.02]], [[0.001]]));
    const whole = Array<string[]>(1048575).fill([""]);
    expect(allergenAt([[0.02], ...whole], [[0.001], ...whole])).toEqual(lines);
  }, 20_000);

  test("refusals", () => {
    refuses(
      () => allergenAt([[0.6], [0.5]], [[0.001], [0.001]]),
      "loads must be 100 % at most, got 110 %",
    );
    refuses(
      () => allergenAt([[2]], [[0.001]]),
      "loads must be from 0 % to 100 %, got 200 %: type 2 %",
    );
    refuses(
      () => allergenAt([[0.02]], [[5]]),
      "contents must be from 0 % to 100 %, got 500 %: type 5 %",
    );
    refuses(
      () => allergenAt([[0.02], [0.01]], [[0.001]]),
      "contents must have as many cells as loads, got 1 and 2",
    );
    refuses(
      () => allergenAt([[0.02]], [[0.001]], "soap" as never),
      'use must be "leave-on" or "rinse-off", got "soap"',
    );
  });
});
