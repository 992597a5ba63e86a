/** The formulas that the guides show, with what they are said to give. */
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { worksheetFunction } from "../functions/bind/register";
import { catalog } from "../functions/catalog/catalog";
import { readCall } from "../functions/catalog/examples";

/** A formula over cells has its numbers in the text beside it. */
const OVER_CELLS = /[A-Z]+\d+:[A-Z]+\d+/;

const guides = readdirSync("docs").filter((name) => name.endsWith(".md"));
const shown = guides.flatMap((guide) =>
  [...readFileSync(`docs/${guide}`, "utf8").matchAll(/^=MIST\.(.*\))\s+gives (.*)$/gm)]
    .map(([, formula = "", says = ""]) => ({ guide, formula, says }))
    .filter(({ formula }) => !OVER_CELLS.test(formula)),
);

/** A cell as the guide writes it: as many digits, and its sign. */
function written(cell: unknown, says: string): string {
  const [, digits, sign = ""] = /^-?\d+(?:\.(\d+))?( %| points)?$/.exec(says) ?? [];
  if (typeof cell !== "number") return String(cell);
  return (sign ? cell * 100 : cell).toFixed(digits?.length ?? 0) + sign;
}

describe("a formula of a guide gives what stands beside it", () => {
  test.each(shown)("$guide: $formula", ({ formula, says }) => {
    const entry = catalog.find(({ id }) => formula.startsWith(`${id}(`));
    if (!entry) throw new Error(`no function ${formula}`);
    const cells = worksheetFunction(entry)(...readCall(formula).args).flat();
    const told = says.split(/, | to (?=\d)/);
    expect(cells.map((cell, i) => written(cell, told[i] ?? ""))).toEqual(told);
  });

  test("there are some", () => expect(shown.length).toBeGreaterThan(20));
});
