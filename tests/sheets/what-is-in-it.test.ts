/** What is in it: alone, and beside Materials. */
import { describe, expect, test } from "vitest";
import { oneSheet } from "./one-sheet";
import { wholeSet } from "./whole-set";

const title = "What is in it";
const sheet = (filled = true) => oneSheet(title, filled);
type Sheet = Awaited<ReturnType<typeof sheet>>;
const ofBase = ({ at }: Sheet, line: number) =>
  ["named", "avoided", "ask", "most", "least", "disclosed"].map((name) =>
    at(`bases.${name}`, line),
  );

describe("alone", () => {
  test("what is named, avoided, to ask, and undisclosed at most and at least", async () => {
    const list = await sheet();
    // By hand, from the invented ranges: 100 less 65, 15, 3, 2, 0.5 and 0.1 %; the highs come to more than 100 %.
    expect(ofBase(list, 0)).toEqual([6, 0, 2, expect.closeTo(0.144, 12), 0, "all named"]);
    // 100 less 70, 10, 3 and 1 %; one that is named has no high, so it may be anything.
    expect(ofBase(list, 1)).toEqual([5, 1, 2, expect.closeTo(0.16, 12), "not known", "part named"]);
    // 100 less 50 and 5 %, and less 65 and 10 %.
    expect(ofBase(list, 2)).toEqual([
      2,
      1,
      1,
      expect.closeTo(0.45, 12),
      expect.closeTo(0.25, 12),
      "not disclosed",
    ]);
    expect(ofBase(list, 3)).toEqual(["", "", "", "", "", null]);
    expect([list.at("names", 0, 0), list.at("names", 0, 3), list.at("names", 0, 9)]).toEqual([
      "Alder Clear",
      "Bluepost Soft",
      "base 4",
    ]);
  });

  test("without ranges nothing is known; a range of nothing says that it is not in it", async () => {
    const list = await sheet();
    const { put } = list;
    for (const line of [1, 8])
      for (const end of ["low3", "high3"]) put(`ingredients.${end}`, null, line);
    expect(ofBase(list, 2).slice(0, 5)).toEqual([0, 0, 0, "not known", "not known"]);
    expect(list.at("bases.said", 2)).toBe("nothing of it is typed yet");
    put("ingredients.place3", 1, 1);
    expect(ofBase(list, 2).slice(0, 5)).toEqual([1, 0, 1, "not known", "not known"]);
    for (const end of ["low3", "high3"]) put(`ingredients.${end}`, 0, 8);
    expect(ofBase(list, 2)[1]).toBe(0);
    put("ingredients.high3", 0.1, 8);
    expect(ofBase(list, 2)[1]).toBe(1);
  });

  test("words where a percent is asked for are counted beside the base, and take nothing off", async () => {
    const { at, put } = await sheet(false);
    put("bases.base", "Fen base");
    for (const [line, [low, high]] of [
      [0.2, 0.3],
      ["10-20 %", null],
      ["<5", 0.05],
    ].entries()) {
      put("ingredients.ingredient", `Part ${line}`, line);
      put("ingredients.word", "avoid", line);
      put("ingredients.low1", low, line);
      put("ingredients.high1", high, line);
    }
    // By hand: one line is read, 100 less 20 %.
    expect([at("bases.named"), at("bases.avoided"), at("bases.most")]).toEqual([1, 1, 0.8]);
    expect(at("bases.said")).toBe("not counted, words for a number: 2");
  });

  test("an ingredient that stands twice in a base is told beside it, one of another base is not", async () => {
    const { at, put } = await sheet(false);
    put("bases.base", "Fen base");
    put("bases.base", "Moor base", 1);
    for (const [line, [name, base]] of [
      ["Gum", 1],
      ["gum", 1],
      ["Gum", 2],
    ].entries()) {
      put("ingredients.ingredient", name as string, line);
      put("ingredients.word", "like", line);
      put(`ingredients.low${base}`, 0.1, line);
    }
    expect([at("bases.said"), at("bases.said", 1)]).toEqual(["an ingredient counts twice", ""]);
  });

  test("a percent above 100 is told on its line, and what is undisclosed is not known then", async () => {
    const { at, put } = await sheet(false);
    put("bases.base", "Fen base");
    put("ingredients.ingredient", "Gum");
    put("ingredients.word", "like");
    // By hand: 5 that was meant as 5 % leaves no room for anything undisclosed, which nobody said.
    put("ingredients.low1", 5);
    expect([at("bases.most"), at("bases.least")]).toEqual(["not known", "not known"]);
    expect(at("bases.said")).toBe("its lows come to more than 100 %");
    expect(at("ingredients.said")).toBe("more than 100 % in base 1");
    put("ingredients.low1", 0.05);
    put("ingredients.high1", 8);
    expect(at("bases.least")).toBe("not known");
    expect(at("ingredients.said")).toBe("more than 100 % in base 1");
  });

  test("what does not hold together is said", async () => {
    const { at, put } = await sheet();
    expect([at("bases.said", 0), at("bases.said", 1)]).toEqual([
      "all are named: open is how much of each",
      "1 without your word",
    ]);
    put("ingredients.low1", 0.9, 0);
    expect(at("ingredients.said", 0)).toBe("low is above high in base 1");
    expect(at("bases.said", 0)).toContain("its lows come to more than 100 %");
    expect(at("bases.most", 0)).toBe("not known");
    put("ingredients.low1", 0.1, 0);
    put("ingredients.high1", 0.2, 0);
    expect(at("bases.said", 0)).toContain("all named? its highs do not come to 100 %");
    put("ingredients.ingredient", "water", 3);
    expect(at("ingredients.said", 3)).toBe("stands here twice");
    put("ingredients.ingredient", "carbon", 9);
    expect(at("ingredients.said", 9)).toBe("in which base?; like, avoid or ask?");
    expect([at("filled"), at("counted")]).toEqual([10, 9]);
    put("ingredients.word", "avoid", 10);
    expect(at("ingredients.said", 10)).toBe("which ingredient?");
  });
});

describe("in the workbook", () => {
  test("how far a base is disclosed is as Materials say, and bases that are missing are counted", async () => {
    const set = await wholeSet();
    const beside = async (name: string) => {
      const { sheet: name2, row, column } = await set.spot(title, name);
      const [cells] = await set.workbook.read({ sheet: name2, row, column: column + 1 }, 1, 1);
      return cells?.[0] ?? null;
    };
    // By hand: Drovers Mild.
    expect(await beside("counted")).toBe("bases of Materials that are not here yet: 1");
    await set.type(title, "bases.base", 3, "Drovers Mild");
    expect(await beside("counted")).toBe("");
    expect(await set.at(title, "bases.disclosed", 3)).toBe("part named");
    await set.type("Materials", "materials.disclosed", 5, null);
    expect(await set.at(title, "bases.disclosed", 3)).toBe("not said");
    await set.type(title, "bases.base", 3, "Drovers Mld");
    expect(await set.at(title, "bases.disclosed", 3)).toBe("not in Materials");
  });

  test("materials in another order leave each range with its base", async () => {
    const set = await wholeSet();
    await set.sort("Materials", "materials.name", 22);
    expect(await set.at("Materials", "materials.name")).toBe("Salt Orchard");
    const names = [0, 1, 2].map((line) => set.at(title, "bases.disclosed", line));
    expect(await Promise.all(names)).toEqual(["all named", "part named", "not disclosed"]);
  });
});
