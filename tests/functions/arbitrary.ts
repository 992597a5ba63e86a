/** What a sheet may hand to a function: nonsense, and mostly sense. */
import fc from "fast-check";
import { UNIT_WORDS } from "../../src/units";
import { type CatalogEntry, wordsOf } from "../../functions/catalog/entry";
import type { Kind } from "../../functions/catalog/kinds";

/** What a sheet may hand over, sense or nonsense. */
const cell = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
  { weight: 4, arbitrary: fc.integer({ min: 0, max: 60 }) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 2, arbitrary: fc.constantFrom("", null, undefined, 0) },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      "g",
      "lb",
      "mL",
      "floz",
      "base",
      "finished",
      "volume",
      "weight",
      "yes",
      "up",
      "down",
      "not limited",
      "-",
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 6 }) },
  { weight: 1, arbitrary: fc.boolean() },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      { type: "Error", basicValue: "#DIV/0!" },
      { type: "Double", basicValue: 0.5 },
      {},
    ),
  },
);
const argument = fc.oneof(
  { weight: 5, arbitrary: cell },
  {
    weight: 4,
    arbitrary: fc
      .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
      .chain(([rows, columns]) =>
        fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
          minLength: rows,
          maxLength: rows,
        }),
      ),
  },
);

export function nonsense(entry: CatalogEntry): fc.Arbitrary<unknown[]> {
  return fc.array(argument, { minLength: 0, maxLength: entry.params.length });
}

/** Mostly sense: what the argument asks for, so that the functions themselves are reached. */
const sense: Partial<Record<Kind, fc.Arbitrary<unknown>>> = {
  unit: fc.constantFrom(...UNIT_WORDS.keys(), " Fl. Oz. ", "oz.", "gr"),
  pack: fc.constantFrom("1 lb", "4 x 250 mL", "1/2 gal", "3.5 oz sample", "10.000 mL", "1-2 lb", 5),
  share: fc.constantFrom(0, 0.01, 0.05, 0.25, 0.5, 0.95, 1),
  limit: fc.constantFrom(0.01, 0.1, 1, "not limited", "not approved"),
  celsius: fc.integer({ min: -30, max: 95 }),
  count: fc.integer({ min: 0, max: 40 }),
  yesno: fc.constantFrom("yes", "no", 1, 0),
  label: fc.constantFrom("up", "down"),
  score: fc.constantFrom(0, 1, 2, 5, 8, "-", ""),
};
const anyNumber = fc.oneof(
  fc.integer({ min: 0, max: 30 }),
  fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
);

export function sensible(entry: CatalogEntry): fc.Arbitrary<unknown[]> {
  return calls(entry, anyNumber, 4);
}

/** Numbers at the ends of what a cell holds, and so far apart that sums lose one of them. */
const absurd = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(5e-324, 1e-310, 1e-300, 1e-12, 1e14, 1e300, 1.7e308) },
  { weight: 2, arbitrary: fc.double({ min: -1e15, max: 1e15, noNaN: true }) },
  { weight: 2, arbitrary: anyNumber },
  { weight: 1, arbitrary: fc.constantFrom(0, 1, 1 - 2 ** -53, 1 + 2 ** -52, -1e-12) },
);

/** Calls of a sensible shape with numbers that nobody weighs, in lists of up to 60 lines. */
export function extreme(entry: CatalogEntry): fc.Arbitrary<unknown[]> {
  return calls(entry, absurd, 60, true);
}

/** A call of any shape. */
export function anyCall(entry: CatalogEntry): fc.Arbitrary<unknown[]> {
  return fc.oneof(nonsense(entry), sensible(entry), extreme(entry));
}

function calls(
  entry: CatalogEntry,
  numbers: fc.Arbitrary<number>,
  most: number,
  isWild = false,
): fc.Arbitrary<unknown[]> {
  const numberOf = (kind: Kind) => {
    const known = sense[kind] ?? numbers;
    return isWild ? fc.oneof(known, numbers) : known;
  };
  return fc
    .tuple(fc.integer({ min: 1, max: most }), fc.integer({ min: 1, max: 3 }))
    .chain(([length, width]) =>
      fc.tuple(
        ...entry.params.map((param) => {
          const isWord = param.kind === "choice";
          // Mostly a word that it takes, and now and then a word of another function.
          const words = isWord ? [...wordsOf(param), ...wordsOf(param), "base", "volume"] : [];
          const filled = isWord ? fc.constantFrom(...words) : numberOf(param.kind);
          const one = fc.oneof(
            { weight: 30, arbitrary: filled },
            { weight: 1, arbitrary: fc.constantFrom("", null) },
          );
          const across = param.kind === "number" && param.range ? width : 1;
          const row = fc.array(one, { minLength: across, maxLength: across });
          const given = param.range ? fc.array(row, { minLength: length, maxLength: length }) : one;
          return param.optional ? fc.option(given, { nil: undefined }) : given;
        }),
      ),
    );
}
