/** The buying plan beside Materials, Recipes and Sizes, of a workshop that is not the demo's. */
import { describe, expect, test } from "vitest";
import { wholeSet } from "./whole-set";

const SHEETS = ["Materials", "Recipes", "Sizes", "Buying plan"];

type Content = string | number | null;

interface Line {
  name: string;
  what: string;
  supplier: string;
  standing?: string;
  price?: number;
  size: number;
  unit: string;
  density?: number;
  freight?: number;
  freefrom?: number;
  lost?: number;
  counted?: number;
  least?: number;
}

const tallow = { supplier: "Tallow Lane", freight: 11, freefrom: 90 };
const quay = { supplier: "Quay Glass", freight: 7.5 };
const base = { ...tallow, name: "Fen Base", what: "base", density: 0.91, lost: 0.01 };
const peat = { ...tallow, name: "Peat Oil", what: "fragrance oil", unit: "g" };
const moss = { name: "Moss Oil", what: "fragrance oil", unit: "mL", density: 0.97, lost: 0.02 };

const MATERIALS: Line[] = [
  { ...base, standing: "in use", price: 30, size: 2, unit: "L", counted: 900, least: 500 },
  { ...base, standing: "offer", price: 52, size: 4, unit: "L" },
  { ...peat, standing: "offer", price: 9.5, size: 40 },
  { ...peat, standing: "in use", price: 21, size: 100, counted: 30 },
  { ...moss, ...tallow, standing: "in use", price: 14, size: 50 },
  { ...moss, ...quay, standing: "offer", price: 3, size: 50 },
  {
    ...tallow,
    name: "Reed Oil",
    what: "fragrance oil",
    price: 33,
    size: 8,
    unit: "oz",
    counted: 5000,
  },
  { ...quay, name: "Flask", what: "bottle", price: 18, size: 24, unit: "piece", counted: 10 },
  { ...quay, name: "Mister", what: "sprayer", price: 12, size: 50, unit: "piece", counted: 500 },
  { ...tallow, name: "Gum", what: "additive", size: 100, unit: "g" },
  { ...tallow, name: "Thick Oil", what: "fragrance oil", price: 25, size: 100, unit: "mL" },
];

const RECIPES: [recipe: string, material: string, load: number | null, of: string][] = [
  ["Fen mist", "Fen Base", null, "finished"],
  ["Fen mist", "Peat Oil", 0.05, ""],
  ["Fen mist", "Moss Oil", 0.02, ""],
  ["Fen mist", "Reed Oil", 0.01, ""],
  ["Gummed", "Fen Base", null, "base"],
  ["Gummed", "Gum", 0.02, ""],
  ["Gummed", "Thick Oil", 0.01, ""],
];

/** Density of Fen mist as measured: without it a size by volume has no weight, as Peat Oil's is not known. */
const MEASURED = 0.92;

async function workshop(runs: [recipe: string, size: string, bottles: number][]) {
  const { spot, workbook } = await wholeSet(false, SHEETS);
  // Nothing moves here: each place is looked for once.
  const spots = new Map<string, ReturnType<typeof spot>>();
  const spotOf = async (title: string, name: string, line: number) => {
    const key = `${title}!${name}`;
    const first = await (spots.get(key) ?? spots.set(key, spot(title, name)).get(key));
    if (!first) throw new Error(key);
    return { ...first, row: first.row + line };
  };
  const typed = async (title: string, name: string, line: number, content: Content) =>
    workbook.write([{ spot: await spotOf(title, name, line), content }]);
  const cells = async (title: string, list: string, line: number, contents: object) => {
    const writes = Object.entries(contents)
      .filter(([, content]) => content !== "")
      .map(async ([name, content]) => ({
        spot: await spotOf(title, `${list}.${name}`, line),
        content: content as Content,
      }));
    return Promise.all(writes);
  };
  const pieces = { bottle: "Flask", sprayer: "Mister" };
  const bottle = { size: "100 mL", holds: 100, unit: "mL", overfill: 0.02, ...pieces };
  const tin = { size: "Tin", holds: 250, unit: "g", bottle: "Flask" };
  const writes = await Promise.all([
    ...MATERIALS.map((line, i) => cells("Materials", "materials", i, { ...line, packs: 1 })),
    ...RECIPES.map(([recipe, material, load, of], i) =>
      cells("Recipes", "recipes", i, { recipe, material, load, of }),
    ),
    cells("Recipes", "recipes", 0, { measured: MEASURED }),
    ...[bottle, tin].map((size, i) => cells("Sizes", "sizes", i, size)),
    ...runs.map(([recipe, size, bottles], i) =>
      cells("Buying plan", "runs", i, { recipe, size, bottles }),
    ),
  ]);
  await workbook.write(writes.flat());
  const at = async (name: string, line = 0) => {
    const [cells] = await workbook.read(await spotOf("Buying plan", name, line), 1, 1);
    return cells?.[0] ?? null;
  };
  /** The line of a list whose first column says this. */
  const lineOf = async (name: string, wanted: string) => {
    for (let line = 0; line < 48; line++) if ((await at(name, line)) === wanted) return line;
    throw new Error(`${wanted} is not under ${name}`);
  };
  return {
    type: typed,
    at,
    lineOf,
    put: (name: string, line: number, content: Content) =>
      typed("Buying plan", name, line, content),
    of: async (material: string, name: string, pack = 0) =>
      at(`lines.${name}`, (await lineOf("lines.material", material)) + pack),
    order: async (supplier: string, name: string) =>
      at(`orders.${name}`, await lineOf("orders.supplier", supplier)),
    material: async (name: string, column: string, content: Content) => {
      for (const [i, line] of MATERIALS.entries())
        if (line.name === name) await typed("Materials", `materials.${column}`, i, content);
    },
  };
}

/** Grams of Fen mist in bottles of 100 mL with 2 % overfill. */
const mist = (bottles: number) => bottles * 100 * MEASURED * 1.02;

describe("what the runs need", () => {
  test("of every material once, over all runs, less what is on hand, plus the least to keep", async () => {
    const plan = await workshop([
      ["Fen mist", "100 mL", 30],
      ["Fen mist", "Tin", 4],
    ]);
    const grams = mist(30) + 4 * 250;
    expect(await plan.of("Fen Base", "needed")).toBeCloseTo(0.92 * grams, 8);
    expect(await plan.of("Fen Base", "tobuy")).toBeCloseTo((0.92 * grams) / 0.99 + 500 - 900, 5);
    expect(await plan.of("Peat Oil", "tobuy")).toBeCloseTo(0.05 * grams - 30, 5);
    expect(await plan.of("Moss Oil", "tobuy")).toBeCloseTo((0.02 * grams) / 0.98, 5);
    expect(await plan.of("Moss Oil", "said")).toBe("not counted on hand: none is taken off");
    // Enough of one: nothing of it is bought.
    expect(await plan.of("Reed Oil", "tobuy")).toBe(0);
    expect(await plan.of("Reed Oil", "said")).toBe("enough on hand");
    expect([await plan.of("Reed Oil", "buy"), await plan.of("Mister", "buy")]).toEqual(["", ""]);
    // By hand: 34 flasks less 10 are one pack of 24; a tin has no mister, 30 of 500 are there.
    expect([await plan.of("Flask", "needed"), await plan.of("Mister", "needed")]).toEqual([34, 30]);
    expect([await plan.of("Flask", "tobuy"), await plan.of("Flask", "buy")]).toEqual([24, 1]);
    expect(await plan.of("Flask", "counted")).toBe("piece");
    // Two suppliers: one order each, its freight once.
    expect([
      await plan.order("Quay Glass", "goods"),
      await plan.order("Quay Glass", "paid"),
    ]).toEqual([18, 7.5]);
    expect(await plan.at("orders.supplier", 2)).toBe("");
    expect(await plan.at("notcounted")).toBe("");
  });

  test("a lot that stands beside the one in use is on hand, too", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    await plan.type("Materials", "materials.counted", 2, 70);
    await plan.type("Materials", "materials.lot", 2, "PT-2");
    // By hand: 30 of the lot in use and 70 of the other.
    expect(await plan.of("Peat Oil", "onhand")).toBe(100);
    expect(await plan.of("Peat Oil", "tobuy")).toBeCloseTo(0.05 * mist(30) - 100, 5);
  });

  test("a pack of another supplier is shown and left out; marked as the one in use it is bought", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    expect(await plan.of("Moss Oil", "said", 1)).toBe("of another supplier: left out");
    // By hand: 56.3 g of 48.5 g each, two packs.
    expect([await plan.of("Moss Oil", "buy", 0), await plan.of("Moss Oil", "buy", 1)]).toEqual([
      2,
      "",
    ]);
    await plan.type("Materials", "materials.standing", 4, "offer");
    await plan.type("Materials", "materials.standing", 5, "in use");
    expect([await plan.of("Moss Oil", "buy", 0), await plan.of("Moss Oil", "buy", 1)]).toEqual([
      "",
      2,
    ]);
    expect(await plan.order("Quay Glass", "goods")).toBe(18 + 6);
  });

  test("a material without a price or a density is named, and is not nothing", async () => {
    const plan = await workshop([["Gummed", "Tin", 8]]);
    // By hand: 2000 g of which the base is 1 / 1.03.
    expect(await plan.of("Fen Base", "needed")).toBeCloseTo(2000 / 1.03, 8);
    expect(await plan.of("Gum", "said")).toContain("no price: left out");
    expect(await plan.of("Thick Oil", "holds")).toBe("density?");
    expect(await plan.of("Thick Oil", "said")).toContain("density? left out");
    expect(await plan.at("notcounted")).toBe("Not counted: Gum, Thick Oil");
    expect(await plan.order("Tallow Lane", "said")).toMatch(/^not all of it: 2 not counted/);
    await plan.material("Gum", "price", 8);
    await plan.material("Thick Oil", "density", 1.1);
    expect(await plan.at("notcounted")).toBe("");
    // By hand: 38.8 g of gum, a pack of 100; 19.4 g of oil, a pack of 110 g.
    expect([await plan.of("Gum", "buy"), await plan.of("Thick Oil", "buy")]).toEqual([1, 1]);
  });

  test("a run that is not known makes its materials unknown, by name", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    await plan.type("Recipes", "recipes.measured", 0, null);
    expect(await plan.at("runs.said")).toBe("density of an ingredient is not known");
    expect(await plan.of("Fen Base", "needed")).toBe("not known");
    expect(await plan.at("notcounted")).toBe("Not counted: Fen Base, Peat Oil, Moss Oil, Reed Oil");
    expect(await plan.of("Flask", "buy")).toBe(1);
    await plan.type("Recipes", "recipes.measured", 0, MEASURED);
    await plan.put("runs.bottles", 0, null);
    expect(await plan.at("runs.said")).toBe("how many bottles?");
    expect(await plan.at("notcounted")).toContain("Flask");
    await plan.put("runs.bottles", 0, 0);
    expect(await plan.at("notcounted")).toBe("");
  });

  test("what is typed over is said, and counts", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    expect(await plan.of("Peat Oil", "over")).toBe("");
    const line = await plan.lineOf("lines.material", "Peat Oil");
    await plan.put("lines.onhand", line, 100);
    await plan.put("lines.price", line + 1, 20);
    expect(await plan.of("Peat Oil", "over")).toBe("On hand (g or pieces)");
    expect(await plan.of("Peat Oil", "over", 1)).toBe("Pack price ($)");
    expect(await plan.of("Peat Oil", "tobuy")).toBeCloseTo(0.05 * mist(30) - 100, 5);
    await plan.put("orders.freight", 0, 3);
    await plan.put("orders.freefrom", 0, 0);
    expect(await plan.at("orders.over")).toBe("Freight of the order ($); Freight free from ($)");
    expect(await plan.at("orders.paid")).toBe(3);
  });

  test("a material that no run needs is bought up to the least to keep when it is typed on a spare line", async () => {
    const plan = await workshop([["Gummed", "Tin", 8]]);
    await plan.material("Mister", "least", 540);
    expect(await plan.at("more", 1)).toMatch(/^Materials has 1 more below the least to keep/);
    await plan.put("lines.material", 20, "Mister");
    expect(await plan.at("lines.tobuy", 20)).toBe(40);
    expect(await plan.at("lines.buy", 20)).toBe(1);
    expect(await plan.at("more", 1)).toBe("");
  });

  test("what has no line is named, and the sheet says what to do", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    await plan.put("lines.material", await plan.lineOf("lines.material", "Flask"), "Gum");
    expect(await plan.at("notcounted")).toContain("Flask");
    expect(await plan.at("more")).toMatch(/copy the last line down/);
  });
});

/** Freight that the lines of Materials do not agree on. */
test("unlike freights of one supplier are said, and the highest is taken", async () => {
  const plan = await workshop([["Fen mist", "100 mL", 30]]);
  await plan.type("Materials", "materials.freight", 2, 15);
  expect(await plan.order("Tallow Lane", "freight")).toBe(15);
  expect(await plan.order("Tallow Lane", "said")).toContain("freights differ");
});

interface Wanted {
  need: number;
  packs: { holds: number; cents: number }[];
}

/** All sums of goods, in cents, that cover a need, up to a sum: every number of every pack is tried. */
function sumsOf({ need, packs }: Wanted, most: number): Set<number> {
  const sums = new Set<number>();
  const go = (pack: number, held: number, cents: number) => {
    if (cents > most) return;
    const next = packs[pack];
    if (!next) {
      if (held >= need - 1e-9) sums.add(cents);
      return;
    }
    for (let n = 0; cents + n * next.cents <= most; n++)
      go(pack + 1, held + n * next.holds, cents + n * next.cents);
  };
  go(0, 0, 0);
  return sums;
}

/** The least that one order of several materials can cost, in cents, by trying all. */
function leastOrder(wanted: Wanted[], freight: number, freefrom: number, most: number): number {
  let sums = new Set([0]);
  for (const each of wanted) {
    const own = sumsOf(each, most);
    sums = new Set([...sums].flatMap((sum) => [...own].map((more) => sum + more)));
  }
  const costs = [...sums].map((sum) => sum + (freefrom > 0 && sum >= freefrom ? 0 : freight));
  return Math.min(...costs);
}

describe("several materials of one supplier in one order", () => {
  const tallowNeeds = (bottles: number): Wanted[] => {
    const grams = mist(bottles);
    const all: Wanted[] = [
      {
        need: (0.92 * grams) / 0.99 + 500 - 900,
        packs: [
          { holds: 1820, cents: 3000 },
          { holds: 3640, cents: 5200 },
        ],
      },
      {
        need: 0.05 * grams - 30,
        packs: [
          { holds: 40, cents: 950 },
          { holds: 100, cents: 2100 },
        ],
      },
      { need: (0.02 * grams) / 0.98, packs: [{ holds: 48.5, cents: 1400 }] },
    ];
    return all.filter(({ need }) => need > 0);
  };

  test("never costs less than it can, is at most as much dearer as it says, and covers every need", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 1]]);
    const seen = new Set<string>();
    for (const [bottles, freight, above] of [
      [30, 11, -20],
      [30, 11, 0],
      [30, 25, 1],
      [45, 30, 2.5],
      [12, 11, 5],
      [12, 25, 20],
      [60, 25, 24.99],
      [60, 40, 12],
      [17, 18, 100],
    ] as const) {
      // Free from around what the goods cost at their least: there the freight weighs.
      const freefrom = leastOrder(tallowNeeds(bottles), 0, 0, 30_000) / 100 + above;
      await plan.put("runs.bottles", 0, bottles);
      await plan.put("orders.freight", 0, freight);
      await plan.put("orders.freefrom", 0, freefrom);
      const wanted = tallowNeeds(bottles);
      const landed = Math.round(Number(await plan.order("Tallow Lane", "landed")) * 100);
      const least = leastOrder(wanted, freight * 100, Math.round(freefrom * 100), 30_000);
      const said = String(await plan.order("Tallow Lane", "said"));
      const which = `${bottles} bottles, freight ${freight}, free from ${freefrom}: ${said}`;
      const dearer = /^not proven the cheapest: \$ ([\d.]+) less at most/.exec(said)?.[1];
      seen.add(dearer === undefined ? "proven" : "not proven");
      expect(landed, which).toBeGreaterThanOrEqual(least);
      expect(landed - least, which).toBeLessThanOrEqual(Math.round(Number(dearer ?? 0) * 100));
      // What is bought covers the need, by the packs' own sizes.
      const goods = ["Fen Base", "Peat Oil", "Moss Oil"];
      const [bought, sum] = [[] as number[], { cents: 0 }];
      for (const [i, name] of goods.entries()) {
        const packs = [[1820, 3640], [40, 100], [48.5]][i] as number[];
        const prices = [[3000, 5200], [950, 2100], [1400]][i] as number[];
        let held = 0;
        for (const [k, holds] of packs.entries()) {
          const count = Number((await plan.of(name, "buy", k)) || 0);
          held += count * holds;
          sum.cents += count * (prices[k] ?? 0);
        }
        bought.push(held);
      }
      const needs = [
        (0.92 * mist(bottles)) / 0.99 - 400,
        0.05 * mist(bottles) - 30,
        (0.02 * mist(bottles)) / 0.98,
      ];
      needs.forEach((need, i) => expect(bought[i], which).toBeGreaterThanOrEqual(need - 1e-6));
      const paid = freefrom > 0 && sum.cents >= Math.round(freefrom * 100) ? 0 : freight * 100;
      expect(landed, which).toBe(sum.cents + paid);
    }
    expect([...seen].sort()).toEqual(["not proven", "proven"]);
  });

  test("travels free at the sum to the cent, and pays a cent below", async () => {
    const plan = await workshop([["Fen mist", "100 mL", 30]]);
    await plan.material("Reed Oil", "counted", 0);
    await plan.put("orders.freight", 0, 0.01);
    // With next to no freight all is bought as cheaply as it can be: 52 + 4 x 21 ... by trying all.
    await plan.put("orders.freefrom", 0, 0);
    const goods = Number(await plan.order("Tallow Lane", "goods"));
    const least = leastOrder(tallowNeeds(30), 0, 0, 30_000) / 100;
    // By hand: 28.2 g of Reed Oil, one pack of 8 oz at 33.
    expect(goods).toBeCloseTo(least + 33, 9);
    await plan.put("orders.freight", 0, 11);
    await plan.put("orders.freefrom", 0, goods);
    expect([
      await plan.order("Tallow Lane", "goods"),
      await plan.order("Tallow Lane", "paid"),
    ]).toEqual([goods, 0]);
    expect(await plan.order("Tallow Lane", "short")).toBe("");
    await plan.put("orders.freight", 0, 0.005);
    await plan.put("orders.freefrom", 0, goods + 0.01);
    expect([
      await plan.order("Tallow Lane", "goods"),
      await plan.order("Tallow Lane", "paid"),
    ]).toEqual([goods, 0.005]);
    expect(await plan.order("Tallow Lane", "short")).toBeCloseTo(0.01, 9);
    expect(await plan.order("Tallow Lane", "said")).toBe("the cheapest of these packs, proven");
  });
});

test("the runs are those of Size run; one that is typed over stays, and says so", async () => {
  const { on } = await wholeSet();
  const [plan, run] = [await on("Buying plan"), await on("Size run")];
  const runs = async (name: string) =>
    Promise.all(Array.from({ length: 8 }, (_, line) => plan.at(`runs.${name}`, line)));
  // Size run's demo: 12, 24, 12 and 6 bottles of Rain room.
  expect(await runs("recipe")).toEqual([...Array<string>(4).fill("Rain room"), "", "", "", ""]);
  expect(await runs("size")).toEqual(["2 fl oz", "4 fl oz", "8 fl oz", "16 fl oz", "", "", "", ""]);
  expect(await runs("bottles")).toEqual([12, 24, 12, 6, "", "", "", ""]);
  expect(await runs("said")).toEqual(Array(8).fill(""));
  const needed = Number(await plan.at("lines.needed"));
  await run.put("sizes.count", 0, 0, 3);
  expect(await runs("bottles")).toEqual([12, 24, 12, "", "", "", "", ""]);
  // By hand: 12 x 2 + 24 x 4 + 12 x 8 + 6 x 16 = 312 fl oz, 96 of them in the last six bottles.
  expect(await plan.at("lines.needed")).toBeCloseTo((needed * (312 - 96)) / 312, 6);
  await plan.put("runs.bottles", 100, 1);
  await run.put("sizes.count", 30, 0, 1);
  expect(await runs("bottles")).toEqual([12, 100, 12, "", "", "", "", ""]);
  expect(await plan.at("runs.over", 1)).toBe("Bottles to fill (count)");
  // A run of another recipe, on a line of its own.
  await plan.put("runs.recipe", "Rain candle", 6);
  await plan.put("runs.size", "Jar", 6);
  await plan.put("runs.bottles", 10, 6);
  expect(await plan.at("runs.said", 6)).toBe("");
  expect(await plan.at("runs.liquid", 6)).toBeGreaterThan(0);
});
