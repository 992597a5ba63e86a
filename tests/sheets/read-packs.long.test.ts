/** A pack's text alone on Materials and Sizes, in the whole workbook. */
import { expect, test } from "vitest";
import type { TypedCell } from "../../taskpane/host/workbook";
import { wholeSet } from "./whole-set";

test("in one workbook the text is typed on Materials and on Sizes, and all other sheets follow", async () => {
  const { workbook, spot, at } = await wholeSet();
  const answers: [string, string][] = [
    ["Base comparison", "packs.floz"],
    ["Bottle cost", "costs.liquid"],
    ["Size run", "sizes.fill"],
    ["Price list", "prices.grams"],
    ["Buying plan", "lines.holds"],
  ];
  const all = async () => Promise.all(answers.map(([title, name]) => at(title, name)));
  const before = (await all()) as number[];
  expect(before.map((each) => typeof each)).toEqual(before.map(() => "number"));
  const typed: TypedCell[] = [];
  for (const [sheet, size, unit] of [
    ["Materials", "materials.size", "materials.unit"],
    ["Sizes", "sizes.holds", "sizes.unit"],
  ] as const)
    for (const line of [0, 1, 2]) {
      const text = `${String(await at(sheet, size, line))} ${String(await at(sheet, unit, line))}`;
      typed.push({ spot: await spot(sheet, size, line), content: text });
      typed.push({ spot: await spot(sheet, unit, line), content: null });
    }
  await workbook.write(typed);
  const after = (await all()) as number[];
  after.forEach((each, i) =>
    expect(each, answers[i]?.join(" ")).toBeCloseTo(before[i] as number, 8),
  );
});
