/** What a bottle holds, as bottles are listed: "100 mL bottle". */
import { expect, test } from "vitest";
import { oneSheet } from "./one-sheet";

test.each(["Size run", "Bottle cost"])(
  "%s reads a size by its text alone; what cannot be read is said",
  async (title) => {
    const { put, at } = await oneSheet(title);
    for (const column of [0, 1, 2]) put("sizes.unit", null, 0, column);
    for (const [column, text] of ["100 mL bottle", "3.5 oz", "a cup"].entries())
      put("sizes.holds", text, 0, column);
    const fills = () => [0, 1, 2].map((column) => at("sizes.fill", 0, column));
    // By hand: 3.5 oz is a weight, of 28.349523125 g each, and 2 % go over.
    const weighed = expect.closeTo(3.5 * 28.349523125 * 1.02, 8);
    // By hand: 100 mL of 0.87 g/mL, and 2 %.
    expect(fills()).toEqual([expect.closeTo(100 * 0.87 * 1.02, 8), weighed, "holds?"]);
    put("density", null);
    expect(fills()).toEqual(["density?", weighed, "holds?"]);
    put("sizes.holds", 100);
    expect(fills()).toEqual(["unit?", weighed, "holds?"]);
  },
);
