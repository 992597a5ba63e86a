/**
 * What else people write for the units of the closed list. Only what can mean one thing: "gr" (gram
 * or grain), "t" (ton or spoon), "c" (cup) and "#" are not here.
 */
export const SPELLINGS = {
  mg: ["milligram", "milligramme"],
  g: ["gm", "gram", "gramme"],
  kg: ["kilo", "kilogram", "kilogramme"],
  oz: ["ounce"],
  lb: ["pound"],
  mL: ["cc", "millilitre", "milliliter"],
  L: ["ltr", "litre", "liter"],
  tsp: ["teaspoon"],
  tbsp: ["tbs", "tablespoon"],
  floz: ["fluid ounce", "fluid oz", "fl ounce", "oz fl", "US fl oz", "US fluid ounce"],
  pt: ["pint", "US pint"],
  qt: ["quart", "US quart"],
  gal: ["gallon", "US gal", "US gallon"],
  impfloz: ["imperial fl oz", "imp fluid ounce", "imperial fluid ounce", "UK fl oz"],
  impgal: ["imp gallon", "imperial gal", "imperial gallon", "UK gal", "UK gallon"],
} as const;
