import { serialOf } from "../../sheets/days.ts";

/** The invented workshop's materials: suppliers, oils, prices and lots are made up. */
export interface DemoMaterial {
  name: string;
  what: string;
  supplier: string;
  standing?: string;
  price?: number;
  size?: number;
  unit?: string;
  density?: number;
  packs?: number;
  freight?: number;
  freefrom?: number;
  lost?: number;
  counted?: number;
  countedon?: number;
  least?: number;
  lot?: string;
  opened?: number;
  useby?: number;
  vocpart?: number;
  /** Of the five kinds of product, in the order of the headings. */
  limits?: (number | string | null)[];
  flash?: number;
  hazard?: string;
  sheetdate?: number;
  disclosed?: string;
  score?: number;
  pick?: string;
  sampleprice?: number;
  samplesize?: number;
  sampleunit?: string;
  days?: number;
  /** Of a base, the most oil that it takes. */
  takes?: number;
  strong?: string;
  notes?: string;
}

export const day = (year: number, month: number, date: number): number =>
  serialOf(Date.UTC(year, month - 1, date));

const COUNTED = day(2026, 9, 1);
const alder = { supplier: "Alder Row", packs: 1, freight: 14.5, freefrom: 75, lost: 0.02, days: 4 };
const bluepost = {
  supplier: "Bluepost Chandlery",
  packs: 1,
  freight: 12.75,
  freefrom: 100,
  lost: 0.02,
  days: 6,
};
const drovers = {
  supplier: "Drovers Wharf",
  packs: 1,
  freight: 22,
  freefrom: 120,
  lost: 0.02,
  days: 9,
};
const rain = {
  ...bluepost,
  name: "Rain on Slate",
  what: "fragrance oil",
  unit: "oz",
  density: 0.95,
  vocpart: 1,
  limits: [0.08, 0.08, 0.02, 0.2, 0.12],
  flash: 78,
  hazard: "yes",
  disclosed: "part named",
  sheetdate: day(2026, 2, 10),
};
const cedar = {
  ...drovers,
  name: "Attic Cedar",
  what: "fragrance oil",
  unit: "mL",
  density: 0.94,
  vocpart: 1,
  limits: ["not limited", "not limited", 0.05, "not limited", "not limited"],
  flash: 84,
  hazard: "no",
  disclosed: "all named",
  sheetdate: day(2026, 3, 2),
};
const orchard = {
  ...alder,
  name: "Salt Orchard",
  strong: "yes",
  what: "fragrance oil",
  unit: "oz",
  density: 0.96,
  vocpart: 1,
  limits: [0.1, 0.1, 0.04, 0.25, 0.1],
  flash: 71,
  hazard: "not known",
  disclosed: "part named",
  sheetdate: day(2026, 1, 20),
};
const clear = {
  ...alder,
  name: "Alder Clear",
  takes: 0.08,
  what: "base",
  density: 0.85,
  vocpart: 0.2,
  flash: 24,
  hazard: "yes",
  disclosed: "all named",
  sheetdate: day(2026, 4, 12),
};
const counted = (amount: number, least: number, lot: string, months = 12) => ({
  counted: amount,
  countedon: COUNTED,
  least,
  lot,
  opened: COUNTED,
  useby: day(2026, 9 + months, 1),
});

export const DEMO_MATERIALS: DemoMaterial[] = [
  {
    ...clear,
    standing: "in use",
    price: 46,
    size: 1,
    unit: "gal",
    sampleprice: 9,
    samplesize: 4,
    sampleunit: "floz",
    score: 4,
    pick: "pick",
    notes: "fine mist, dries clear",
    ...counted(5200, 1500, "AC-118"),
  },
  { ...clear, standing: "offer", price: 15.5, size: 1, unit: "qt" },
  { ...clear, standing: "offer", price: 199, size: 5, unit: "gal" },
  {
    ...bluepost,
    name: "Bluepost Soft",
    takes: 0.06,
    what: "base",
    standing: "in use",
    price: 39,
    size: 8,
    unit: "lb",
    density: 0.93,
    vocpart: 0.15,
    flash: 27,
    hazard: "yes",
    disclosed: "part named",
    sheetdate: day(2025, 11, 3),
    sampleprice: 7.5,
    samplesize: 4,
    sampleunit: "oz",
    score: 3,
    pick: "no",
    notes: "soft on cloth, slow to dry",
    ...counted(3000, 1000, "BS-40"),
  },
  {
    ...drovers,
    name: "Drovers Dry",
    what: "base",
    standing: "in use",
    price: 61,
    size: 5,
    unit: "L",
    packs: 2,
    density: 0.82,
    vocpart: 0.6,
    flash: 19,
    hazard: "yes",
    disclosed: "not disclosed",
    sampleprice: 11,
    samplesize: 100,
    sampleunit: "mL",
    score: 4,
    pick: "reserve",
    notes: "dries fastest, sharp opening",
  },
  {
    name: "Drovers Mild",
    what: "base",
    supplier: "Drovers Wharf",
    standing: "sample only",
    density: 0.9,
    disclosed: "part named",
    sampleprice: 6,
    samplesize: 50,
    sampleunit: "mL",
    days: 9,
    notes: "a sample, no quote yet",
  },
  { ...rain, standing: "offer", price: 8.9, size: 4 },
  { ...rain, standing: "offer", price: 15.6, size: 8 },
  { ...rain, standing: "in use", price: 27.4, size: 1, unit: "lb", ...counted(610, 120, "RS-7") },
  { ...cedar, standing: "offer", price: 6.8, size: 50 },
  { ...cedar, standing: "in use", price: 11.9, size: 100, ...counted(180, 60, "CE-22") },
  { ...cedar, standing: "offer", price: 26, size: 250 },
  { ...orchard, standing: "in use", price: 17.2, size: 8, ...counted(300, 60, "SO-3") },
  {
    ...bluepost,
    name: "Field Wax",
    takes: 0.1,
    what: "wax",
    standing: "in use",
    price: 31,
    size: 10,
    unit: "lb",
    density: 0.9,
    disclosed: "all named",
    ...counted(6800, 1500, "FW-9"),
  },
  {
    ...bluepost,
    name: "Cotton wick",
    what: "wick",
    standing: "in use",
    price: 9.5,
    size: 100,
    unit: "piece",
    ...counted(140, 30, "W-1", 36),
  },
  {
    ...bluepost,
    name: "Jar 8 oz",
    what: "jar",
    standing: "in use",
    price: 21,
    size: 12,
    unit: "piece",
    packs: 2,
    ...counted(40, 12, "J-8", 60),
  },
  {
    ...alder,
    name: "Bottle 2 fl oz",
    what: "bottle",
    standing: "in use",
    price: 26,
    size: 40,
    unit: "piece",
    lost: 0.01,
    ...counted(120, 40, "B2", 60),
  },
  {
    ...alder,
    name: "Bottle 4 fl oz",
    what: "bottle",
    standing: "in use",
    price: 34,
    size: 40,
    unit: "piece",
    lost: 0.01,
    ...counted(150, 40, "B4", 60),
  },
  {
    ...alder,
    name: "Bottle 8 fl oz",
    what: "bottle",
    standing: "in use",
    price: 30,
    size: 24,
    unit: "piece",
    lost: 0.01,
    ...counted(60, 24, "B8", 60),
  },
  {
    ...alder,
    name: "Bottle 16 fl oz",
    what: "bottle",
    standing: "in use",
    price: 41,
    size: 24,
    unit: "piece",
    lost: 0.01,
    ...counted(30, 12, "B16", 60),
  },
  {
    ...alder,
    name: "Fine sprayer",
    what: "sprayer",
    standing: "in use",
    price: 38,
    size: 100,
    unit: "piece",
    lost: 0.02,
    ...counted(310, 100, "S-2", 60),
  },
  {
    ...drovers,
    name: "Label",
    what: "label",
    standing: "in use",
    price: 24,
    size: 200,
    unit: "piece",
    lost: 0.05,
    ...counted(420, 100, "L-5", 60),
  },
  {
    ...drovers,
    name: "Box",
    what: "box",
    standing: "in use",
    price: 30,
    size: 100,
    unit: "piece",
    ...counted(90, 50, "X-1", 60),
  },
];
