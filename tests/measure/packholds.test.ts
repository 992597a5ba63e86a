import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CalcError, packHolds, turn } from "../../src/index";
import { PASSED_OVER } from "../../src/packs";
import { UNIT_WORDS, unitOf } from "../../src/units";
import { refuses } from "../refuses";

describe("what price lists write", () => {
  // By hand, from what a person in the trade reads there; 16 oz to the pound, 128 fl oz to the gallon.
  test.each<[string, number, string]>([
    ["1 lb", 16, "oz"],
    ["32 oz", 2, "lb"],
    ["32 fl oz", 1, "qt"],
    ["16 FL. OZ.", 16, "floz"],
    ["1 gal", 128, "floz"],
    ["1gal.", 128, "floz"],
    ["5-gallon pail", 640, "floz"],
    ["3.5 oz sample", 3.5, "oz"],
    ["4 x 250 mL", 1, "L"],
    ["4×250ml", 1000, "mL"],
    ["2 * 1 lb", 32, "oz"],
    ["250 mL x 4", 1, "L"],
    ["case of 4 x 1 gal", 4, "gal"],
    ["2 x 12 x 30 ml", 720, "mL"],
    ["four x 1/2 gal", 2, "gal"],
    ["1/2 gal", 64, "floz"],
    ["½ gal", 64, "floz"],
    ["1 1/2 lb", 24, "oz"],
    ["1½ lb", 24, "oz"],
    ["half gallon jug", 64, "floz"],
    ["half a pound", 8, "oz"],
    ["quarter pound", 4, "oz"],
    ["two pounds", 2, "lb"],
    ["0,5 L", 500, "mL"],
    ["0.125 lb", 2, "oz"],
    ["2,25 kg", 2250, "g"],
    ["1,250.5 g", 1250.5, "g"],
    ["1.250,5 g", 1250.5, "g"],
    ["1,000,000 mg", 1, "kg"],
    [".5 oz", 0.5, "oz"],
    ["approx. 5 lb", 5, "lb"],
    ["5 lb approx.", 5, "lb"],
    ["bag of 5 lbs", 5, "lb"],
    ["1 gal, jug", 1, "gal"],
    ["1 gal (drum)", 1, "gal"],
    ["  8\u00a0ounces ", 8, "oz"],
    ["1 imperial gallon", 1, "impgal"],
    ["10 l", 10, "L"],
  ])("%s", (text, amount, unit) => {
    expect(packHolds(text, unit)).toBeCloseTo(amount, 12);
  });
});

describe("what may mean two things, or is none of its business, is refused", () => {
  test.each<[string, string]>([
    ["1 lb or 16 fl oz", "more than one size"],
    ["16 fl oz (473 mL)", "more than one size"],
    ["1 lb 8 oz", "more than one size"],
    ["10.000 ml", "10.000 may be 10000, or 10.0000: write it so"],
    ["1,000 g", "1,000 may be 1000, or 1.0000: write it so"],
    ["3.785 L", "3.785 may be 3785, or 3.7850: write it so"],
    ["4/1 gal", 'write "4 x 1 gal" for several packs'],
    ["12/30 ml", "is not a plain fraction"],
    ["5 G", '"G" may be grams or gallons'],
    ["case of 1 gal", "how many of them is not clear"],
    ["4 x 250 mL x 2", "how many of them is not clear"],
    ["16 oz by volume", "is not a unit"],
    ["1 l b", "is not a unit"],
    ["1 g al", "is not a unit"],
    ["1 gal case", "is not a unit"],
    ["5 cups", "is not a unit"],
    ["0 oz", "nothing is in it"],
    ["1.2.3 oz", "is not a number"],
    ["1,00,000 g", "is not a number"],
  ])("%s", (text, why) => {
    expect(() => packHolds(text, "oz", 1)).toThrow(`got "${text}"`);
    expect(() => packHolds(text, "oz", 1)).toThrow(why);
  });

  test.each(
    (
      "case of 4|5 oz 20 %|1-2 lb|-5 oz|5|oz|a dozen|a dozen x 30 ml|5#|~5 lb|5 oz/bottle|16oz/473ml|1-1/2 lb|1e3 g|" +
      "12 bottles of 30 ml|2 pack 16 oz|16 oz, pack of 4|5 in|4 x 6 in|4 250 ml|1 000 ml|2.5 x 1 lb|1/0 lb|2/4 lb|" +
      "5 lb?|lb 5|five|onelb|5 x lb|x 5 lb|16 oz x|50 % of 1 lb|1 lb + 1 lb|2 half gallons|5 oz sample 2"
    ).split("|"),
  )("%s", (text) => {
    expect(() => packHolds(text, "oz", 1)).toThrow(CalcError);
  });

  test("an ounce is a weight: fluid ounces need the density, and none is assumed", () => {
    refuses(
      () => packHolds("32 oz", "floz"),
      "density is needed: oz is a weight and floz a volume; weigh a known volume to find it",
    );
    expect(packHolds("32 oz", "floz", 0.85)).toBeCloseTo(turn(32, "oz", "floz", 0.85), 12);
  });

  test("a blank is blank, and a number has no unit", () => {
    refuses(() => packHolds("", "oz"), "text is blank");
    refuses(() => packHolds(Number.NaN, "oz"), "text is blank");
    expect(() => packHolds(5, "oz")).toThrow('got "5"');
  });
});

const unit = fc.constantFrom(...UNIT_WORDS.keys());
const count = fc.integer({ min: 1, max: 48 });

test("what is written in any of the ways reads back", () => {
  const size = fc.integer({ min: 1, max: 99_999 }).map((n) => n / 100);
  const written = (n: number) => {
    const text = n.toFixed(2);
    return [text, text.replace(".", ","), String(n), String(n).replace(".", ",")];
  };
  fc.assert(
    fc.property(
      count,
      size.chain((n) => fc.constantFrom(...written(n)).map((text) => ({ n, text }))),
      unit,
      fc.constantFrom("", " ", "-"),
      fc.constantFrom(" x ", "x", "×", " * "),
      fc.constantFrom("", " sample", ", jug", " (drum)", " bag approx."),
      (many, { n, text }, word, gap, by, tail) => {
        const answer = many * turn(n, word, word);
        const [of] = [unitOf("unit", word).name];
        expect(packHolds(`${many}${by}${text}${gap}${word}${tail}`, of)).toBeCloseTo(answer, 8);
        expect(packHolds(`${text}${gap}${word}${tail}${by}${many}`, of)).toBeCloseTo(answer, 8);
      },
    ),
    { numRuns: 1000 },
  );
});

describe("whatever stands there, no wrong number comes of it", () => {
  type Token = { sort: "number" | "by" | "unit" | "word" | "other"; text: string; value?: number };
  const as =
    (sort: Token["sort"]) =>
    (text: string): Token => ({ sort, text });
  const number = (text: string, value: number): Token => ({ sort: "number", text, value });
  const token = fc.oneof(
    { weight: 4, arbitrary: fc.integer({ min: 1, max: 60 }).map((n) => number(String(n), n)) },
    { weight: 1, arbitrary: fc.constantFrom(number("2.5", 2.5), number("0,5", 0.5)) },
    { weight: 2, arbitrary: fc.constant(as("by")("x")) },
    { weight: 4, arbitrary: fc.constantFrom("lb", "oz", "fl oz", "mL", "gallons").map(as("unit")) },
    { weight: 2, arbitrary: fc.constantFrom(...PASSED_OVER).map(as("word")) },
    {
      weight: 1,
      arbitrary: fc
        .constantFrom("%", "or", "-", "/", "of", "by volume", "dozen", "G")
        .map(as("other")),
    },
  );

  /** Read from the tokens, not from the text: N x N x SIZE UNIT, or SIZE UNIT x N, and words around ("jug of"). */
  function meant(tokens: Token[]): number | undefined {
    const sorts = tokens.map(({ sort, text }) => (text === "of" ? "f" : sort[0])).join("");
    if (!/^(w+f?)?(nb)*nuw*$|^(w+f?)?nuw*bn$/.test(sorts)) return undefined;
    const numbers = tokens.flatMap(({ value }) => value ?? []);
    // All but the size count packs, and there are only whole ones.
    const counts = [...numbers];
    counts.splice(/bn$/.test(sorts) ? 0 : numbers.length - 1, 1);
    if (counts.some((n) => !Number.isInteger(n))) return undefined;
    return numbers.reduce((a, b) => a * b, 1);
  }

  test("10,000 rows of words, numbers and units", () => {
    let read = 0;
    const run = (tokens: Token[]) => {
      const text = tokens.map((each) => each.text).join(" ");
      const wanted = meant(tokens);
      const name = tokens.find(({ sort }) => sort === "unit")?.text ?? "g";
      if (wanted === undefined) expect(() => packHolds(text, "oz", 1), text).toThrow(CalcError);
      else {
        expect(packHolds(text, name), text).toBeCloseTo(wanted, 8);
        read++;
      }
    };
    fc.assert(fc.property(fc.array(token, { minLength: 1, maxLength: 6 }), run), {
      numRuns: 10_000,
    });
    expect(read).toBeGreaterThan(50);
  });

  test("any text at all gives a number above zero or an error in words", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[\d.,x/ ½-]{0,8}[a-z. ]{0,8}$/)),
        (text) => {
          try {
            expect(packHolds(text, "oz", 1)).toBeGreaterThan(0);
          } catch (error) {
            expect(error).toBeInstanceOf(CalcError);
          }
        },
      ),
      { numRuns: 5000 },
    );
  });
});
