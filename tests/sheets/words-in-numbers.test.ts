/** Words where a number is asked for are not taken for nothing, nor for zero. Every number is tried in the long test. */
import { describe, expect, test } from "vitest";
import { oneSheet } from "./one-sheet";

describe("words are not taken for nothing", () => {
  test("a percent lost, in words, makes no pack cheaper", async () => {
    const { at, put } = await oneSheet("Base comparison");
    put("packs.lost", "about 3 %");
    expect(at("packs.floz")).toBe("type a percent: Lost (%)");
    put("packs.lost", null);
    // By hand: blank is nothing lost, as the sheet says; (46 + 14.5) / 128 fl oz.
    expect(at("packs.floz")).toBeCloseTo(0.47265625, 8);
  });

  test("a load in words makes no more base of the rest", async () => {
    const recipes = await oneSheet("Recipes");
    expect(recipes.at("recipes.share", 0)).toBeCloseTo(0.95, 12);
    recipes.put("recipes.load", "about 4", 1);
    expect([0, 1, 2].map((line) => recipes.at("recipes.share", line))).toEqual([
      "one of its loads is words: type a percent",
      "type a percent: Load (%)",
      "one of its loads is words: type a percent",
    ]);
    for (const title of ["Size run", "Bottle cost"]) {
      const { at, put } = await oneSheet(title);
      put("liquids.load", "about 4", 1);
      expect(at("liquids.share")).toBe("load?");
      expect(at("liquids.said")).toContain("another load is words: type a percent");
    }
  });

  test("a share in words leaves no load of the rest of a bench sheet", async () => {
    const { at, put } = await oneSheet("Bench sheet");
    put("pours.share", "about 4");
    expect([at("loads.load"), at("asked"), at("pours.add", 1)]).toEqual(["", "", ""]);
    put("pours.share", null);
    expect([at("loads.load"), at("asked")]).toEqual(["", ""]);
  });

  test("a step in words does not make a batch too small", async () => {
    const { at, put } = await oneSheet("Trial batch");
    put("step", "a tenth");
    expect(at("pours.enough")).toBe("type a number: Smallest step of the scale (g or oz)");
    expect(at("coarse.really")).toBe("");
  });

  test("a range in words is not a narrower one", async () => {
    const { at, put } = await oneSheet("What is in it");
    expect(at("bases.least", 0)).toBeCloseTo(0, 12);
    for (const line of [0, 1, 2]) {
      put("ingredients.high1", "about 25", line);
      expect(at("bases.least", 0), String(line)).toBe("not known");
    }
  });
});
