import { ALLERGENS } from "./limits-check/allergens.ts";
import { LIMITS, LOADS, VOC_BY_RULE } from "./limits-check/answers.ts";
import { composition } from "./limits-check/composition.ts";
import { drawnLines } from "./limits-check/drawn.ts";
import { FLASH_POINTS } from "./limits-check/flash.ts";
import { PRODUCT, recipe } from "./limits-check/product.ts";
import { CATEGORIES, LISTS, POINTERS, RULES } from "./limits-check/tables.ts";
import { workings } from "./limits-check/workings.ts";
import type { Part } from "../sheets/parts.ts";
import type { Template } from "../sheets/template.ts";

/** Ingredients of a product: those of its base, and its oils. */
const LINES = 20;

const HEAD: Part[] = [
  { text: "title", rows: ["Limits check"] },
  {
    text: "note",
    rows: [
      "Type over the cream cells. Composition by weight, as the safety data sheets give it: ranges may stay ranges.",
      "What is not disclosed is not nothing: give it a line, from the least to the most that it could be.",
      "A blank is never taken for a zero or a no.",
      "Numbers marked estimate are estimates. Rules that were not read whole say so: look them up.",
    ],
  },
  {
    text: "caution",
    rows: [
      "Arithmetic only: the safety data sheet, the certificate, a test or a licensed person decides.",
    ],
  },
];

const CAUTIONS: Part[] = [
  { gap: 1, paper: "new page", text: "section", rows: ["Before anyone uses it"] },
  {
    text: "caution",
    rows: [
      "Air and fire: pour and spray with air moving, away from flames, pilot lights, heaters and sparks.",
      "Keep it closed and cool.",
      "Cloth and wood: spray a hidden spot first, let it dry, look for stain, film and colour.",
      "Finishes and silk are at risk.",
      "Skin: a room or linen spray is not a body mist. Skin use has its own category, limits and labelling.",
      "Pets and children: keep away until dry, out of reach, and never on bedding of pets.",
      "Some oils are toxic to cats and birds.",
      "Law: labels, storage, transport and sale have rules where you are.",
      "Ask the authority, the carrier and your insurer.",
    ],
  },
];

/** The parts of a sheet that has room for so many ingredients. */
export const partsFor = (lines: number): Part[] => [
  ...HEAD,
  ...recipe(lines),
  ...PRODUCT,
  ...composition(lines),
  ...LIMITS,
  ...VOC_BY_RULE,
  ...FLASH_POINTS,
  ...LOADS,
  ...POINTERS,
  ...RULES,
  ...CATEGORIES,
  ...CAUTIONS,
  ...LISTS,
  ...workings(lines),
  ...drawnLines(lines),
  // It grows: nothing stands under it.
  ...ALLERGENS,
];

/** One product's composition beside each limit, as ranges. It is arithmetic; it decides nothing. */
export const template: Template = {
  title: "Limits check",
  use: "One product's composition beside skin, VOC, transport and flash limits, as ranges with sources.",
  words:
    "safe, skin, IFRA, legal, flammable, post, mail, ship, transport, dangerous goods, VOC, rules, allergens, body, candle, linen",
  step: 12,
  // No wider in all than a page can be read: what runs on has no columns to be repeated beside it.
  widths: [
    ...[206, 236, 64, 64, 76, 76, 70, 78, 96, 104, 84, 80, 60, 96, 76, 48],
    // Right of what is printed: headings in one line, as others would make rows at the left taller.
    ...Array.from({ length: 16 }, () => 256),
  ],
  parts: partsFor(LINES),
  page: {
    landscape: true,
    columns: 1,
    caution:
      "Arithmetic, with estimates: the safety data sheet, the certificate, a test or a licensed person decides.",
  },
};
