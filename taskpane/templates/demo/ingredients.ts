/** What is in the invented workshop's bases: ingredients, words and ranges are made up. */
export const DEMO_BASES = ["Alder Clear", "Bluepost Soft", "Drovers Dry"];

type Found = [place: number | null, low: number | null, high: number | null];

interface DemoIngredient {
  ingredient: string;
  word?: string;
  what: string;
  vocpart: number;
  density: number;
  hazard?: string;
  /** In each of the bases: its place on the label, and the ends of its range. */
  inBases: (Found | null)[];
}

export const DEMO_INGREDIENTS: DemoIngredient[] = [
  {
    ingredient: "water",
    what: "water",
    vocpart: 0,
    density: 0.998,
    word: "like",
    inBases: [[1, 0.65, 0.75], [1, 0.7, 0.8], null],
  },
  {
    ingredient: "ethanol, denatured",
    what: "ethanol",
    vocpart: 1,
    density: 0.789,
    word: "ask",
    inBases: [
      [2, 0.15, 0.2],
      [2, 0.1, 0.15],
      [null, 0.5, 0.65],
    ],
  },
  {
    ingredient: "plant-based solubiliser",
    what: "other",
    vocpart: 0,
    density: 1.05,
    hazard: "no",
    word: "like",
    inBases: [[3, 0.03, 0.06], null, null],
  },
  {
    ingredient: "glycerol",
    what: "other",
    vocpart: 0,
    density: 1.26,
    hazard: "no",
    word: "like",
    inBases: [[4, 0.02, 0.05], null, null],
  },
  {
    ingredient: "polysorbate 20",
    what: "other",
    vocpart: 0,
    density: 1.1,
    hazard: "no",
    inBases: [null, [3, 0.03, 0.08], null],
  },
  {
    ingredient: "dimethicone",
    what: "other",
    vocpart: 0,
    density: 0.965,
    hazard: "no",
    word: "avoid",
    inBases: [null, [4, 0.01, 0.03], null],
  },
  {
    ingredient: "phenoxyethanol",
    what: "other",
    vocpart: 1,
    density: 1.11,
    hazard: "not known",
    word: "ask",
    inBases: [[5, 0.005, 0.01], [5, null, null], null],
  },
  {
    ingredient: "citric acid",
    what: "other",
    vocpart: 0,
    density: 1.66,
    hazard: "no",
    word: "like",
    inBases: [[6, 0.001, 0.003], null, null],
  },
  {
    ingredient: "isopropyl alcohol",
    what: "isopropanol",
    vocpart: 1,
    density: 0.785,
    word: "avoid",
    inBases: [null, null, [null, 0.05, 0.1]],
  },
];
