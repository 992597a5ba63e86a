/** A pack's text alone in the size's cell, its unit blank, wherever a sheet has a size and a unit. */
import { describe, expect, test } from "vitest";
import { oneSheet } from "./one-sheet";

describe("Materials, alone", () => {
  test.each([
    // By hand: the same packs as a number and a unit.
    ["4 x 250 mL", 1, "L"],
    ["1 lb", 16, "oz"],
    ["1/2 gal", 64, "floz"],
    ["half gallon jug", 2, "qt"],
  ])("%s costs what %d %s costs", async (text, size, unit) => {
    const { at, put } = await oneSheet("Materials");
    put("materials.size", size);
    put("materials.unit", unit);
    const told = [at("materials.perg"), at("materials.perfloz")];
    expect(told.map((each) => typeof each)).toEqual(["number", "number"]);
    put("materials.size", text);
    put("materials.unit", null);
    const read = [at("materials.perg"), at("materials.perfloz")] as number[];
    read.forEach((each, i) => expect(each).toBeCloseTo(told[i] as number, 12));
    expect(at("materials.said")).not.toContain("size?");
  });

  test.each([
    ["about 5", "gal", "pack size? type a number beside a unit"],
    ["1 lb", "gal", "pack size? type a number beside a unit"],
    ["about 5", null, "pack size? type a number beside its unit, or 1 lb or 4 x 250 mL alone"],
    [
      "2 x 3 lb, 4 oz",
      null,
      "pack size? type a number beside its unit, or 1 lb or 4 x 250 mL alone",
    ],
    ["1", null, "pack unit?"],
    ["1", "bushel", "pack unit? one of mg g kg oz lb mL L"],
  ])("%s in %s is not guessed", async (size, unit, said) => {
    const { at, put } = await oneSheet("Materials");
    put("materials.size", size);
    put("materials.unit", unit);
    expect([at("materials.perg"), at("materials.perfloz"), at("materials.perpiece")]).toEqual([
      "",
      "",
      "",
    ]);
    expect(at("materials.said")).toContain(said);
  });

  test("a weight still takes its density for a price by volume", async () => {
    const { at, put } = await oneSheet("Materials");
    put("materials.size", "1 lb");
    put("materials.unit", null);
    put("materials.density", null);
    expect(at("materials.perg")).toBeTypeOf("number");
    expect(at("materials.perfloz")).toBe("density?");
  });
});

test.each([
  ["Base comparison", "packs.size", "packs.unit", "packs.floz"],
  ["Buying plan", "lines.size", "lines.unit", "lines.holds"],
  ["Bottle cost", "liquids.packsize", "liquids.packunit", "liquids.pergram"],
])("%s, alone: a size and its unit in one cell", async (title, size, unit, answer) => {
  const { at, put } = await oneSheet(title);
  const told = at(answer) as number;
  expect(told).toBeTypeOf("number");
  put(size, `${String(at(size))} ${String(at(unit))}`);
  put(unit, null);
  expect(at(answer)).toBeCloseTo(told, 9);
});
