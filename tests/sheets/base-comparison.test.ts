/** Base comparison: alone, and drawing from Materials, What is in it and the Spray trial log. */
import { describe, expect, test } from "vitest";
import { oneSheet } from "./one-sheet";
import { wholeSet } from "./whole-set";

const title = "Base comparison";
const sheet = (filled = true) => oneSheet(title, filled);
/** US fluid ounce, NIST SP 811 (2008), app. B, and its weights. */
const FLOZ = 29.5735295625;

describe("alone", () => {
  test("three unlike packs come to one landed cost", async () => {
    const { at } = await sheet();
    // By hand: (46 + 14.5) / (128 x 0.98); (39 + 12.75) over 8 lb at 0.93 g/mL; 61 over 5 L, two of
    // which travel free.
    expect(at("packs.floz", 0)).toBeCloseTo(60.5 / (128 * 0.98), 12);
    expect(at("packs.floz", 1)).toBeCloseTo(51.75 / (((8 * 453.59237) / 0.93 / FLOZ) * 0.98), 12);
    expect(at("packs.floz", 2)).toBeCloseTo(61 / ((5000 / FLOZ) * 0.98), 12);
    expect(
      ["landed", "floz", "against", "samplefloz"].map((name) => at(`packs.${name}`, 3)),
    ).toEqual(["", "", "", ""]);
    // By hand: 7.5 for 4 oz at 0.93 g/mL.
    expect(at("packs.samplefloz", 1)).toBeCloseTo(7.5 / ((4 * 28.349523125) / 0.93 / FLOZ), 12);
    expect([at("best"), at("best", 0, 1), at("packs.against", 2)]).toEqual([
      "Drovers Dry",
      "from Drovers Wharf; lines with a price: 3",
      1,
    ]);
  });

  test("a changed price changes the answer; a missing density is loud and left out", async () => {
    const { at, put } = await sheet();
    put("packs.price", 20, 0);
    expect(at("best")).toBe("Alder Clear");
    put("packs.density", null, 1);
    expect(at("packs.floz", 1)).toBe(
      "#VALUE! density is needed: lb is a weight and floz a volume; weigh a known volume to find it",
    );
    expect([at("filled"), at("priced"), at("best", 0, 1)]).toEqual([
      3,
      2,
      "from Alder Row; lines with a price: 2",
    ]);
    expect(at("priced", 0, 1)).toMatch(/^Left out: 1\./);
    put("packs.price", null, 2);
    expect([at("packs.floz", 2), at("priced")]).toEqual(["price?", 1]);
  });

  test("a blank freight is said, a zero is free; packs and losses that are blank are told", async () => {
    const { at, put } = await sheet();
    put("packs.freight", null, 0);
    expect([at("packs.landed"), at("packs.floz"), at("priced")]).toEqual(["freight?", "", 2]);
    put("packs.freight", 0, 0);
    expect([at("packs.landed"), at("priced")]).toEqual([46, 3]);
    put("packs.count", null, 1);
    expect([at("packs.landed", 1), at("packs.floz", 1)]).toEqual(["how many packs?", ""]);
    expect(at("samples", 0, 1)).toBe("");
    put("packs.lost", null, 2);
    expect(at("samples", 0, 1)).toBe("Where Lost is blank nothing lost is counted: 1 lines");
  });

  test("a base with a sample alone stays in, at the cost of its sample", async () => {
    const { at, put } = await sheet();
    const line = { base: "Drovers Mild", density: 0.9, sampleprice: 6, samplesize: 50 };
    for (const [name, content] of Object.entries({ ...line, sampleunit: "mL" }))
      put(`packs.${name}`, content, 3);
    // By hand: 6 for 50 mL.
    expect(at("packs.samplefloz", 3)).toBeCloseTo((6 / 50) * FLOZ, 12);
    expect([at("packs.floz", 3), at("filled"), at("samples")]).toEqual(["sample only", 4, 1]);
    expect(at("priced", 0, 1)).toBe("Every filled line is counted.");
  });

  test("a base without a price says so in the picture, where a bar of nothing would read as free", async () => {
    const { put, at } = await sheet();
    for (const [name, content] of Object.entries({
      base: "Drovers Mild",
      sampleprice: 6,
      samplesize: 50,
    }))
      put(`packs.${name}`, content, 6);
    expect([at("cheapest.name", 3), at("cheapest.cost", 3)]).toEqual(["Drovers Mild: no cost", ""]);
  });

  test("the picture has each base once, at its cheapest pack", async () => {
    const { at, put } = await sheet();
    const line = { base: "Alder Clear", price: 199, size: 5, unit: "gal", count: 1, freight: 0 };
    for (const [name, content] of Object.entries(line)) put(`packs.${name}`, content, 3);
    expect([0, 1, 2, 3].map((i) => at("cheapest.name", i))).toEqual([
      "Alder Clear",
      "Bluepost Soft",
      "Drovers Dry",
      "",
    ]);
    // By hand: 5 gal are 640 fl oz.
    expect(at("cheapest.cost")).toBeCloseTo(199 / 640, 12);
  });

  test("inserted empty it waits, and shows no error", async () => {
    const { at } = await sheet(false);
    expect([at("packs.floz"), at("packs.against"), at("best"), at("filled")]).toEqual([
      "",
      "",
      "",
      0,
    ]);
    expect(at("best", 0, 1)).toBe("No line is filled yet.");
  });
});

describe("in the workbook", () => {
  test("every pack of every base stands beside what is in it and how long it lasts", async () => {
    const set = await wholeSet();
    const line = async (at: number, ...names: string[]) =>
      Promise.all(names.map((name) => set.at(title, `packs.${name}`, at)));
    // By hand: 46 and 14.50 of freight; 199 is over the sum from which it is free.
    expect(await line(0, "base", "landed", "pick", "score")).toEqual([
      "Alder Clear",
      60.5,
      "pick",
      4,
    ]);
    expect(await line(2, "base", "landed")).toEqual(["Alder Clear", 199]);
    // By hand, from the invented ranges: 5 named, 1 avoided; 100 less 70, 10, 3 and 1 %.
    expect(await line(3, "named", "avoided", "undisclosed")).toEqual([
      5,
      1,
      expect.closeTo(0.16, 12),
    ]);
    expect(await line(3, "cloth", "room")).toEqual([
      await set.at("Spray trial log", "log.counts", 2),
      await set.at("Spray trial log", "log.counts", 3),
    ]);
    expect(await line(5, "base", "floz", "named", "cloth")).toEqual([
      "Drovers Mild",
      "sample only",
      "not there",
      "no line",
    ]);
  });

  test("sorted materials take their score and pick along", async () => {
    const set = await wholeSet();
    await set.sort("Materials", "materials.name", 22);
    const lines = await Promise.all(
      [0, 1, 2, 3, 4, 5].map(async (at) => [
        await set.at(title, "packs.base", at),
        await set.at(title, "packs.pick", at),
        await set.at(title, "packs.named", at),
      ]),
    );
    expect(lines.map(([base]) => base)).toEqual([
      "Drovers Mild",
      "Drovers Dry",
      "Bluepost Soft",
      "Alder Clear",
      "Alder Clear",
      "Alder Clear",
    ]);
    expect(lines[1]).toEqual(["Drovers Dry", "reserve", 2]);
    expect(lines[2]).toEqual(["Bluepost Soft", "no", 5]);
  });

  test("a line that leaves Materials leaves; one that is typed over is said", async () => {
    const set = await wholeSet();
    await set.type(title, "packs.price", 3, 30);
    // By hand: 30 and 12.75 of freight.
    expect(await set.at(title, "packs.landed", 3)).toBe(42.75);
    const { sheet: name, row, column } = await set.spot(title, "packs.notes", 3);
    const [over] = await set.workbook.read({ sheet: name, row, column: column + 1 }, 1, 1);
    expect(over?.[0]).toBe("Price of a pack ($)");
    await set.type("Materials", "materials.what", 1, "other");
    expect(await set.at(title, "packs.base", 1)).toBe("Alder Clear");
    expect(await set.at(title, "filled")).toBe(5);
    expect(await set.at(title, "packs.base", 5)).toBe("");
  });
});
