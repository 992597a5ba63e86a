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

/** Says of a name that it has a space too many: it looks like another one, and is not found by it. */
export const saidOfSpaces = (name: string, what = "name") =>
  `IF(LEN(TRIM(${name}))=LEN(${name}),"","a space too many in the ${what}")`;

/** Pasted past the check of its cell, 3 is 300 % lost: what is left would cost less than nothing. */
export const isTooMuchLost = (lost: string) => `OR(SUM(${lost})<0,SUM(${lost})>=1)`;
