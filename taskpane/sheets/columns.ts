/** Columns and aspects that several templates have alike. */
import type { Column } from "./parts.ts";

/** A percent, from nothing to all. */
export const PERCENT: Pick<Column, "format" | "limits"> = { format: "0.0%", limits: [0, 1] };

/** Says which drawn cells of the line are typed over. */
export const TYPED_OVER: Column = {
  name: "over",
  heading: "Typed over",
  look: "note",
  over: true,
};

/** The recipe and the size of a line, picked from Recipes and Sizes. */
export function recipeAndSize(
  demo: readonly (readonly [string, string, ...unknown[]])[],
): Column[] {
  return [
    {
      name: "recipe",
      heading: "Recipe",
      words: "{Recipes!recipes.picks}",
      demo: demo.map(([recipe]) => recipe),
    },
    {
      name: "size",
      heading: "Size",
      words: "{Sizes!sizes.size}",
      demo: demo.map(([, size]) => size),
    },
  ];
}

/** The space of web pages that does not break. */
const OF_WEB = "\u00a0";

/** A name without the spaces that are too many, and with plain ones. */
export const plainName = (name: string) => `TRIM(SUBSTITUTE(${name},"${OF_WEB}"," "))`;

/** Characters that a search takes for any others, and those that open a comparison. */
const WILD = ["*", "?", "~"];
const COMPARING = ["<", ">", "="];

/**
 * Says of a name what makes it look like another one and not be found by it, a space too many or one of a web page,
 * or be found by others' names.
 */
export function saidOfName(name: string, what = "name"): string {
  const isPlain = `LEN(SUBSTITUTE(${name},"${OF_WEB}",""))=LEN(${name})`;
  const isTame = `LEN(${WILD.reduce((text, wild) => `SUBSTITUTE(${text},"${wild}","")`, name)})=LEN(${name})`;
  const compares = COMPARING.map((sign) => `LEFT(${name})="${sign}"`).join(",");
  return (
    `IF(LEN(${plainName(name)})=LEN(${name}),IF(${isPlain},"","a web page's space in the ${what}: type a plain one"),"a space too many in the ${what}"),` +
    `IF(OR(NOT(${isTame}),${compares}),"a * ? or ~ in the ${what}, or < > = before it, may find another line: leave it out","")`
  );
}

/** Pasted past the check of its cell, 3 is 300 % lost: what is left would cost less than nothing. */
export const isTooMuchLost = (lost: string) => `OR(SUM(${lost})<0,SUM(${lost})>=1)`;
