/** Limits check: the recipe that is drawn, and what the product is. */
import { found, ofMaterial, ofRest } from "../../sheets/drawn.ts";
import type { Part } from "../../sheets/parts.ts";
import { SET } from "./drawn.ts";
import { serial } from "./tables.ts";
import { percent } from "./words.ts";

/** The recipe and its base, for a sheet of so many ingredients. */
export const recipe = (lines: number): Part[] => [
  {
    gap: 1,
    needs: SET,
    text: "section",
    rows: ["The recipe: blue is drawn, and may be typed over"],
  },
  {
    needs: SET,
    fields: [
      {
        name: "recipe",
        label: "Recipe",
        words: "{Recipes!recipes.picks}",
        demo: "Rain room",
        note: `=IF({recipe}="","Pick one, or type all below.",IF({ingredients}+{rests}+{loadcount}>${lines},"It has "&({ingredients}+{rests}+{loadcount})&" ingredients, only ${lines} fit: not all of it is here.","Oils come with the skin limits of its kind, the base with its ingredients."))`,
      },
      {
        name: "kindofrecipe",
        label: "Its kind",
        draw: `=${found("{Recipes!recipes.kind}", "MATCH({recipe},{Recipes!recipes.kindkey},0)", "{recipe}")}`,
        note: '=IF({recipe}="","",IF({kindofrecipe}="","Which kind? Say it in Recipes.",""))',
      },
      {
        name: "base",
        label: "Base or wax, the rest of it",
        draw: `=${ofRest("material", "{recipe}")}`,
        note: '=IF({recipe}="","",IF({base}="","Which one?",IF({ingredients}=0,"What is in it does not say: it stands below as a whole, as not disclosed.",{ingredients}&" ingredients by What is in it"&IF({rests}=1,", and what is not disclosed.","."))))',
      },
      {
        name: "basepart",
        label: "Its share of the batch (%)",
        format: "0.0%",
        draw: `=${ofRest("share", "{recipe}")}`,
        note: '=IF(OR({recipe}="",{openends}=0),"","Without a whole range: "&{openends}&", from 0 % or up to what others leave.")',
      },
      {
        name: "basevoc",
        label: "VOC part of the base (%)",
        format: "0.0%",
        draw: `=${ofMaterial("vocpart", "{base}")}`,
        note: `=IF(OR({base}="",{ingredients}=0,NOT(ISNUMBER({basepart}))),"",IF({missingvoc}<>"","",IF(SUM({basepart})<=0,"","By Materials. By its ingredients below: "&${percent("{baseslow}/{basepart}")}&" to "&${percent("{baseshigh}/{basepart}")}&".")))`,
      },
      {
        name: "overs",
        label: "Lines that are typed over",
        format: "0",
        formula: '=COUNTIF({parts.over},"?*")',
        note: '=IF({overs}=0,"","What, and what is drawn, stands under Typed over.")',
      },
    ],
  },
];

const lines = (words: string) => `COUNTIF({allergens.words},"${words}")`;
const duties = (place: string) => `COUNTIF({duties.place},${place})`;
const isSpray = (kind: string) => `COUNTIF(${kind},"*spray*")+COUNTIF(${kind},"*mist*")>0`;
const isMist = (kind: string) => `(LEFT(${kind},9)="body mist")`;

export const PRODUCT: Part[] = [
  { gap: 1, text: "section", rows: ["The product"] },
  {
    fields: [
      {
        name: "kind",
        label: "Kind of product, for VOC",
        words: "{kinds.word}",
        demo: "room spray (pump)",
      },
      {
        name: "second",
        label: "A second kind that it also is",
        words: "{kinds.word}",
        demo: null,
        note: "Or blank. A room spray sold for linen, too: then the lowest limit holds.",
      },
      {
        name: "soldin",
        label: "Place where it is sold",
        words: "{places.word}",
        demo: "California",
      },
      {
        name: "madeon",
        label: "Made on (date)",
        format: "yyyy-mm-dd",
        demo: serial("2026-11-25"),
      },
      {
        name: "skin",
        label: "Kind of product, for skin",
        words: "{categories.product}",
        demo: "room spray",
        draw: "={recipekind}",
        note: `=IF(OR({kind}="",{skin}=""),"",IF(AND(${isMist("{kind}")}=${isMist("{skin}")},OR(${isSpray("{skin}")},NOT(${isSpray("{kind}")}))),"","For VOC a "&{kind}&", for skin a "&{skin}&": is that meant?"))`,
      },
      {
        name: "needed",
        label: "Certificate category to look up",
        formula:
          '={category}&IF({othercategory}="",""," and "&{othercategory}&": the lower limit")',
        note: '=IF({category}="","",INDEX({categories.seen},MATCH({skin},{categories.product},0))&"")',
      },
      {
        name: "readfirst",
        label: "Limits were read for category",
        words: "{names.word}",
        demo: "10B",
        draw: "={firstread}",
        note: "For another kind, read the certificates again and then change this.",
      },
      {
        name: "readsecond",
        label: "Limits in a second one, for",
        words: "{names.word}",
        demo: null,
        draw: "={secondread}",
      },
      {
        name: "todo",
        label: "Duties to look up",
        formula: `=IF({soldin}="","",${duties("{soldin}")}+IF({federal}="",0,${duties("{federal}")})&" listed further down")`,
      },
      {
        name: "allergensaid",
        label: "Allergens, by lines at the foot",
        formula: `=IF({allergensfilled}=0,"none is listed",${lines("Over*")}&" over, "&${lines("Doubt*")}&" in doubt, "&${lines("Within*")}&" within")`,
        note: '=IF({allergensfilled}={allergenscounted},"","Without a verdict: "&({allergensfilled}-COUNTIF({allergens.words},"*threshold*")-COUNTIF({allergens.words},"Doubt*"))&". See there.")',
      },
    ],
  },
];
