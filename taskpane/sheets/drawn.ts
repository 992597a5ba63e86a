/** Formulas, without their =, that find things on Materials, Recipes and Sizes. Each is blank where it finds nothing. */

/** A column of the line that is found by a name. Nothing is looked up by no name: an empty cell would match it. */
export const found = (column: string, line: string, name: string) =>
  `IF(OR(${name}="",ISERROR(${line})),"",IF(INDEX(${column},${line})="","",INDEX(${column},${line})))`;

/** A column of the material in use of that name. */
export function ofMaterial(column: string, name: string): string {
  return found(
    `{Materials!materials.${column}}`,
    `MATCH(${name},{Materials!materials.key},0)`,
    name,
  );
}

/** What is on hand of a material in all its lots; blank where none is counted. */
export function onHandOf(name: string): string {
  const of = `{Materials!materials.name},${name}`;
  const isCounted = `COUNTIFS(${of},{Materials!materials.onhand},"<1000000000000")`;
  return `IF(OR(${name}="",${isCounted}=0),"",SUMIFS({Materials!materials.onhand},${of}))`;
}

/** A column of the k-th base of Materials. */
export function ofBase(column: string, k: number): string {
  return found(
    `{Materials!materials.${column}}`,
    `MATCH(${k},{Materials!materials.basenth},0)`,
    '"base"',
  );
}

/** A column of the line of a recipe that is the rest: its base, or its wax. */
export function ofRest(column: string, recipe: string): string {
  return found(`{Recipes!recipes.${column}}`, `MATCH(${recipe},{Recipes!recipes.rest},0)`, recipe);
}

/** A column of the k-th line of a recipe; `k` is a formula. */
export function ofLine(column: string, recipe: string, k: string): string {
  return found(
    `{Recipes!recipes.${column}}`,
    `MATCH(${recipe}&"|"&${k},{Recipes!recipes.nth},0)`,
    recipe,
  );
}

/** A column of the k-th line of a recipe that has a load. */
export function ofLoad(column: string, recipe: string, k: number | string): string {
  return found(
    `{Recipes!recipes.${column}}`,
    `MATCH(${recipe}&"|"&${k},{Recipes!recipes.loadnth},0)`,
    recipe,
  );
}

/** What the loads of a recipe are a percentage of. */
export function basisOf(recipe: string): string {
  return found("{Recipes!recipes.of}", `MATCH(${recipe},{Recipes!recipes.ofkey},0)`, recipe);
}

/** The loads of a recipe, how many. */
export function loadsOf(recipe: string): string {
  return `COUNTIFS({Recipes!recipes.recipe},${recipe},{Recipes!recipes.load},">=0")`;
}

/**
 * The density of a recipe: as measured, or else by its ingredients, volumes additive (an estimate); `none` where
 * that of an ingredient is not known.
 */
export function densityOf(recipe: string, none = '""'): string {
  const measured = `INDEX({Recipes!recipes.measured},MATCH(${recipe},{Recipes!recipes.densitykey},0))`;
  const volume = `SUMIFS({Recipes!recipes.volumepart},{Recipes!recipes.recipe},${recipe})`;
  const unknown = `COUNTIFS({Recipes!recipes.recipe},${recipe},{Recipes!recipes.volumepart},"no density")`;
  return `IF(COUNTIF({Recipes!recipes.densitykey},${recipe})>0,${measured},IF(OR(${volume}<=0,${unknown}>0),${none},1/${volume}))`;
}

/** A column of a size. */
export function ofSize(column: string, size: string): string {
  return found(`{Sizes!sizes.${column}}`, `MATCH(${size},{Sizes!sizes.size},0)`, size);
}

/** Grams in what is held by weight, or by volume with the density; a word where that is not known. */
export function gramsOf(holds: string, unit: string, density: string, overfill: string): string {
  const grams = `MIST.TURN(${holds},${unit},"g")`;
  const byVolume = `MIST.FILLWEIGHT(${holds},${unit},${density},SUM(${overfill}))`;
  return `IF(ISERROR(${grams}),IF(ISNUMBER(${density}),${byVolume},"density?"),IF(OR(SUM(${overfill})<0,SUM(${overfill})>1),"overfill?",${grams}*(1+SUM(${overfill}))))`;
}

/** Grams in one of a size; words where it is not known. */
export function fillOf(size: string, density: string): string {
  const of = (column: string) =>
    `INDEX({Sizes!sizes.${column}},MATCH(${size},{Sizes!sizes.size},0))`;
  const grams = gramsOf(of("packheld"), of("packin"), density, of("overfill"));
  return `IF(${size}="","",IF(ISERROR(MATCH(${size},{Sizes!sizes.size},0)),"not on Sizes",IF(SUM(${of("packheld")})<=0,"holds?",${grams})))`;
}

/** Says of a material that less of it is on hand than the grams that are taken. */
export function tooLittleOnHand(onHand: string, grams: string): string {
  return `IF(AND(ISNUMBER(${onHand}),ISNUMBER(${grams})),IF(${onHand}<${grams},"on hand only "&TEXT(${onHand},"#,##0.0")&" g",""),"")`;
}
