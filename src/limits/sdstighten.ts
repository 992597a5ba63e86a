import { at, sum } from "../lists.ts";
import { canBeWhole, lowsAndHighs } from "./intervals.ts";

/**
 * The narrowest ranges of a composition that must sum to 100 %.
 *
 * @remarks A component cannot be below 100 % less the highs of all others, nor above 100 % less
 * their lows. Every number in the narrower ranges is still possible. It says nothing of what is not
 * on the sheet: list that as a line of its own, 0 % to what it could be. A line with neither low
 * nor high has nothing of anything; one of the two alone is refused, as the other is not known.
 * @customfunction SDSTIGHTEN
 * @topic limits
 * @need What can the ranges on a safety data sheet really mean?
 * @words safety data sheet, SDS, MSDS, ingredient percentages, ranges
 * @param lows (share) One row or column: the low of each component.
 * @param highs (share) One row or column as long as lows: the high of each.
 * @returns (share) Two columns (or two rows, where lows is a row): the narrowest low and high of
 * each.
 * @throws value - the ranges cannot sum to 100 %: the text gives the sums
 * @throws value - a high is below its low
 * @throws value - a low or a high is blank beside the other: the text names the cell
 * @needs lows >= 0 and lows <= 1
 * @needs highs >= 0 and highs <= 1
 * @needs samelength(lows, highs)
 * @needs filled(lows) == filled(highs)
 * @needs lows <= highs
 * @needs sum(lows) <= 1 + 1e-9 and sum(highs) >= 1 - 1e-9
 * @working least (share): each one's low, or 100 % less the highs of the others where that is more
 * = larger(lows, 1 - (sum(highs) - highs))
 * @working most (share): each one's high, or 100 % less the lows of the others where that is less =
 * smaller(highs, 1 - (sum(lows) - lows))
 * @working [isrow] narrow (low: share; high: share): lows above highs = [least, most]
 * @working [not isrow] narrow (low: share; high: share): low beside high = transpose([least, most])
 * @source By hand: the exact bounds of the linear programme with one sum.
 * @example SDSTIGHTEN({0.6; 0.1; 0.01}, {0.8; 0.3; 0.05}) // => {65%, 80%; 15%, 30%; 1%, 5%}
 */
export function sdsTighten(lows: number[][], highs: number[][]): number[][] {
  const ranges = canBeWhole(
    "lows and highs",
    lowsAndHighs("highs", ["lows", "highs"], [lows, highs]),
  );
  const [least, most] = [sum(ranges.lows), sum(ranges.highs)];
  const narrow = ranges.lows.map((from, i) => {
    const to = at(ranges.highs, i);
    // Sums of the others: rounding must not push a bound outside its own range.
    const lowest = Math.max(from, Math.min(to, 1 - (most - to)));
    const highest = Math.min(to, Math.max(from, 1 - (least - from)));
    return [lowest, Math.max(lowest, highest)] as const;
  });
  return lows.length === 1 && narrow.length > 1
    ? [narrow.map(([from]) => from), narrow.map(([, to]) => to)]
    : narrow.map(([from, to]) => [from, to]);
}
