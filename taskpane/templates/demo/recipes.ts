/** The invented workshop's recipes and sizes. */
interface DemoLine {
  recipe: string;
  kind?: string;
  material: string;
  load?: number;
  of?: string;
}

export const DEMO_RECIPES: DemoLine[] = [
  { recipe: "Rain room", kind: "room spray", material: "Alder Clear", of: "finished" },
  { recipe: "Rain room", material: "Rain on Slate", load: 0.04 },
  { recipe: "Rain room", material: "Attic Cedar", load: 0.01 },
  { recipe: "Rain linen", kind: "linen spray", material: "Bluepost Soft", of: "finished" },
  { recipe: "Rain linen", material: "Rain on Slate", load: 0.03 },
  { recipe: "Orchard body", kind: "body spray", material: "Alder Clear", of: "finished" },
  { recipe: "Orchard body", material: "Salt Orchard", load: 0.03 },
  { recipe: "Rain candle", kind: "candle", material: "Field Wax", of: "base" },
  { recipe: "Rain candle", material: "Rain on Slate", load: 0.06 },
];

/** Common practice, no source: to be typed over. */
export const DEMO_KINDS: [kind: string, least: number, most: number, strong: number][] = [
  ["room spray", 0.05, 0.07, 0.05],
  ["linen spray", 0.02, 0.05, 0.03],
  ["body spray", 0.03, 0.05, 0.03],
  ["diffuser", 0.15, 0.25, 0.15],
  ["candle", 0.05, 0.08, 0.06],
];

interface DemoSize {
  size: string;
  holds: number;
  unit: string;
  overfill: number;
  bottle: string;
  sprayer: string;
  label: string;
  box?: string;
  minutes: number;
}

const spray = { unit: "floz", overfill: 0.02, sprayer: "Fine sprayer", label: "Label", minutes: 3 };

export const DEMO_SIZES: DemoSize[] = [
  { ...spray, size: "2 fl oz", holds: 2, bottle: "Bottle 2 fl oz" },
  { ...spray, size: "4 fl oz", holds: 4, bottle: "Bottle 4 fl oz" },
  { ...spray, size: "8 fl oz", holds: 8, bottle: "Bottle 8 fl oz", box: "Box", minutes: 4 },
  { ...spray, size: "16 fl oz", holds: 16, bottle: "Bottle 16 fl oz", box: "Box", minutes: 5 },
  {
    size: "Jar",
    holds: 200,
    unit: "g",
    overfill: 0,
    bottle: "Jar 8 oz",
    sprayer: "Cotton wick",
    label: "Label",
    box: "Box",
    minutes: 6,
  },
];
