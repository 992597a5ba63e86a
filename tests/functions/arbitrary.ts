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
  return fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 }))
    .chain(([length, width]) =>
      fc.tuple(
        ...entry.params.map((param) => {
          const isWord = param.kind === "choice";
          // Mostly a word that it takes, and now and then a word of another function.
          const words = isWord ? [...wordsOf(param), ...wordsOf(param), "base", "volume"] : [];
          const filled = isWord ? fc.constantFrom(...words) : (sense[param.kind] ?? anyNumber);
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
