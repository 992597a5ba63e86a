/**
 * What Limits check draws from the other sheets, line by line: what the base is made of by What is in it, times
 * its share; what of it is not disclosed; and the oils and additives of the recipe.
 */
import { ofLoad, ofMaterial, loadsOf } from "../../sheets/drawn.ts";
import type { Part } from "../../sheets/parts.ts";
import { BASES } from "../what-is-in-it.ts";

/** Sheets without which nothing is drawn. */
export const SET = ["Materials", "Recipes"];

/** Kinds of Recipes that certificates have another word for. */
const OTHER_WORDS: [kind: string, product: string][] = [
  ["body spray", "body mist"],
  ["diffuser", "reed diffuser"],
];
const inWordsOfSkin = (kind: string) =>
  OTHER_WORDS.reduce((rest, [from, to]) => `IF(${kind}="${from}","${to}",${rest})`, kind);
const inWordsOfRecipes = (product: string) =>
  OTHER_WORDS.reduce((rest, [to, from]) => `IF(${product}="${from}","${to}",${rest})`, product);

/** A cell of the base on What is in it: `bases` has a line for each. */
const ofBase = (column: string) => `INDEX({What is in it!bases.${column}},MAX(1,{baseline}))`;
/** A cell of the line's ingredient on What is in it. */
const ofIngredient = (column: string) =>
  `IF(INDEX({What is in it!ingredients.${column}},{line})="","",INDEX({What is in it!ingredients.${column}},{line}))`;
/** The same of a column that each base has for itself. */
const ofEach = (write: (base: number) => string) =>
  `CHOOSE(MAX(1,{baseline}),${BASES.map(write).join(",")})`;
const rangeOf = (end: "low" | "high") =>
  ofEach((k) => `INDEX({What is in it!ingredients.${end}${k}},MAX(1,SUM({line})))`);

const K = "(ROW()-ROW({drawn.name:head}))";
const IS_INGREDIENT = "ISNUMBER({line})";
/** The line of the base as a whole, or of what of it is not disclosed. */
const IS_REST = `AND({rests}=1,${K}={ingredients}+1)`;
const IS_LOAD = "ISNUMBER({load})";

/** A cell of the line: of an ingredient of the base, of the rest of it, or of an oil or additive. */
function byLine(ingredient: string, rest: string, load: string) {
  const others = `IF(${IS_REST},${rest},IF(${IS_LOAD},${load},""))`;
  return { formula: `=IF(${IS_INGREDIENT},${ingredient},${others})`, alone: `=${others}` };
}

const ofLine = (column: string) => ofMaterial(column, "{name}");
const ofSheet = (column: string) => `=${ofMaterial(column, "{sheet}")}`;
const shared = (share: string) => `IF(ISNUMBER({basepart}),${share}*{basepart},"")`;
const numberOr = (value: string, none: string) => `IF(ISNUMBER(${value}),${value},${none})`;

/** What the lines of the base bring of VOC, as shares of the whole. */
const ofBaseVoc = (share: string, voc: string) =>
  `=SUMPRODUCT(({drawn.sheet}={base})*{work.${share}}*{work.${voc}})`;

/** What is found once of the recipe. */
const ONCE: Part = {
  name: "drawnonce",
  fields: [
    {
      name: "baseline",
      label: "Line of the base on What is in it",
      format: "0",
      formula: '=IF({base}="",0,IFERROR(MATCH({base},{What is in it!bases.base},0),0))',
      alone: "=0",
    },
    {
      name: "ingredients",
      label: "Its ingredients (count)",
      format: "0",
      formula: `=IF({baseline}=0,0,SUM(${ofBase("named")}))`,
      alone: "=0",
    },
    {
      name: "rests",
      label: "A line for the rest of it (1: yes)",
      format: "0",
      formula: `=IF({base}="",0,IF({ingredients}=0,1,IF(${ofBase("disclosed")}="all named",0,1)))`,
      alone: '=IF({base}="",0,1)',
    },
    {
      name: "leastrest",
      label: "Not disclosed of it, at least (%)",
      format: "0.0%",
      formula: `=IF({ingredients}=0,0,${numberOr(ofBase("least"), "0")})`,
      alone: "=0",
    },
    {
      name: "mostrest",
      label: "Not disclosed of it, at most (%)",
      format: "0.0%",
      formula: `=IF({ingredients}=0,1,${numberOr(ofBase("most"), "1")})`,
      alone: "=1",
    },
    {
      name: "openends",
      label: "Without a whole range (count)",
      format: "0",
      formula: "=COUNTIF({drawn.openend},1)",
    },
    {
      name: "baseslow",
      label: "VOC that it brings, low (%)",
      format: "0.0%",
      formula: ofBaseVoc("low", "voclow"),
    },
    {
      name: "baseshigh",
      label: "VOC that it brings, high (%)",
      format: "0.0%",
      formula: ofBaseVoc("high", "vochigh"),
    },
    {
      name: "loadcount",
      label: "Oils and additives (count)",
      format: "0",
      formula: `=IF({recipe}="",0,${loadsOf("{recipe}")})`,
    },
    {
      name: "recipekind",
      label: "Kind, in the words of certificates",
      formula: `=IF({kindofrecipe}="","",${inWordsOfSkin("{kindofrecipe}")})`,
    },
    {
      name: "firstread",
      label: "Category of its skin limits",
      formula:
        '=IF({recipekind}="","",IFERROR(INDEX({categories.category},MATCH({recipekind},{categories.product},0))&"",""))',
    },
    {
      name: "secondread",
      label: "The other, if it is disputed",
      formula:
        '=IF({recipekind}="","",IFERROR(INDEX({categories.other},MATCH({recipekind},{categories.product},0))&"",""))',
    },
    {
      name: "secondkind",
      label: "Kind whose limits are the other's",
      formula: `=IF({secondread}="","",IFERROR(${inWordsOfRecipes("INDEX({categories.product},MATCH({secondread},{categories.category},0))")},""))`,
    },
  ],
};

const SECOND_LIMIT =
  "INDEX({Materials!materials.limits},MATCH({name},{Materials!materials.key},0),MATCH({secondkind},{Recipes!kinds.kind},0))";
const firstLimit = ofLoad("limit", "{recipe}", "{load}");

const list = (lines: number): Part => ({
  gap: 1,
  under: "drawnonce",
  needs: SET,
  list: "drawn",
  lines,
  columns: [
    {
      name: "name",
      heading: "Ingredient",
      ...byLine(
        ofIngredient("ingredient"),
        'IF({ingredients}=0,{base},"Not disclosed in "&{base})',
        ofLoad("material", "{recipe}", "{load}"),
      ),
    },
    {
      name: "what",
      heading: "What it is",
      ...byLine(
        ofIngredient("what"),
        `IF(${ofMaterial("what", "{base}")}="wax","other","not disclosed")`,
        `IF(${ofLine("what")}="fragrance oil","fragrance oil",IF(${ofLine("what")}="base","not disclosed",IF(${ofLine("what")}="","","other")))`,
      ),
    },
    {
      name: "low",
      heading: "Low (%)",
      format: "0.0%",
      ...byLine(
        shared(numberOr(rangeOf("low"), "0")),
        shared("IF({ingredients}=0,1,{leastrest})"),
        ofLoad("share", "{recipe}", "{load}"),
      ),
    },
    {
      name: "high",
      heading: "High (%)",
      format: "0.0%",
      ...byLine(
        // At most what the lows of all others leave.
        shared(numberOr(rangeOf("high"), `MIN(1,{mostrest}+${numberOr(rangeOf("low"), "0")})`)),
        shared("IF({ingredients}=0,1,{mostrest})"),
        ofLoad("share", "{recipe}", "{load}"),
      ),
    },
    {
      name: "voclow",
      heading: "VOC part, low (%)",
      format: "0.0%",
      ...byLine(
        ofIngredient("vocpart"),
        `IF({ingredients}=0,${ofMaterial("vocpart", "{base}")},0)`,
        ofLine("vocpart"),
      ),
    },
    {
      name: "vochigh",
      heading: "VOC part, high (%)",
      format: "0.0%",
      ...byLine(
        ofIngredient("vocpart"),
        `IF({ingredients}=0,${ofMaterial("vocpart", "{base}")},1)`,
        ofLine("vocpart"),
      ),
    },
    {
      name: "density",
      heading: "Density (g/mL)",
      format: "0.000",
      ...byLine(
        ofIngredient("density"),
        `IF({ingredients}=0,${ofMaterial("density", "{base}")},"")`,
        ofLine("density"),
      ),
    },
    {
      name: "hazard",
      heading: "Hazardous (yes or no)",
      ...byLine(ofIngredient("hazard"), '"not known"', ofLine("hazard")),
    },
    {
      name: "limit1",
      heading: "Limit, first category (%)",
      format: "0.00%",
      formula: `=IF(${IS_LOAD},IF(${firstLimit}="not known","",${firstLimit}),"")`,
    },
    {
      name: "limit2",
      heading: "Limit, second category (%)",
      format: "0.00%",
      formula: `=IF(AND(${IS_LOAD},{secondkind}<>"",{what}="fragrance oil"),IFERROR(IF(${SECOND_LIMIT}="","",${SECOND_LIMIT}),""),"")`,
    },
    {
      name: "sheet",
      heading: "Data sheet of",
      formula: `=IF(OR(${IS_INGREDIENT},${IS_REST}),{base},{name})`,
    },
    {
      name: "date",
      heading: "Its date (date)",
      format: "yyyy-mm-dd",
      formula: ofSheet("sheetdate"),
    },
    { name: "flash", heading: "Its flash point (C)", formula: ofSheet("flash") },
    {
      name: "line",
      heading: "Line of the ingredient",
      format: "0",
      formula: `=IF(AND({baseline}>0,${K}<={ingredients}),${ofEach((k) => `IFERROR(MATCH(${K},{What is in it!ingredients.nth${k}},0),"")`)},"")`,
      alone: '=""',
    },
    {
      name: "load",
      heading: "Load of the recipe",
      format: "0",
      formula: `=IF(AND(${K}>{ingredients}+{rests},${K}<={ingredients}+{rests}+{loadcount}),${K}-{ingredients}-{rests},"")`,
    },
    {
      name: "openend",
      heading: "Lacks an end (1: yes)",
      format: "0",
      formula: `=IF(${IS_INGREDIENT},IF(COUNT(${rangeOf("low")},${rangeOf("high")})=2,0,1),"")`,
      alone: '=""',
    },
  ],
});

/** The lines that are drawn, for a sheet of so many ingredients. */
export const drawnLines = (lines: number): Part[] => [
  {
    needs: SET,
    gap: 1,
    under: "skinwork",
    text: "section",
    name: "drawing",
    rows: ["Drawn from the other sheets: nothing to type here"],
  },
  { needs: SET, under: "drawing", ...ONCE },
  list(lines),
];
