/** Units in the drop-downs of the sheets, in any spelling. By hand, from src/data/spellings.ts. */
import { describe, expect, test } from "vitest";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { PACK_UNITS, PIECE, areUnits, listedUnit } from "../../taskpane/sheets/pack-units";
import { templates } from "../../taskpane/templates/index";
import { oneSheet } from "./one-sheet";

const ALL = [...PACK_UNITS, PIECE];

test.each([
  ["lbs", "lb"],
  ["Pounds", "lb"],
  ["fl. oz.", "floz"],
  ["US gallon", "gal"],
  ["litres", "L"],
  ["CC", "mL"],
  ["Pieces", "piece"],
  ["floz", "floz"],
])("%s is %s", (typed, listed) => {
  expect(listedUnit(typed, ALL)).toBe(listed);
});

test.each(["", "gr", "#", "cup", "oz gal", "5", "not a unit"])("%j is none of them", (typed) => {
  expect(listedUnit(typed, ALL)).toBeUndefined();
});

test("only a unit that the list has: a scale in g or oz is none in pounds", () => {
  expect(listedUnit("ounces", ["g", "oz"])).toBe("oz");
  expect(listedUnit("lb", ["g", "oz"])).toBeUndefined();
});

test("lists of units are known from other lists", () => {
  expect(areUnits(ALL)).toBe(true);
  expect(areUnits(["C", "F"])).toBe(false);
  // By hand: the sheets with a unit to pick.
  const withUnits = templates.filter((template) =>
    drawingOf(template, true).rules.some(({ words }) => words && areUnits(words)),
  );
  expect(withUnits.map(({ title }) => title)).toEqual([
    "Base comparison",
    "Bench sheet",
    "Bottle cost",
    "Buying plan",
    "Materials",
    "Size run",
    "Sizes",
    "Trial batch",
  ]);
});

describe("formulas read a spelling as the unit itself, as Excel lets it stand", () => {
  test.each([
    ["Materials", "materials.unit", "materials.perfloz", 0],
    ["Base comparison", "packs.unit", "packs.floz", 0],
    ["Bench sheet", "unit", "pours.scale", 0],
    ["Trial batch", "unit", "pours.drops", 0],
  ])("%s", async (title, unit, answer, line) => {
    const { at, put } = await oneSheet(title);
    const before = at(answer, line);
    expect(before).toBeTypeOf("number");
    const spelled: Record<string, string> = {
      gal: "US Gallons",
      g: "grams",
      oz: "Ounce",
      L: "litres",
      lb: "pounds",
      mL: "cc",
      floz: "fl. oz.",
    };
    put(unit, spelled[String(at(unit, line))], line);
    expect(at(answer, line)).toBe(before);
  });
});
