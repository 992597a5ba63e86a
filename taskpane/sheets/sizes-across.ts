/** Bottle sizes side by side over the ingredients of a recipe: what Bottle cost and Size run have in common. */
import { ofLine, ofSize } from "./drawn.ts";
import { PACK_UNITS } from "./pack-units.ts";
import type { Column, Row } from "./parts.ts";

/** Sizes that fit a page. */
export const SIZES = 6;

/** One text for each size. */
export const eachSize = (write: (size: number) => string): string[] =>
  Array.from({ length: SIZES }, (_, i) => write(i + 1));

/** True of a size that is filled in. */
export const SIZED = 'OR({sizes.size:across}<>"",{sizes.holds:across}<>"")';

/** How many sizes are filled in while these cells of theirs are blank. */
export const blankIn = (cells: string): string =>
  `SUMPRODUCT(--((({sizes.size}<>"")+({sizes.holds}<>""))*({${cells}}="")>0))`;

const NAME =
  '=IF({sizes.size:across}<>"",{sizes.size:across},IF({sizes.holds:across}="","",{sizes.holds:across}&" "&{sizes.unit:across}))';

/** The heads of a table under that of the sizes: its title, and the sizes by their names. */
export const headed = (title: string): string[] => [title, ...eachSize(() => NAME)];

/** The heads of the table of the sizes. */
export const SIZE_HEADS = ["The bottles", ...eachSize((k) => `Size ${k}`)];

/** What a bottle holds by a text that says its unit, too; a copy of the workbook has it as a value. */
const BY_TEXT =
  'IF(ISNUMBER(MIST.PACKHOLDS({holds},"g")),MIST.PACKHOLDS({holds},"g"),IF(ISERROR(MIST.PACKHOLDS({holds},"mL")),"holds?",IF(ISNUMBER({density}),MIST.PACKHOLDS({holds},"g",{density}),"density?")))';

/** What a size holds, by volume or by weight, and so what is filled into one; the demo has so many sizes. */
export const held = (sizes: number): Row[] => [
  {
    name: "holds",
    label: "Holds (in its unit)",
    worded: true,
    demo: [2, 4, 8, 16].slice(0, sizes),
    draw: `=${ofSize("packheld", "{size}")}`,
  },
  {
    name: "unit",
    label: "Unit",
    words: PACK_UNITS,
    demo: Array.from({ length: sizes }, () => "floz"),
    draw: `=${ofSize("packin", "{size}")}`,
  },
  {
    name: "overfill",
    label: "Overfill of what is stated (%)",
    format: "0.0%",
    limits: [0, 1],
    demo: Array.from({ length: sizes }, () => 0.02),
    draw: `=${ofSize("overfill", "{size}")}`,
    note: `=IF(${blankIn("sizes.overfill")}=0,"","blank: filled to the mark")`,
  },
  {
    name: "texted",
    label: "Holds as a text alone: 4 fl oz (g)",
    format: "#,##0.0",
    formula: `=IF(AND(ISTEXT({holds}),{holds}<>"",{unit}=""),${BY_TEXT},"")`,
  },
  {
    name: "fill",
    label: "Fill of one bottle (g)",
    format: "#,##0.0",
    formula:
      '=IF({holds}="",IF({size}="","","holds?"),IF({unit}="",IF(ISTEXT({holds}),IF(ISNUMBER({texted}),{texted}*(1+SUM({overfill})),{texted}),"unit?"),IF(ISERROR(MIST.TURN({holds},{unit},"g")),IF({density}="","density?",MIST.FILLWEIGHT({holds},{unit},{density},SUM({overfill}))),MIST.TURN({holds},{unit},"g")*(1+SUM({overfill})))))',
    note: '=IF(COUNTIF({sizes.fill},"density?")=0,"","a size by volume takes the density of the finished spray")',
  },
];

/** The line of the list, from 1. */
const K = "(ROW()-ROW({liquids.material:head}))";

/** A column of the recipe's line that stands here. */
export const lineOfRecipe = (column: string): string => ofLine(column, "{recipe}", K);

export const MATERIAL: Column = {
  name: "material",
  heading: "Ingredient",
  demo: ["Alder Clear (base)", "Rain on Slate", "Attic Cedar"],
  draw: `=${lineOfRecipe("material")}`,
};

/** Lines with an ingredient or a load, and those of them that are the rest. */
export const FILLED = 'SUMPRODUCT(--((({liquids.material}<>"")+({liquids.load}<>""))>0))';
const RESTS = 'SUMPRODUCT(({liquids.material}<>"")*({liquids.load}=""))';
const TOTAL = "SUM({liquids.load})";
/** Loads that are words: what the rest is, then, nobody knows. */
const WORDS = 'SUMPRODUCT(ISTEXT({liquids.load})*({liquids.load}<>""))';

/** The share of a line whose load is of the finished batch; a line without a load is the rest. */
const ofFinished = `IF({load}="",IF(${TOTAL}>1.0000001,"over 100 %",1-${TOTAL}),IF(${RESTS}>0,{load},IF(ABS(${TOTAL}-1)>0.001,"not 100 %",{load}/${TOTAL})))`;
/** The same of the base, which is then the rest. */
const ofBase = `IF(${RESTS}=0,"base?",IF({load}="",1,{load})/(1+${TOTAL}))`;

/** A line's share, or what is missing to say it. */
const shareOf = (basis: string): string =>
  `=IF(AND({material}="",{load}=""),"",IF(OR(${RESTS}>1,${WORDS}>0),"load?",${basis}))`;

/** A line's share of the finished batch: its load is of that. */
export const SHARE_OF_FINISHED = shareOf(ofFinished);
/** The same where the field `of` says what loads are of. */
export const SHARE_BY_BASIS = shareOf(
  `IF({of}="finished",${ofFinished},IF({of}="base",${ofBase},"load of?"))`,
);

/** What is said of a line whose share is not known. */
export const SHARE_SAID = `IF({material}="","which ingredient?",""),IF({share}="over 100 %","the loads are over 100 %",""),IF({share}="not 100 %","the loads come to "&TEXT(${TOTAL},"0.0#%")&": leave one blank, it is the rest",""),IF({share}="base?","leave the load of the base blank",""),IF({share}="load?",IF(${WORDS}>0,"another load is words: type a percent",${RESTS}&" loads are blank: only one is the rest"),""),IF({share}="load of?","of the finished batch, or of the base?","")`;

/** How many lines of the recipe are here, and whether they fit; for the note of the recipe. */
export const RECIPE_NOTE = (() => {
  const lines = "COUNTIF({Recipes!recipes.recipe},{recipe})";
  return `=IF({recipe}="","pick one",IF(${lines}=0,"not in Recipes",IF(${lines}>${FILLED},"Recipes has "&${lines}&" lines of it, here are "&${FILLED}&": copy the last line down","")))`;
})();
