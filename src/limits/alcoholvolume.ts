import { type Cells, flagsOf } from "../cells.ts";
import { density } from "../errors.ts";
import { at, list, sameLength, sum, usedIn } from "../lists.ts";
import { type Intervals, compositionOf, lowHigh, richest } from "./intervals.ts";

/**
 * Alcohol in a product by volume, from shares by weight.
 *
 * @remarks Volume of the alcohols over the volume of all, volumes taken as additive: an estimate.
 * Ethanol and water shrink, so for them it reads low and never high: by 0.07 points at 10 %, 0.34
 * at 20 %, 0.50 at 24 %, 1.30 at 40 %, and 2.3 at most (at 73 %). So at a limit of 24 % the
 * doubtful band is a reading from 23.5 to 24 %. For those two alone use SPIRITBYVOLUME. Near a
 * limit, go by a hydrometer or a test. Where a component is a range, give low and high in two
 * columns: the answer is the least and the most that any composition within the ranges can have.
 * @customfunction ALCOHOLVOLUME
 * @topic limits
 * @need How much alcohol is in my spray by volume?
 * @words alcohol percent, alcohol content, how much alcohol, abv, shipping, post, dangerous goods,
 * transport
 * @param shares (share) One column, or two for low and high: each ingredient's share of the product
 * by weight, together 100 %.
 * @param densities (density) One column with a line for each ingredient: g/mL.
 * @param isalcohol (yesno) One column with a line for each ingredient: yes for the alcohols that
 * count.
 * @returns (share) Estimated alcohol by volume; two cells, low and high, where ranges were given.
 * @throws value - shares cannot sum to 100 %: the text gives their sums
 * @throws value - the density of an ingredient that is in the product is blank, or whether it is an
 * alcohol
 * @working alcohol (low: share; high: share): the alcohol's part of all volumes, each weight
 * divided by its density (an estimate) = alcoholbyvolume(shares, densities, isalcohol)
 * @source By hand: volume = weight / density; bounds are those of the linear-fractional programme
 * (Dinkelbach's method).
 * @example ALCOHOLVOLUME({0.2; 0.8}, {0.7892; 0.9982}, {"yes"; "no"}) // => about 24.02%
 */
export function alcoholVolume(
  shares: number[][],
  densities: number[][],
  isalcohol: Cells,
): number[][] {
  const parts = compositionOf("shares", shares);
  // A line that the product has nothing of may leave the rest blank.
  const gml = list("densities", densities, (name, value, i) =>
    parts.highs[i] === 0 && !value ? 1 : density(name, value),
  );
  const counts = flagsOf("isalcohol", isalcohol, usedIn(parts.highs));
  sameLength("shares", parts.lows, "densities", gml);
  sameLength("shares", parts.lows, "isalcohol", counts);
  const most = greatestPart(parts, gml, counts);
  const others = counts.map((each) => !each);
  return lowHigh(parts.isRange, 1 - greatestPart(parts, gml, others), most);
}

/**
 * The greatest part by volume that some of the components can have. Dinkelbach: take a part as the
 * answer, find the composition that beats it most, and take that one's part, until none does.
 */
function greatestPart(parts: Intervals, gml: number[], counts: boolean[]): number {
  for (let part = 0; ;) {
    const worth = gml.map((each, i) => ((counts[i] ? 1 : 0) - part) / each);
    const volumes = richest(parts, worth).map((share, i) => share / at(gml, i));
    const better = sum(volumes.filter((_, i) => counts[i])) / sum(volumes);
    // Volumes beyond all numbers have no part, and end it as well.
    if (!(better > part * (1 + 1e-15))) return better;
    part = better;
  }
}
