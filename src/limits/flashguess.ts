import type { Cells } from "../cells.ts";
import { ETHANOL_FLASH_TABLE } from "../data/alcohol-vapour.ts";
import { BlankError, CalcError, share, showShare } from "../errors.ts";
import { USUAL_CELSIUS, volumeShare } from "../spirit/mixture.ts";
import { vapourFlash } from "./flash.ts";
import { at } from "../lists.ts";

/** What the published table itself is good to, degrees. */
const TABLE_ERROR = 3;

/**
 * With isopropanol nothing is published to lean on: of one product it is known, seven degrees
 * above.
 */
const ROUGH = { below: 5, above: 10 };

/** Where rules change: GHS and transport 23 and 60, older fire codes 38. */
const CUT_OFFS = [23, 38, 60];

/**
 * Estimated closed-cup flash point of alcohol and water, with its range, and what it cannot decide.
 *
 * @remarks An estimate, never a test. Vapour pressure with van Laar activity coefficients. Against
 * the one published table for ethanol the method is off by 1.4 degrees on average and 2.1 at most
 * if the table is by volume, by 1.8 and 5.8 if it is by weight; which it is, is disputed. So the
 * cautious value comes back: the lower of the method and the table read by volume; the range takes
 * in both readings and 3 degrees. With isopropanol it is rough: the cautious value is the lowest of
 * the method for both alcohols, for the isopropanol alone, and of the table with all the alcohol
 * read as ethanol; the range is from 5 degrees below that to 10 above the method. Fragrance oil,
 * glycols and other solvents are not in it and can move it either way. Within its range of 23, 38
 * or 60 degrees it says "test needed".
 * @customfunction FLASHGUESS
 * @topic limits
 * @need Roughly, at what temperature can my base catch fire?
 * @words flammable, fire, burn, safe near a flame, catch fire, hazard
 * @param ethanol (share) Ethanol in the base by weight, 0 % to 100 %; the rest is taken as water.
 * @param [propanol] (share) Isopropanol in the base by weight, 0 % to 100 % (default 0 %).
 * @returns (celsius) Four cells: cautious estimate, lowest, highest, and a word on what it decides.
 * @throws value - there is no alcohol, or more than 100 % of it
 * @throws value - ethanol is typed as 60 instead of 60 %
 * @working modelled (celsius): where the vapours over this mixture can first take fire, by their
 * pressures, = flashof(ethanol, propanol)
 * @working guess (cautious: celsius; lowest: celsius; highest: celsius; in words: label): with what
 * the published tables say, and the errors of both = flashrange(ethanol, propanol)
 * @source Liaw and Chiu's form of the vapour-pressure method; constants from memory; table as
 * reprinted by Engineering ToolBox.
 * @example FLASHGUESS(10%, 10%) // => {about 29.3, about 24.3, about 39.3, "rough, with
 * isopropanol: test needed: it may lie on either side of 38 C"}
 * @example FLASHGUESS(80%) // => {about 18.4, about 15.4, 23, "test needed: it may lie on either
 * side of 23 C"}
 */
export function flashGuess(ethanol: number, propanol = 0): Cells {
  const alcohol = share("ethanol", ethanol) + share("propanol", propanol);
  if (alcohol === 0) throw new BlankError("ethanol and propanol together");
  if (alcohol > 1 + 1e-9) {
    throw new CalcError(`ethanol and propanol must be 100 % at most, got ${showShare(alcohol)}`);
  }
  const method = vapourFlash(ethanol, propanol);
  const byVolume = tableAt(volumeShare(Math.min(1, alcohol), USUAL_CELSIUS));
  const byWeight = tableAt(alcohol);
  const isOutside = byVolume === undefined || byWeight === undefined;
  const below = isOutside ? 2 * TABLE_ERROR : TABLE_ERROR;
  const highest = Math.max(method, byWeight ?? method) + below;
  if (propanol === 0) {
    const cautious = Math.min(method, byVolume ?? method);
    return answer(cautious, [cautious - below, highest], isOutside);
  }
  // A trace of it must not lift the value, nor more alcohol: the lowest of all ways to read them.
  const alone = vapourFlash(0, propanol);
  const cautious = Math.min(method, alone, byVolume ?? method);
  const range = [
    cautious - Math.max(below, ROUGH.below),
    Math.max(method + ROUGH.above, highest),
  ] as const;
  return answer(cautious, range, isOutside, "rough, with isopropanol: ");
}

function answer(
  cautious: number,
  range: readonly [number, number],
  isOutside: boolean,
  about = "",
): Cells {
  const decides = isOutside ? "test needed: outside the published table" : word(range);
  return [[cautious, ...range, about + decides]];
}

/** What an estimate with this range decides: near a cut-off, nothing. */
function word([low, high]: readonly [number, number]): string {
  const straddled = CUT_OFFS.filter((cutOff) => low <= cutOff && cutOff <= high);
  if (straddled.length === 0) return "an estimate, not a test";
  return `test needed: it may lie on either side of ${straddled.join(" and ")} C`;
}

/** The published table between its lines; nothing outside it. */
function tableAt(part: number): number | undefined {
  const next = ETHANOL_FLASH_TABLE.findIndex(([share]) => share >= part);
  if (next < 0) return undefined;
  const [high, celsius] = at(ETHANOL_FLASH_TABLE, next);
  if (high === part) return celsius;
  if (next === 0) return undefined;
  const [low, colder] = at(ETHANOL_FLASH_TABLE, next - 1);
  return colder + ((part - low) / (high - low)) * (celsius - colder);
}
