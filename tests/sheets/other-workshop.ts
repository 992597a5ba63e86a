/** Another workshop than the demo's, in a whole set inserted empty: five ingredients, four sizes. */
import { wholeSet } from "./whole-set";

type Value = string | number | null;
type Line = Record<string, Value>;

const bought = { packs: 1, freight: 0, lost: 0 };
const piece = { ...bought, size: 10, unit: "piece" };

/** What is bought; HUSH has no price yet. */
const MATERIALS: Line[] = [
  {
    ...bought,
    name: "Fen",
    what: "base",
    price: 58,
    size: 5,
    unit: "L",
    density: 0.83,
    freight: 9,
    lost: 0.01,
  },
  {
    ...bought,
    name: "Lark",
    what: "fragrance oil",
    price: 44,
    size: 500,
    unit: "mL",
    density: 0.96,
  },
  { ...bought, name: "Moss", what: "fragrance oil", price: 13, size: 4, unit: "oz", density: 1.02 },
  { ...bought, name: "Glow", what: "additive", price: 8, size: 250, unit: "g", density: 1.1 },
  { ...bought, name: "Hush", what: "additive", price: null, size: 100, unit: "g", density: 1.25 },
  { ...piece, name: "Vial", what: "bottle", price: 7 },
  { ...piece, name: "Flask", what: "bottle", price: 11 },
  { ...piece, name: "Pump", what: "sprayer", price: 4 },
  { ...piece, name: "Tag", what: "label", price: 1.5 },
  { ...piece, name: "Case", what: "box", price: 6, lost: 0.05 },
];

/** Loads of the base. */
const RECIPE: Line[] = [
  { recipe: "Harbour", material: "Fen", of: "base", kind: "room spray" },
  { recipe: "Harbour", material: "Lark", load: 0.05 },
  { recipe: "Harbour", material: "Moss", load: 0.02 },
  { recipe: "Harbour", material: "Glow", load: 0.01 },
  { recipe: "Harbour", material: "Hush", load: 0.004 },
];

/** The refill has no label, no sprayer and no box, and is sold by weight. */
const SIZES: Line[] = [
  {
    size: "Small",
    holds: 30,
    unit: "mL",
    overfill: 0.03,
    bottle: "Vial",
    sprayer: "Pump",
    label: "Tag",
    box: "Case",
    minutes: 2,
  },
  {
    size: "Middle",
    holds: 4,
    unit: "floz",
    overfill: 0.03,
    bottle: "Flask",
    sprayer: "Pump",
    label: "Tag",
    minutes: 3,
  },
  {
    size: "Large",
    holds: 250,
    unit: "mL",
    overfill: 0.02,
    bottle: "Flask",
    sprayer: "Pump",
    label: "Tag",
    box: "Case",
    minutes: 4,
  },
  { size: "Refill", holds: 1, unit: "lb", overfill: 0, bottle: "Flask", minutes: 1.5 },
];

/** The same by hand: grams in a gram of the batch, dollars a gram, mL and pieces. */
export const BY_HAND = {
  shares: [1, 0.05, 0.02, 0.01, 0.004].map((load) => load / 1.084),
  perGram: (hush: number) => [
    67 / (5000 * 0.83) / 0.99,
    44 / (500 * 0.96),
    13 / (4 * 28.349523125),
    8 / 250,
    hush / 100,
  ],
  density: 1.084 / (1 / 0.83 + 0.05 / 0.96 + 0.02 / 1.02 + 0.01 / 1.1 + 0.004 / 1.25),
  /** Grams in one bottle of each size. */
  fills: (density: number) => [
    30 * density * 1.03,
    4 * 29.5735295625 * density * 1.03,
    250 * density * 1.02,
    453.59237,
  ],
  /** Bottle, sprayer, label and box of each size. */
  pieces: [
    [0.7, 0.4, 0.15, 0.6 / 0.95],
    [1.1, 0.4, 0.15, 0],
    [1.1, 0.4, 0.15, 0.6 / 0.95],
    [1.1, 0, 0, 0],
  ],
  minutes: [2, 3, 4, 1.5],
};

/** The whole set with this workshop typed into it. */
export async function otherWorkshop() {
  const set = await wholeSet(false);
  const lines = {
    Materials: ["materials", MATERIALS],
    Recipes: ["recipes", RECIPE],
    Sizes: ["sizes", SIZES],
  } as const;
  for (const [title, [list, all]] of Object.entries(lines)) {
    const { spotOf } = await set.on(title);
    await set.workbook.write(
      all.flatMap((line, i) =>
        Object.entries(line).map(([name, content]) => {
          return { spot: spotOf(`${list}.${name}`, i, 0), content };
        }),
      ),
    );
  }
  return set;
}
