/** Limits check beside the other sheets: what it draws, for a workshop that is not the demo. */
import { beforeAll, describe, expect, test } from "vitest";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { lay, partsThere, placesOf } from "../../taskpane/sheets/lay";
import { partsFor, template } from "../../taskpane/templates/limits-check";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";
import { cellName } from "../../functions/formula/addresses";
import { wholeSet } from "./whole-set";

const SHEETS = ["Materials", "Recipes", "What is in it", "Limits check"];
type Set = Awaited<ReturnType<typeof wholeSet>>;

/** A line of a list, its cells by the names of their columns. */
async function typeLine(
  { type }: Set,
  sheet: string,
  list: string,
  line: number,
  cells: Record<string, string | number>,
) {
  for (const [name, content] of Object.entries(cells))
    await type(sheet, `${list}.${name}`, line, content);
}

/** A room spray and linen spray of one oil and one additive, in a base that is named in part. */
async function figWorkshop(): Promise<Set> {
  const set = await wholeSet(false, SHEETS);
  const material = (line: number, cells: Record<string, string | number>) =>
    typeLine(set, "Materials", "materials", line, cells);
  await material(0, { name: "Fen Mist", what: "base", density: 0.9, vocpart: 0.3, flash: 21 });
  await material(0, { sheetdate: 45_000, disclosed: "part named", hazard: "yes" });
  await material(1, { name: "Dusk Fig", what: "fragrance oil", density: 0.97, vocpart: 0.9 });
  await material(1, { flash: 66, sheetdate: 46_000, hazard: "no", limits: 0.05 });
  await material(2, { name: "Soft Silk", what: "additive", density: 1, vocpart: 0, hazard: "no" });
  // The limits stand side by side: room spray, linen spray.
  const { sheet, row, column } = await set.spot("Materials", "materials.limits", 1);
  await set.workbook.write([{ spot: { sheet, row, column: column + 1 }, content: 0.03 }]);

  const recipe = (line: number, cells: Record<string, string | number>) =>
    typeLine(set, "Recipes", "recipes", line, { recipe: "Fig linen", ...cells });
  // The kinds of recipes are demo, too.
  await set.type("Recipes", "kinds.kind", 0, "room spray");
  await set.type("Recipes", "kinds.kind", 1, "linen spray");
  await recipe(0, { kind: "linen spray", material: "Fen Mist", of: "finished" });
  await recipe(1, { material: "Dusk Fig", load: 0.02 });
  await recipe(2, { material: "Soft Silk", load: 0.01 });

  const ingredient = (line: number, cells: Record<string, string | number>) =>
    typeLine(set, "What is in it", "ingredients", line, cells);
  await set.type("What is in it", "bases.base", 1, "Fen Mist");
  await ingredient(0, { ingredient: "aqua", low2: 0.5, high2: 0.7, what: "water", vocpart: 0 });
  await ingredient(0, { density: 0.998 });
  await ingredient(1, { ingredient: "somebody else's", low1: 0.1, high1: 0.2 });
  await ingredient(2, { ingredient: "grain spirit", low2: 0.2, high2: 0.3, what: "ethanol" });
  await ingredient(2, { vocpart: 1, density: 0.789 });
  await ingredient(3, { ingredient: "thickener", place2: 3, what: "other", vocpart: 0 });
  await ingredient(3, { density: 1.1, hazard: "no" });

  const product = { recipe: "Fig linen", kind: "linen or fabric spray (pump)" };
  for (const [name, content] of Object.entries({ ...product, soldin: "Canada", madeon: 46_350 }))
    await set.type("Limits check", name, 0, content);
  return set;
}

/** Where the sheet's things stand beside the sheets that it draws from. */
const beside = placesOf(partsThere(template.parts, new Set(SHEETS)));

const here =
  (set: Set) =>
  async (name: string, line = 0, across = 0) => {
    const { row, column } = beside.get(name) ?? { row: NaN, column: NaN };
    const spot = { sheet: "Limits check", row: row + line, column: column + across };
    const [cells] = await set.workbook.read(spot, 1, 1);
    return cells?.[0];
  };
const near = (value: number) => expect.closeTo(value, 12);

/** Lines of the limits: skin, VOC, alcohol, water, other hazards, transport. */
const [SKIN, VOC, ALCOHOL, WATER, HAZARD] = [0, 1, 2, 3, 4];

describe("a base that is named in part, and a recipe of two more", () => {
  let set: Set;
  beforeAll(async () => {
    set = await figWorkshop();
  }, 120_000);

  test("stands with its ranges times its share, then what is not disclosed, then the loads", async () => {
    const at = here(set);
    const lines = await Promise.all(
      [0, 1, 2, 3, 4, 5, 6].map((line) =>
        Promise.all(["name", "what", "low", "high"].map((name) => at(`parts.${name}`, line))),
      ),
    );
    // By hand: 97 % of the base. Its lows come to 70 %, so 30 % is open: for what has no range, too.
    expect(lines).toEqual([
      ["aqua", "water", near(0.97 * 0.5), near(0.97 * 0.7)],
      ["grain spirit", "ethanol", near(0.97 * 0.2), near(0.97 * 0.3)],
      ["thickener", "other", 0, near(0.97 * 0.3)],
      ["Not disclosed in Fen Mist", "not disclosed", 0, near(0.97 * 0.3)],
      ["Dusk Fig", "fragrance oil", near(0.02), near(0.02)],
      ["Soft Silk", "other", near(0.01), near(0.01)],
      ["", "", "", ""],
    ]);
    expect(await at("sum.words")).toBe("can be 100 %");
  });

  test("brings data sheets' dates and flash points: those of the base for its ingredients", async () => {
    const at = here(set);
    expect(await at("parts.flash", 1)).toBe(21);
    expect(await at("parts.date", 4)).toBe(46_000);
    expect(await at("parts.date", 5)).toBe("");
    expect(await at("oldest")).toBe(45_000);
    expect(await at("flash.cautious", 1)).toBe(21);
  });

  test("VOC counts what is not disclosed in its high, and not in its low", async () => {
    const at = here(set);
    // By hand: spirit 19.4 %; at most all that the water's 48.5 % leaves of the base, be it spirit or not
    // disclosed. The oil's 1.8 % count, as no exemption is taken in Canada.
    expect(await at("limits.low", VOC)).toEqual(near(0.97 * 0.2 + 0.018));
    expect(await at("limits.high", VOC)).toEqual(near(0.97 * 0.5 + 0.018));
    expect(await at("limits.words", VOC)).toBe("Over the limit (!)");
  });

  test("linen is disputed, so the lower of its own limit and a room spray's counts", async () => {
    const at = here(set);
    expect(await at("readfirst")).toBe("10A");
    expect(await at("readsecond")).toBe("10B");
    expect([await at("parts.limit1", 4), await at("parts.limit2", 4)]).toEqual([0.03, 0.05]);
    // By hand: 2 % of a limit of 3 %.
    expect(await at("limits.high", SKIN)).toEqual(near(0.02 / 0.03));
    expect(await at("limits.words", SKIN)).toBe("Within the limit");
  });

  test("a density that nobody disclosed is asked for; typed over, that is said", async () => {
    const at = here(set);
    expect(await at("limits.words", ALCOHOL)).toBe("No verdict");
    expect(await at("reasons.why", ALCOHOL)).toBe(
      "Missing: a density from 0 to 3 g/mL, beside Not disclosed in Fen Mist.",
    );
    await set.type("Limits check", "parts.density", 3, 1);
    expect(await at("parts.over", 3)).toBe("Density (g/mL): nothing is drawn");
    // By hand: all that may be alcohol, by volume, over everything: the spirit first, as it is lighter.
    const [spirit, open, water] = [0.97 * 0.3, 0.97 * 0.2, 0.97 * 0.5];
    const alcohol = spirit / 0.789 + open / 1;
    const all = alcohol + water / 0.998 + 0.02 / 0.97 + 0.01 / 1;
    expect(await at("limits.high", ALCOHOL)).toBeCloseTo(alcohol / all, 10);
    expect(await at("limits.words", ALCOHOL)).toBe("Doubt: lies on both sides (?)");
    // The base is hazardous by its alcohol; whether what is not disclosed is, nobody knows.
    expect(await at("limits.words", HAZARD)).toBe("No verdict");
  });

  test("a drawn share that is typed over says what is drawn, and counts as typed", async () => {
    const at = here(set);
    await set.type("Limits check", "parts.low", 4, 0.03);
    await set.type("Limits check", "parts.high", 4, 0.03);
    expect(await at("parts.over", 4)).toBe("Low (%): 2.0% is drawn; High (%): 2.0% is drawn");
    expect(await at("limits.high", SKIN)).toEqual(near(1));
    expect(await at("overs")).toBe(2);
    await set.type("Limits check", "basepart", 0, 0.9);
    expect(await at("basepart", 0, 1)).toBe("typed over: 97.0% is drawn");
    expect(await at("parts.low", 0)).toEqual(near(0.45));
  });

  test("a base of which nothing is named stands as a whole: it may be alcohol, or water", async () => {
    const own = await figWorkshop();
    const at = here(own);
    await own.type("What is in it", "bases.base", 1, null);
    expect(await at("parts.name", 0)).toBe("Fen Mist");
    expect(await at("parts.what", 0)).toBe("not disclosed");
    expect(await at("parts.high", 0)).toEqual(near(0.97));
    // By hand: 30 % of the base by Materials, and the oil's 1.8 %.
    expect(await at("limits.high", VOC)).toEqual(near(0.97 * 0.3 + 0.018));
    for (const line of [ALCOHOL, WATER])
      expect(await at("limits.words", line)).toBe("Doubt: lies on both sides (?)");
    expect(await at("limits.low", ALCOHOL)).toBe(0);
  });
});

test("another recipe brings its own oils, limits, hazards and kind", async () => {
  const set = await wholeSet(true, SHEETS);
  const at = here(set);
  expect([await at("parts.name", 6), await at("parts.hazard", 6)]).toEqual([
    "Rain on Slate",
    "yes",
  ]);
  await set.type("Limits check", "recipe", 0, "Orchard body");
  expect([await at("parts.name", 6), await at("parts.hazard", 6)]).toEqual([
    "Salt Orchard",
    "not known",
  ]);
  expect([await at("skin"), await at("readfirst")]).toEqual(["body mist", "2"]);
  // By hand: 3 % of a limit of 4 % on skin.
  expect(await at("limits.high", SKIN)).toEqual(near(0.75));
});

test("without What is in it the base stands as a whole, and the oils are drawn", async () => {
  const set = await wholeSet(true, ["Materials", "Recipes", "Limits check"]);
  const at = here(set);
  expect([await at("parts.name", 0), await at("parts.what", 0)]).toEqual([
    "Alder Clear",
    "not disclosed",
  ]);
  expect(await at("parts.name", 2)).toBe("Attic Cedar");
  expect(await at("limits.words", SKIN)).toBe("Within the limit");
});

test("a recipe that is too long for the sheet says so", async () => {
  const set = await wholeSet(true, SHEETS);
  for (let line = 9; line < 24; line++)
    await typeLine(set, "Recipes", "recipes", line, {
      recipe: "Rain room",
      material: "Salt Orchard",
      load: 0.001,
    });
  // By hand: 6 ingredients of the base, 2 oils as before, 15 more.
  expect(await here(set)("recipe", 0, 1)).toBe(
    "It has 23 ingredients, only 20 fit: not all of it is here.",
  );
  // By hand: 23 less 20.
  expect(await here(set)("limits.words", SKIN)).toBe("No verdict");
  expect(await here(set)("reasons.why", SKIN)).toBe(
    "The recipe has more ingredients than the 20 that fit: 3 of it not here.",
  );
});

describe("a row more of ingredients is one number", () => {
  test.each([5, 20, 21])("%i lines: all are counted, and all stands where it should", async (n) => {
    const parts = partsFor(n);
    const model = newModel();
    const chosen = { ...template, parts };
    const options = { where: "new sheet", filled: false } as const;
    await insertTemplate(new LocalWorkbook(model), chosen, options);
    const { places } = lay(parts);
    const cell = (name: string, line = 0) => {
      const { row, column } = places.get(name) ?? { row: NaN, column: NaN };
      return cellName(row + line, column);
    };
    const put = (name: string, line: number, content: string) =>
      write(model, cell(name, line), content);
    // Oils on all lines, of equal shares, and of limits that each would be used up by all of the oils.
    for (let line = 0; line < n; line++) {
      put("parts.name", line, `Oil ${line}`);
      put("parts.what", line, "fragrance oil");
      for (const name of ["low", "high"]) put(`parts.${name}`, line, String(1 / n));
      for (const name of ["voclow", "vochigh"])
        put(`parts.${name}`, line, line === n - 1 ? "1" : "0");
      put("parts.density", line, "1");
      put("parts.hazard", line, line === n - 1 ? "yes" : "no");
      put("parts.limit1", line, "0.5");
    }
    put("skin", 0, "room spray");
    put("readfirst", 0, "10B");
    put("kind", 0, "room spray (pump)");
    put("soldin", 0, "California");
    put("madeon", 0, "2026-11-25");
    const at = (name: string, line = 0) => read(model, cell(name, line));
    // By hand: n lines of 1 / n, each over a limit of one half; VOC and hazard on the last line alone. The
    // 2 points of fragrance that are not counted may be of the others.
    expect(at("sum.low")).toBeCloseTo(1, 12);
    expect(at("limits.high", SKIN)).toBeCloseTo(2, 12);
    expect(at("limits.high", VOC)).toBeCloseTo(1 / n, 12);
    expect(at("reasons.why", HAZARD)).toBe(
      `By its data sheet: Oil ${n - 1}. The exception is lost.`,
    );
  });
});

test("what is not disclosed may be alcohol, or water: no verdict rests on it", async () => {
  const model = newModel();
  await insertTemplate(new LocalWorkbook(model), template, { where: "new sheet", filled: true });
  const { places } = lay(template.parts);
  const cell = (name: string, line: number) => {
    const { row, column } = places.get(name) ?? { row: NaN, column: NaN };
    return cellName(row + line, column);
  };
  const range = (line: number, low: string, high = low) => {
    write(model, cell("parts.low", line), low);
    write(model, cell("parts.high", line), high);
  };
  // Alcohol, water, what is not disclosed; 4 % of oils.
  range(0, "14%");
  range(1, "51%");
  range(2, "31%");
  const words = (line: number) => read(model, cell("limits.words", line));
  // By hand: 14 % of alcohol is far below 24 % by volume, with 31 % more it is far above; so with half of water.
  expect([words(ALCOHOL), words(WATER)]).toEqual([
    "Doubt: lies on both sides (?)",
    "Doubt: lies on both sides (?)",
  ]);
  write(model, cell("parts.what", 2), "other");
  expect(words(ALCOHOL)).toBe("Within: 24 % at most");
});
