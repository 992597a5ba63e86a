/** What the bench sheet draws from Recipes, Sizes and Materials. */
import { basisOf, densityOf, fillOf, ofMaterial as ofMaterialNamed } from "../../sheets/drawn.ts";

/** The line of the list, from 1. */
const K = "(ROW()-ROW({pours.material:head}))";

/** The line of Recipes that is the rest: base or wax; and which line of its recipe it is. */
const REST = "MATCH({recipe},{Recipes!recipes.rest},0)";
const REST_IS = `INDEX({Recipes!recipes.nthin},${REST})`;

/**
 * Which line of the recipe is poured k-th: in the recipe's order, but wax first, as it must be molten, and a base
 * last, as it mends what was poured before it.
 */
const TURN = `IF(ISERROR(${REST}),${K},IF(INDEX({Recipes!recipes.what},${REST})="wax",IF(${K}=1,${REST_IS},IF(${K}<=${REST_IS},${K}-1,${K})),IF(${K}={lines},${REST_IS},IF(${K}<${REST_IS},${K},${K}+1))))`;

const ofRecipe = (column: string) =>
  `INDEX({Recipes!recipes.${column}},MATCH({recipe}&"|"&${TURN},{Recipes!recipes.nth},0))`;

/** A cell of the recipe's k-th line; nothing where there is none. */
export const poured = (column: string) =>
  `=IF({recipe}="","",IFERROR(IF(${ofRecipe(column)}="","",${ofRecipe(column)}),""))`;

/** A cell of the line's material; nothing where it is not in use there, or blank. */
export const ofMaterial = (column: string) => ofMaterialNamed(column, "{material}");

export const LOAD_OF = `=${basisOf("{recipe}")}`;

/** Measured, or else estimated from volumes that add up. */
export const DENSITY = `=IF({recipe}="","",${densityOf("{recipe}")})`;

/** Grams in one bottle. */
export const FILL = `=${fillOf("{size}", "{density}")}`;
