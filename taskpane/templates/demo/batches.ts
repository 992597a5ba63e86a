/** The invented workshop's batches and what was weighed for them. The day of the count is 2026-09-01. */
import { DEMO_MATERIALS, day } from "./materials.ts";
import { DEMO_SIZES } from "./recipes.ts";

interface DemoBatch {
  number: string;
  date: number;
  recipe: string;
  who: string;
  /** Sizes and bottles of each. */
  filled: [string, number][];
  /** Materials and grams, in pouring order. */
  poured: [string, number][];
  /** Where they were not those of today. */
  lots?: Partial<Record<string, string>>;
  useby: number;
  notes?: string;
}

export const DEMO_BATCHES: DemoBatch[] = [
  {
    number: "B-001",
    date: day(2026, 8, 5),
    recipe: "Rain room",
    who: "Wren",
    filled: [["4 fl oz", 12]],
    poured: [
      ["Rain on Slate", 50.4],
      ["Attic Cedar", 12.6],
      ["Alder Clear", 1198],
    ],
    lots: { "Rain on Slate": "RS-5", "Alder Clear": "AC-112" },
    useby: day(2027, 6, 1),
  },
  {
    number: "B-002",
    date: day(2026, 8, 14),
    recipe: "Rain linen",
    who: "Odell",
    filled: [["8 fl oz", 4]],
    poured: [
      ["Rain on Slate", 27.7],
      ["Bluepost Soft", 896],
    ],
    lots: { "Rain on Slate": "RS-5" },
    useby: day(2027, 6, 1),
  },
  {
    number: "B-003",
    date: day(2026, 8, 26),
    recipe: "Orchard body",
    who: "Wren",
    filled: [["2 fl oz", 10]],
    poured: [
      ["Salt Orchard", 15.8],
      ["Alder Clear", 510.6],
    ],
    lots: { "Alder Clear": "AC-112" },
    useby: day(2027, 6, 1),
  },
  {
    number: "B-004",
    date: day(2026, 9, 9),
    recipe: "Rain room",
    who: "Wren",
    filled: [
      ["2 fl oz", 6],
      ["4 fl oz", 8],
    ],
    poured: [
      ["Rain on Slate", 46.2],
      ["Attic Cedar", 11.6],
      ["Alder Clear", 1098.1],
    ],
    useby: day(2027, 9, 1),
  },
  {
    number: "B-005",
    date: day(2026, 9, 23),
    recipe: "Rain candle",
    who: "Odell",
    filled: [["Jar", 6]],
    poured: [
      ["Field Wax", 1150.9],
      ["Rain on Slate", 69.1],
    ],
    useby: day(2027, 9, 1),
  },
  {
    number: "B-006",
    date: day(2026, 10, 2),
    recipe: "Orchard body",
    who: "Wren",
    filled: [
      ["2 fl oz", 12],
      ["4 fl oz", 4],
    ],
    poured: [
      ["Salt Orchard", 31.7],
      ["Alder Clear", 1021.3],
    ],
    useby: day(2027, 9, 1),
    notes: "one bottle leaked at the sprayer and was filled again",
  },
  {
    number: "B-007",
    date: day(2026, 10, 16),
    recipe: "Rain linen",
    who: "Odell",
    filled: [["4 fl oz", 8]],
    poured: [
      ["Rain on Slate", 27.3],
      ["Bluepost Soft", 885.2],
    ],
    useby: day(2027, 9, 1),
  },
  {
    number: "B-008",
    date: day(2026, 10, 30),
    recipe: "Rain room",
    who: "Wren",
    filled: [["8 fl oz", 5]],
    poured: [
      ["Rain on Slate", 42.9],
      ["Attic Cedar", 10.3],
      ["Alder Clear", 998.4],
    ],
    useby: day(2027, 9, 1),
    notes: "a little more oil than planned, not mended",
  },
  {
    number: "B-009",
    date: day(2026, 11, 11),
    recipe: "Rain candle",
    who: "Odell",
    filled: [["Jar", 8]],
    poured: [
      ["Field Wax", 1540],
      ["Rain on Slate", 92.4],
    ],
    useby: day(2027, 9, 1),
  },
  {
    number: "B-010",
    date: day(2026, 11, 20),
    recipe: "Orchard body",
    who: "Wren",
    filled: [["4 fl oz", 6]],
    poured: [
      ["Salt Orchard", 19],
      ["Alder Clear", 612.5],
    ],
    useby: day(2027, 9, 1),
  },
];

/** What was taken for a batch: liquids by weight, then the pieces of each size. */
export const DEMO_WEIGHED = DEMO_BATCHES.flatMap(({ number, date, poured, filled, lots = {} }) =>
  [...poured, ...filled.flatMap(piecesOf)].map(([material, amount]) => {
    const known = DEMO_MATERIALS.find(
      ({ name, standing }) => name === material && standing === "in use",
    );
    return { batch: number, material, lot: lots[material] ?? known?.lot ?? null, amount, date };
  }),
);

function piecesOf([size, count]: [string, number]): [string, number][] {
  const pieces = DEMO_SIZES.filter((each) => each.size === size).flatMap(
    ({ bottle, sprayer, label, box }) => [bottle, sprayer, label, box],
  );
  return pieces.flatMap((piece) => (piece ? [[piece, count]] : []));
}

/** The bottles of a batch in words. */
export const bottlesOf = (filled: readonly (readonly [string, number])[]): string =>
  filled.map(([size, count]) => `${count} x ${size}`).join(", ");
