import { ALLERGENS } from "./limits-check/allergens";
import { LIMITS, LOADS, VOC_BY_RULE } from "./limits-check/answers";
import { FLASH_POINTS } from "./limits-check/flash";
import {
  type Block,
  CATEGORY,
  CAUTION,
  DUTY,
  KIND,
  LAST_CATEGORY,
  LAST_DUTY,
  LAST_NAME,
  LINES,
  LIST,
  MARKED,
  NONE,
  OWN_KIND,
  OWN_PLACE,
  OWN_RULES,
  PART,
  PLACE,
  PRODUCT,
  READ_FOR,
  SKIN,
  SUM,
  WORK,
  blanks,
  categoryColumn,
  cells,
  found,
  heading,
  held,
  percent,
  section,
  span,
  texts,
  worked,
} from "./limits-check/places";
import { CATEGORY_TABLE, LISTS, POINTERS, RULE_TABLE, serial } from "./limits-check/tables";
import { COLUMNS_OF_SHEET, WORKINGS } from "./limits-check/workings";
import { loadsOf, ofLoad, ofMaterial } from "../sheets/drawn";
import type { Template } from "../sheets/template";

const HEAD: Block[] = [
  texts("A1", "title", "Limits check"),
  texts(
    "A2",
    "note",
    "Type over the cream cells. Composition by weight, as the safety data sheets give it: ranges may stay ranges.",
    "What is not disclosed is not nothing: give it a line, from the least to the most that it could be. A blank is never taken for a zero or a no.",
    "Numbers marked estimate are estimates. Rules that were not read whole say so: look them up.",
  ),
  texts(
    "A5",
    "caution",
    "This sheet is arithmetic. The safety data sheet, the oil's certificate, a test or a licensed person decides.",
  ),
];

const duties = (place: string) => `COUNTIF(${held("A", DUTY, LAST_DUTY)},${place})`;
const isMist = (kind: string) => `(LEFT(${kind},9)="body mist")`;

const THE_PRODUCT: Block[] = [
  section(PRODUCT, "The product", 0),
  texts(
    `A${PRODUCT}`,
    "label",
    "Kind of product, for VOC",
    "A second kind that it also is",
    "Place where it is sold",
    "Made on (date)",
    "Kind of product, for skin",
    "Certificate category to look up",
    "Duties to look up",
  ),
  {
    at: `B${PRODUCT}`,
    look: "input",
    words: span("B", LIST, OWN_KIND + OWN_RULES - 1),
    rows: [["room spray (pump)"], [null]],
  },
  {
    at: `B${PRODUCT + 2}`,
    look: "input",
    words: span("A", LIST, OWN_PLACE + OWN_RULES - 1),
    rows: [["California"]],
  },
  {
    at: `B${PRODUCT + 3}`,
    look: "input",
    format: "yyyy-mm-dd",
    rows: [[serial("2026-11-25")]],
  },
  {
    at: `B${PRODUCT + 4}`,
    look: "input",
    words: span("A", CATEGORY, LAST_CATEGORY),
    rows: [["room spray"]],
  },
  texts(
    `B${PRODUCT + 5}`,
    "result",
    `=${found.category}&IF(${found.otherCategory}="",""," and "&${found.otherCategory}&": the lower limit")`,
    `=IF(${PLACE}="","",${duties(PLACE)}+IF(${found.federal}="",0,${duties(found.federal)})&" listed further down")`,
  ),
  texts(
    `C${PRODUCT + 1}`,
    "note",
    "Or blank. For a spray that is sold for rooms and for linen, say: then the lowest limit holds.",
  ),
  texts(
    `C${PRODUCT + 4}`,
    "note",
    `=IF(OR(${KIND}="",${SKIN}=""),"",IF(${isMist(KIND)}=${isMist(SKIN)},"","For VOC it is a "&${KIND}&", for skin a "&${SKIN}&": is that meant?"))`,
    `=IF(${found.category}="","",INDEX(${categoryColumn("D")},MATCH(${SKIN},${categoryColumn("A")},0))&"")`,
  ),
];

/** A limit above one half is said back: many that certificates print are below 1 %. */
const saidBack = (cell: string) =>
  `IF(ISNUMBER(${cell}),IF(${cell}>0.5,"limit "&${percent(cell, 4)}&" (if "&ROUND(${cell},4)&" is printed, type "&ROUND(${cell},4)&"%)",""),"")`;

/** Lines that the base takes, by its data sheet; the oils of a recipe are drawn below them. */
const OF_BASE = 3;
/** Sheets that oils are drawn from. */
const SET = ["Materials", "Recipes"];
const RECIPE = `$G$${PRODUCT}`;
const KIND_OF = `INDEX({Recipes!recipes.kind},MATCH(${RECIPE},{Recipes!recipes.kindkey},0))`;
/** Rows of formulas for all lines: nothing for the base's, one for each oil. */
const ofOils = (...columns: ((k: number) => string)[]) =>
  Array.from({ length: LINES }, (_, i) =>
    columns.map((write) => (i < OF_BASE ? null : `=IF(${RECIPE}="","",${write(i - OF_BASE + 1)})`)),
  );
const ofOil = (column: string) => (k: number) => ofMaterial(column, `$A$${PART + OF_BASE + k - 1}`);
const loadOf = (column: string) => (k: number) => ofLoad(column, RECIPE, k);

const INGREDIENTS: Block[] = [
  { ...texts(`F${PRODUCT}`, "label", "Recipe"), needs: SET },
  {
    at: `G${PRODUCT}`,
    look: "input",
    needs: SET,
    words: "{Recipes!recipes.picks}",
    rows: [["Rain room"]],
  },
  {
    ...texts(
      `F${PRODUCT + 2}`,
      "note",
      `=IF(${RECIPE}="","pick a recipe: its oils are drawn",IF(${loadsOf(RECIPE)}>${LINES - OF_BASE},"More than ${LINES - OF_BASE} oils: not all of this recipe is here.","Its oils are drawn, with limits of its kind: "&IF(ISERROR(${KIND_OF}),"not said",${KIND_OF})&"."))`,
      "The base's own lines are typed: its data sheet's ranges times its share of the batch.",
    ),
    needs: SET,
  },
  section(PART, "What is in it, by weight", 2),
  texts(`F${READ_FOR}`, "label", "Limits were read for category:"),
  {
    at: `I${READ_FOR}`,
    look: "input",
    words: span("C", LIST, LAST_NAME),
    rows: [["10B", null]],
  },
  texts(`K${READ_FOR}`, "note", "For another kind, read them again and then change this."),
  heading(
    PART,
    "A",
    "Ingredient",
    "What it is",
    "Low (%)",
    "High (%)",
    "VOC part, low (%)",
    "VOC part, high (%)",
    "Density (g/mL)",
    "Hazardous by its data sheet (yes or no)",
    "Limit on the certificate (%)",
    "Limit in a second category (%)",
    "Said of this line",
  ),
  {
    at: `A${PART}`,
    look: "input",
    rows: [
      ["Alcohol of the base"],
      ["Water"],
      ["Not disclosed"],
      ["Rain on Slate"],
      ["Attic Cedar"],
      ...blanks(LINES - 5),
    ],
    draw: ofOils(loadOf("material")),
  },
  {
    at: `B${PART}`,
    look: "input",
    words: ["ethanol", "isopropanol", "water", "fragrance oil", "other"],
    rows: [
      ["ethanol"],
      ["water"],
      ["other"],
      ["fragrance oil"],
      ["fragrance oil"],
      ...blanks(LINES - 5),
    ],
    draw: ofOils(ofOil("what")),
  },
  {
    at: `C${PART}`,
    look: "input",
    format: "0.0%",
    limits: [0, 1],
    rows: [
      [0.15, 0.25, 1, 1],
      [0.68, 0.8, 0, 0],
      [0.01, 0.05, 0, 1],
      [0.03, 0.03, 1, 1],
      [0.01, 0.01, 1, 1],
      ...blanks(LINES - 5, 4),
    ],
    draw: ofOils(loadOf("share"), loadOf("share"), ofOil("vocpart"), ofOil("vocpart")),
  },
  {
    at: `G${PART}`,
    look: "input",
    format: "0.000",
    limits: [0, 3],
    rows: [[0.789], [0.998], [1], [0.95], [0.94], ...blanks(LINES - 5)],
    draw: ofOils(ofOil("density")),
  },
  {
    at: `H${PART}`,
    look: "input",
    words: ["yes", "no", "not known"],
    rows: [[null], [null], ["not known"], ["yes"], ["no"], ...blanks(LINES - 5)],
  },
  {
    at: `I${PART}`,
    look: "input",
    format: "0.00%",
    rows: [...blanks(3, 2), [0.08, null], ["not limited", null], ...blanks(LINES - 5, 2)],
    draw: ofOils((k) => `IF(${loadOf("limit")(k)}="not known","",${loadOf("limit")(k)})`),
  },
  {
    at: `K${PART}`,
    look: "caution",
    formula:
      `=IF(A${WORK}="","",TEXTJOIN("; ",TRUE,${saidBack(`I${PART}`)},${saidBack(`J${PART}`)},` +
      `IF(B${WORK}="","","missing: "&B${WORK})))`,
    down: LINES,
  },
  texts(`A${SUM}`, "label", "Together"),
  {
    ...texts(
      `B${SUM}`,
      "result",
      `=IF(${found.used}=0,"",IF(${found.composition}="","can be 100 %","${NONE}"))`,
    ),
    marks: MARKED,
  },
  cells(
    `C${SUM}`,
    "result",
    ["C", "D"].map((column) => `=IF(${found.used}=0,"",SUM(${worked(column)}))`),
    "0.0%",
  ),
  texts(`E${SUM}`, "note", `=IF(${found.used}=0,"",${found.composition})`),
];

const CAUTIONS: Block[] = [
  section(CAUTION, "Before anyone uses it", 0),
  texts(
    `A${CAUTION}`,
    "caution",
    "Air and fire: pour and spray with air moving, away from flames, pilot lights, heaters and sparks. Keep it closed and cool.",
    "Cloth and wood: spray a hidden spot first, let it dry, look for stain, film and colour. Finishes and silk are at risk.",
    "Skin: a room or linen spray is not a body mist. Skin use has its own category, limits and labelling.",
    "Pets and children: keep away until dry, out of reach, and never on bedding of pets; some oils are toxic to cats and birds.",
    "Law: labels, storage, transport and sale have rules where you are. Ask the authority, the carrier and your insurer.",
  ),
];

/** Of the first columns, of the one that oils are picked in, and of names in the workings. */
const WIDE: Record<number, number> = {
  0: 208,
  1: 264,
  7: 150,
  ...Object.fromEntries([16, 17, 18, 19, 20, 23].map((column) => [column, 150])),
};

/** One product's composition beside each limit, as ranges. It is arithmetic; it decides nothing. */
export const template: Template = {
  title: "Limits check",
  use: "One product's composition beside skin, VOC, transport and flash limits, as ranges with sources.",
  words:
    "safe, skin, IFRA, legal, flammable, post, mail, ship, transport, dangerous goods, VOC, rules, allergens, body, candle, linen",
  step: 12,
  widths: Array.from({ length: COLUMNS_OF_SHEET }, (_, i) => WIDE[i] ?? 96),
  blocks: [
    ...HEAD,
    ...THE_PRODUCT,
    ...INGREDIENTS,
    ...LIMITS,
    ...VOC_BY_RULE,
    ...FLASH_POINTS,
    ...LOADS,
    ...ALLERGENS,
    ...CAUTIONS,
    ...POINTERS,
    ...RULE_TABLE,
    ...CATEGORY_TABLE,
    ...LISTS,
    ...WORKINGS,
  ],
};
