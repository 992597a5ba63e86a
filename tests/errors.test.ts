import { describe, expect, test } from "vitest";
import { amount, choice, density, number, positive, share, show, showShare } from "../src/errors";
import { list } from "../src/lists";
import { refuses } from "./refuses";

// The texts are ours: docs/errors.md.
describe("the guards say which argument, the limit, and what came", () => {
  test("a percent typed as a whole number", () => {
    refuses(() => share("load", 5), "load must be from 0 % to 100 %, got 500 %: type 5 %");
    refuses(() => share("load", 1.5), "load must be from 0 % to 100 %, got 150 %: type 1.5 %");
    refuses(() => share("load", 250), "load must be from 0 % to 100 %, got 25000 %");
    refuses(() => share("load", -0.05), "load must be from 0 % to 100 %, got -5 %");
  });

  test("a blank where zero makes no sense", () => {
    refuses(() => positive("price", 0), "price is blank or zero");
    refuses(() => choice("basis", "  ", ["finished", "base"]), "basis is blank");
  });

  test("numbers that are none", () => {
    refuses(() => number("value", Number.NaN), "value is blank");
    refuses(
      () => amount("batch", Number.POSITIVE_INFINITY),
      "batch must be a number, got Infinity",
    );
    refuses(() => amount("batch", -2), "batch must be zero or more, got -2");
    refuses(() => number("value", "x" as never), "value must be a number, got x");
  });

  test("a density in another unit: 1 g/mL is 3785.411784 / 453.59237 pounds per US gallon", () => {
    const text = (got: number) =>
      `density must be from 0 to 3 g/mL, got ${got}: ` +
      "pounds per US gallon are 8.345 times g/mL, kg per cubic metre 1000 times";
    expect((3785.411784 / 453.59237).toFixed(3)).toBe("8.345");
    // Of a thin spirit (0.79 g/mL) and a heavy oil (1.2) in either of those, and lighter ones yet.
    for (const got of [0.79 * 8.345, 8.5, 1.2 * 8.345, 3.01, 790, 850]) {
      const shown = Number(got.toPrecision(12));
      refuses(() => density("density", got), text(shown));
    }
    // Glycerin and sugar syrup (1.26 and 1.4, from memory) are liquids that are used.
    for (const each of [0.7, 1.26, 1.4, 3]) expect(density("density", each)).toBe(each);
  });

  test("a word that is not on the list", () => {
    refuses(
      () => choice("basis", "total", ["finished", "base"]),
      'basis must be "finished" or "base", got "total"',
    );
    expect(choice("basis", " Fin ished ", ["finished", "base"])).toBe("finished");
  });

  test("a range of two dimensions, and the cell that is wrong", () => {
    const grid = [
      [1, 2],
      [3, 4],
    ];
    refuses(
      () => list("shares", grid, number),
      "shares must be one row or one column, got 2 x 2 cells",
    );
    refuses(
      () => list("shares", [[0.5], [5]], share),
      "shares, cell 2, must be from 0 % to 100 %, got 500 %: type 5 %",
    );
  });

  test("numbers read as a person writes them", () => {
    expect(show(0.1 + 0.2)).toBe("0.3");
    expect(showShare(0.07)).toBe("7 %");
  });
});
