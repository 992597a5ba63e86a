import { describe, expect, test } from "vitest";
import { ETHANOL_FLASH_TABLE } from "../../src/data/alcohol-vapour";
import { flameClass, flashGuess, netLabel, spiritByWeight } from "../../src/index";
import { vapourFlash } from "../../src/limits/flash";
import { published, rowsOf } from "../reference/checks";
import { holdToPublished } from "../reference/hold";
import { refuses } from "../refuses";

describe("FLASHGUESS", () => {
  const models = rowsOf("flammability").filter(({ id }) => /^fp_model_(etoh|ipa)_\d+$/.test(id));
  test("the rows are read", () => expect(models).toHaveLength(17));
  holdToPublished(
    Object.fromEntries(
      models.map(({ id, inputs }) => {
        const percent = Number(/(?:ethanol|2-propanol) ([\d.]+) wt%/.exec(inputs)?.[1]) / 100;
        return [
          id,
          () => (id.includes("etoh") ? vapourFlash(percent, 0) : vapourFlash(0, percent)),
        ];
      }),
    ),
  );

  test("the errors that it states are its errors against the published table, in both readings", () => {
    const errors = (weight: (share: number) => number) =>
      ETHANOL_FLASH_TABLE.map(([share, celsius]) =>
        Math.abs(vapourFlash(weight(share), 0) - celsius),
      );
    const mean = (list: number[]) => list.reduce((a, b) => a + b, 0) / list.length;
    const asVolume = errors((share) => spiritByWeight(share));
    const asWeight = errors((share) => share);
    expect([mean(asVolume), Math.max(...asVolume)].map((each) => each.toFixed(1))).toEqual([
      "1.4",
      "2.1",
    ]);
    expect([mean(asWeight), Math.max(...asWeight)].map((each) => each.toFixed(1))).toEqual([
      "1.8",
      "5.8",
    ]);
  });

  test("the table is the published one, and lies in the range in either reading", () => {
    for (const { id, inputs } of rowsOf("flammability").filter((row) =>
      /^fp_etoh_\d+$/.test(row.id),
    )) {
      const share = Number(/water (\d+) %/.exec(inputs)?.[1]) / 100;
      const celsius = published(id).expected;
      expect(ETHANOL_FLASH_TABLE.find(([each]) => each === share)?.[1]).toBe(celsius);
      for (const weight of [spiritByWeight(share), share]) {
        const [[cautious, low, high]] = flashGuess(weight) as number[][];
        expect(low).toBeLessThanOrEqual(celsius);
        expect(high).toBeGreaterThanOrEqual(celsius);
        // Cautious: never above the table, but for the last digit of finding a place in it.
        if (share > 0.05 && share < 0.96) expect(cautious).toBeLessThanOrEqual(celsius + 1e-6);
      }
    }
  });

  test("a product with 10 % isopropanol, measured at 40 C, lies in its rough range (PHMSA 06-0191)", () => {
    const [[, low, high, word]] = flashGuess(0, 0.1) as [number, number, number, string][];
    const measured = published("fp_ipa10_phmsa").expected;
    expect(low).toBeLessThanOrEqual(measured);
    expect(high).toBeGreaterThanOrEqual(measured);
    expect(word).toMatch(/^rough, with isopropanol: /);
  });

  test("near 23, 38 and 60 it decides nothing", () => {
    for (let percent = 1; percent <= 100; percent++) {
      for (const propanol of [0, 0.1]) {
        if (percent / 100 + propanol > 1) continue;
        const [[guess, low, high, word]] = flashGuess(percent / 100, propanol) as [
          number,
          number,
          number,
          string,
        ][];
        expect(low).toBeLessThanOrEqual(guess);
        expect(high).toBeGreaterThanOrEqual(guess);
        const isNear = [23, 38, 60].some((cutOff) => low <= cutOff && cutOff <= high);
        if (isNear) expect(word).toContain("test needed");
        else expect(word).toMatch(/an estimate, not a test$|test needed/);
      }
    }
  });

  test("refusals", () => {
    refuses(() => flashGuess(0), "ethanol and propanol together is blank or zero");
    refuses(() => flashGuess(0.7, 0.4), "ethanol and propanol must be 100 % at most, got 110 %");
    refuses(() => flashGuess(60), "ethanol must be from 0 % to 100 %, got 6000 %: type 60 %");
  });
});

describe("FLAMECLASS at the cut-offs of 29 CFR 1910.1200 app. B.6", () => {
  test.each(rowsOf("flammability").filter(({ id }) => id.startsWith("ghs_")))(
    "$id: $inputs is $expected",
    ({ inputs, expected }) => {
      const [, flash, boiling] = /FP ([\d.]+) C(?:, IBP ([\d.]+) C)?/.exec(inputs) ?? [];
      const category = flameClass(Number(flash), boiling ? Number(boiling) : undefined)[0][0];
      expect(String(category)).toBe(expected);
    },
  );

  test("boiling is asked for only where it decides", () => {
    refuses(() => flameClass(17), "boiling is needed below a flash point of 23, got a flash of 17");
    expect(flameClass(-5, 0)).toEqual([[1]]);
    expect(flameClass(23)).toEqual([[3]]);
  });
});

describe("NETLABEL", () => {
  const text = (volume: number, unit: string) => netLabel(volume, unit)[0][0];

  test.each(rowsOf("net contents").filter(({ id }) => id.startsWith("decl_")))(
    "$id: $inputs is $expected",
    ({ id, inputs, expected }) => {
      const [, size, unit] = /^(\d+) (fl oz|mL)/.exec(inputs) ?? [];
      expect(text(Number(size), unit)).toContain(
        `${expected} ${id.endsWith("floz") ? "mL" : "fl oz"}`,
      );
    },
  );

  test("never overstates", () => {
    for (let ml = 1; ml < 4000; ml += 0.37) {
      const [, ounces, metric, unit] =
        /^([\d.]+) fl oz \(([\d.]+) (mL|L)\)$/.exec(String(text(ml, "mL"))) ?? [];
      expect(Number(ounces) * 29.5735295625).toBeLessThanOrEqual(ml * (1 + 1e-11));
      expect(Number(metric) * (unit === "L" ? 1000 : 1)).toBeLessThanOrEqual(ml * (1 + 1e-11));
      expect(Number(metric) * (unit === "L" ? 1000 : 1)).toBeGreaterThan(ml * 0.89);
    }
  });

  test("whole sizes stay whole", () => {
    expect(text(4, "floz")).toBe("4 fl oz (118 mL)");
    expect(text(1, "gal")).toBe("128 fl oz (3.78 L)");
    expect(text(100, "mL")).toBe("3.3 fl oz (100 mL)");
    expect(text(1, "L")).toBe("33.8 fl oz (1 L)");
    expect(text(10, "mL")).toBe("0.33 fl oz (10 mL)");
    refuses(
      () => text(4, "oz"),
      "unit must be a unit of volume (mL L tsp tbsp floz pt qt gal impfloz impgal), got oz, a unit of weight",
    );
    refuses(() => text(0.1, "mL"), "volume must be 1 mL or more to be printed, got 0.1 mL");
  });
});
